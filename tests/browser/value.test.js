// @ts-check
/* The handbook's script reads and refuses the texts of values as the compiler does, word for word. */
"use strict";

const assert = require("node:assert/strict");
const test = require("node:test");
const { vectors } = require("./compute.js");

test("every text is read or refused as written down", () => {
  const rows = vectors("values.json").vectors;
  assert.ok(rows.length > 1500);
  for (const { typed, ...expected } of rows) {
    const answer = baybookCompute.answered(() => ({ text: baybookCompute.Value.parse(typed).text() }));
    const found = "error" in answer ? { ...answer.error } : answer;
    assert.deepEqual(found, expected, JSON.stringify(typed));
  }
});
