// @ts-check
/* The handbook's script takes what is typed for what the oracle of the vectors wrote down. */
"use strict";

const assert = require("node:assert/strict");
const test = require("node:test");
const { vectors } = require("./compute.js");

test("every reading is taken for what it means", () => {
  const rows = vectors("readings.json").vectors;
  assert.ok(rows.length > 2000);
  for (const { typed, unit, reading } of rows) {
    const taken = baybookCompute.reading(typed, unit);
    const answer = taken.ok ? { ...taken, value: taken.value.text() } : taken;
    assert.deepEqual(answer, reading, `${JSON.stringify(typed)} in ${unit}`);
  }
});
