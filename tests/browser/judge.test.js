// @ts-check
/* The handbook's script judges readings as the oracle of the vectors and as the compiler does. */
"use strict";

const assert = require("node:assert/strict");
const test = require("node:test");
const { vectors } = require("./compute.js");

test("every reading is judged as worked out", () => {
  const rows = vectors("judge.json").vectors;
  assert.ok(rows.length > 2000);
  for (const { question, answer } of rows) {
    assert.deepEqual(baybookCompute.judge(question), answer, JSON.stringify(question));
  }
});

test("the keys stand in the order of the command's JSON", () => {
  const answer = baybookCompute.judge({ window: ["0.15..0.25 mm"], reading: "0.2 mm", state: "met" });
  const keys = ["verdict", "as_read", "direction", "by", "against", "left", "settle", "because"];
  assert.deepEqual(Object.keys(answer), keys);
});
