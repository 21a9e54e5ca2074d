// @ts-check
/* The handbook's scripts plan shims as the compiler does: the same vectors hold both. */
"use strict";

const assert = require("node:assert/strict");
const test = require("node:test");
const { vectors } = require("./compute.js");

/** @type {{ job: BaybookShimJob, answer: BaybookShimPlan }[]} */
const cases = vectors("shims.json");

test("every job has the same plan", () => {
  assert.ok(cases.length > 300);
  for (const { job, answer } of cases) {
    assert.deepEqual(baybookCompute.shims(job), answer, JSON.stringify(job));
  }
});

test("sixteen valves are planned without a visible wait", () => {
  const valves = Array.from({ length: 16 }, (_, place) => ({
    name: `valve ${place + 1}`,
    measured: `0.${10 + ((place * 7) % 30)} mm`,
    fitted: `2.${40 + ((place * 5) % 40)} mm`,
  }));
  const started = performance.now();
  const planned = baybookCompute.shims({ window: "0.15..0.22 mm", stock_steps: "1.20..3.50 mm by 0.025 mm", valves });
  assert.ok("plan" in planned && planned.unsolved.length === 0);
  assert.ok(performance.now() - started < 500);
});

test("what cannot be planned is refused in words", () => {
  const valves = [{ name: "a", measured: "0.10 mm", fitted: "2.50 mm" }];
  /** @param {Partial<BaybookShimJob>} job */
  const refused = (job) => {
    const answer = baybookCompute.shims({ window: "0.15..0.25 mm", stock: [], valves, ...job });
    return "error" in answer ? answer.error.message : "";
  };
  assert.match(refused({ window: "max 0.25 mm" }), /one end/);
  assert.match(refused({ target: "0.30 mm" }), /does not lie/);
  assert.match(refused({ window: "1..2 kPa" }), /a length/);
  assert.match(refused({ valves: [...valves, ...valves] }), /two valves/);
  assert.match(refused({ valves: [] }), /no valves/);
  assert.match(refused({ stock_steps: "1..900 mm by 0.05 mm" }), /2000 sizes/);
  assert.match(refused({ valves: [{ name: "a", measured: "1", fitted: "2 mm" }] }), /no unit/);
});
