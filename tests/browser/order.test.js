// @ts-check
/* The handbook's script orders checks as the oracle of the vectors and as the compiler does. */
"use strict";

const assert = require("node:assert/strict");
const test = require("node:test");
const { vectors } = require("./compute.js");

test("every complaint is ordered as worked out", () => {
  const rows = vectors("order.json").vectors;
  assert.ok(rows.length > 1500);
  for (const { job, results, answer, why } of rows) {
    assert.deepEqual(baybookCompute.order(job, results), answer, JSON.stringify({ job, results }));
    const steps = baybookCompute.orderSteps(job, results);
    assert.deepEqual(Array.isArray(steps) ? steps.map((step) => step.why) : undefined, why, JSON.stringify(job));
  }
});

test("the steps say what is opened, how long it takes and what it finds", () => {
  const job = {
    causes: [
      { id: "a", share: "3" },
      { id: "b", share: 1 },
    ],
    access: [{ id: "seat", minutes: "1" }],
    checks: [
      { id: "B", minutes: 9, shows: ["b"] },
      { id: "A", minutes: "2.5", shows: ["a"], needs: ["seat"] },
    ],
  };
  const steps = baybookCompute.orderSteps(job);
  assert.ok(Array.isArray(steps));
  assert.deepEqual(
    steps.map(({ check, opens, minutes, by, finds }) => [check, opens, minutes.text(), by.text(), finds.text()]),
    [
      ["A", ["seat"], "3.5", "3.5", "0.75"],
      ["B", [], "9", "12.5", "0.25"],
    ],
  );
});
