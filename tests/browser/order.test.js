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

test("causes that no check tells apart are said to be so: straight from the definition", () => {
  const seen = [0, 0];
  for (const { job, results = {}, answer } of vectors("order.json").vectors.filter((/** @type {any} */ one) => one.answer.left)) {
    const left = Object.keys(answer.left);
    const shown = job.checks.filter((/** @type {any} */ one) => !(one.id in results)).map((/** @type {any} */ one) => left.filter((cause) => one.shows.includes(cause)).length);
    const alone = left.length < 2 || shown.some((/** @type {number} */ some) => some > 0 && some < left.length);
    assert.equal(baybookCompute.orderToldApart(job, results), alone, JSON.stringify({ job, results }));
    seen[Number(alone)] = (seen[Number(alone)] ?? 0) + 1;
  }
  assert.ok(seen.every((number) => number > 30), String(seen));
});

test("heat costs what is worked out, and is as long as it is in the trade", () => {
  const { changes, heat } = baybookCompute.orderHeat;
  const rows = vectors("heat.json").vectors;
  assert.ok(rows.length > 500);
  for (const { done, ahead, answer } of rows) {
    assert.deepEqual(heat(done, ahead), answer, JSON.stringify({ done, ahead }));
  }
  // Common practice, no source.
  assert.deepEqual([changes.warm.minutes, changes.cool.minutes], [12, 180]);
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
