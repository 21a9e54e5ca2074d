// @ts-check
/* The handbook's scripts reckon the bench sums as the compiler does: the same vectors hold both. */
"use strict";

const assert = require("node:assert/strict");
const test = require("node:test");
const { vectors } = require("./compute.js");

const { table, cases } = vectors("sums.json");

test("there are vectors of every sum", () => {
  assert.ok(cases.length > 800);
  for (const sum of table) {
    assert.ok(cases.some((/** @type {any} */ one) => one.sum === sum.id && one.outcome), sum.id);
  }
});

for (const sum of table) {
  test(`${sum.group} ${sum.id} gives the same answers, notes and refusals`, () => {
    for (const { sum: id, given, outcome, refused } of cases) {
      if (id === sum.id) {
        const expected = outcome ?? { refused };
        assert.deepEqual(baybookCompute.sums.work(sum, given), expected, `${id} ${JSON.stringify(given)}`);
      }
    }
  });
}
