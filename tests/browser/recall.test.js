// @ts-check
/*
 * A record that was judged by a value recalled as wrong: it says so wherever it is opened, and is judged again.
 * BAYBOOK_RECALLED is a compiled handbook of `tests/cases/clean/every-key`, which recalls one value.
 */
"use strict";

const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
const { launch, other, tab } = require("./opened.js");
const { job, reading } = require("./bench.js");

const { folder: handbook, address } = other("BAYBOOK_RECALLED");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

/** A reading by the recalled limit. @param {Partial<Reading>} parts */
const judgedWrongly = (parts = {}) =>
  reading({ where: "cylinder=front", when: "air=under 35 °C;engine=hot", typed: { value: "0.34", unit: "mm" }, text: "0.34 mm", limits: { window: ["0.32 ± 0.05 mm"], new: [], wear_limit: [], below: "tight", above: "loose" }, judged: { ...(reading().judged ?? assert.fail()), verdict: "in spec", direction: null, by: null }, release: "2025.07", content: "old", ...parts });

/** A record of that engine with one reading. @param {ReturnType<typeof judgedWrongly>} one */
function record(one) {
  const made = job();
  made.build = { id: "engine-a", hash: "1", engine: "Engine A", machine: "Machine A" };
  baybookRecord.write(made, one);
  baybookRecord.settle(made);
  return made;
}

test("a reading warns by its limit or its release, and no other does", () => {
  const recall = { engine: "engine-a", of: "lash.exhaust", where: "cylinder=front", when: "air=under 35 °C;engine=hot", value: "0.32 ± 0.05 mm", releases: ["2025.07"], because: "Swapped." };
  globalThis.baybookRecalls = [recall];
  const warned = (/** @type {Partial<Reading>} */ parts) => baybookRecall.warnings(record(judgedWrongly(parts))).length;
  const right = { window: ["0.23 ± 0.05 mm"], new: [], wear_limit: [], below: null, above: null };
  assert.equal(warned({}), 1);
  assert.equal(warned({ release: "2025.03" }), 1, "that very limit, whatever the release is called");
  assert.equal(warned({ limits: right }), 1, "the release that stated it");
  assert.equal(warned({ limits: right, release: "2026.11" }), 0);
  assert.equal(warned({ where: "cylinder=rear" }), 0);
  assert.equal(warned({ of: "lash.intake" }), 0);
});

test("a record read from a file says at once that a value was recalled, and its papers say so too", async () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "baybook-recall-"));
  const file = path.join(folder, "job.json");
  fs.writeFileSync(file, JSON.stringify(record(judgedWrongly())));
  const { context, page, complaints } = await tab(browser, { viewport: { width: 360, height: 740 } }, handbook);
  await page.goto(address("job.html"));
  await page.locator('input[type="file"]').setInputFiles(file);
  const said = page.locator(".recalled");
  await said.waitFor();
  const words = (await said.textContent()) ?? "";
  assert.match(words, /Recalled: Exhaust valve lash, cylinder front, .*0\.32 ± 0\.05 mm of release 2025\.07, 2025\.09 is wrong\. Two digits were swapped/);
  assert.match(words, /Judged under release 2025\.07; this handbook is release 2026\.11/);
  assert.match((await page.locator(".paper-sheet").last().textContent()) ?? "", /Recalled: Exhaust valve lash/);
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 360);
  assert.deepEqual(complaints, []);
  await context.close();
  fs.rmSync(folder, { recursive: true });
});

test("an open record is judged again by the limits of today, and keeps the warning", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: { width: 360, height: 740 } }, handbook);
  await page.goto(address("job.html"));
  await page.evaluate((open) => {
    const store = baybookStorage.open(() => localStorage, document.body.dataset["base"] ?? "");
    const states = { "air=under 35 °C;engine=hot;stand=level": { answer: /** @type {const} */ ("met"), time: open.begun } };
    store.save({ ...store.load(), job: { ...open, states } }, true);
  }, record(judgedWrongly()));
  await page.goto(address("builds/engine-a/engine.html"));
  const guard = page.locator(".guard");
  await guard.waitFor();
  assert.match((await guard.textContent()) ?? "", /Judged again by release 2026\.11 \(taken under 2025\.07\): 1 verdict changed\. Recalled: Exhaust valve lash/);
  const row = page.locator('[data-spec="lash.exhaust"][data-where="cylinder=front"]').first();
  assert.equal(await row.locator("output.verdict").first().getAttribute("data-verdict"), "out");
  assert.deepEqual(complaints, []);
  await context.close();
});
