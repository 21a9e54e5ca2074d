// @ts-check
/*
 * A closed record of an older release on the page of jobs: what the limits are now, and what its readings would be by
 * them; the record itself stays as it was taken. BAYBOOK_NEXT is the release after BAYBOOK_SMALL, with other limits.
 */
"use strict";

const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
const { launch, other, tab } = require("./opened.js");
require("./compute.js");
const { job, reading, verdict } = require("./bench.js");

const { folder: handbook, address } = other("BAYBOOK_NEXT");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

/** A record with some readings. @param {Partial<Reading>[]} readings */
function record(...readings) {
  const made = job();
  for (const one of readings) {
    baybookRecord.write(made, reading(one));
    baybookRecord.settle(made);
  }
  return made;
}

const now = { release: "2026.12", content: "next" };
const facts = { spec: "lash.exhaust", where: "cylinder=front", when: "engine=cold", window: "0.23 ± 0.02 mm", below: "tight", above: "loose", kind: "length", units: "mm" };
const key = "lash.exhaust|cylinder=front|engine=cold";

test("another limit is told with what the reading is by it", () => {
  const lines = baybookToday.lines(record({}), now, { [key]: { ...facts, window: "0.25 ± 0.05 mm" } }, {});
  assert.deepEqual(lines, ["Exhaust valve lash, cylinder front: judged by 0.23\u00a0±\u00a00.02\u00a0mm of release 2026.11; release 2026.12 has 0.25\u00a0±\u00a00.05\u00a0mm. By that, 0.27\u00a0mm: in spec, and it was out of spec. Judged by the window."]);
  const [tighter = ""] = baybookToday.lines(record({}), now, { [key]: { ...facts, window: "0.20 ± 0.02 mm" } }, {});
  assert.match(tighter, /: still out of spec\. Loose by 0\.05.mm/);
});

test("the same limits are said to be the same, and a reading of this release is nothing to tell", () => {
  assert.deepEqual(baybookToday.lines(record({}), now, { [key]: facts }, {}), ["The limits of every reading are the same in release 2026.12."]);
  assert.deepEqual(baybookToday.lines(record({ content: "next" }), now, {}, {}), []);
  assert.deepEqual(baybookToday.lines(record(), now, null, {}), []);
  const two = record({ where: "cylinder=rear" }, {});
  const lines = baybookToday.lines(two, now, { [key]: facts }, {});
  assert.equal(lines.length, 2);
  assert.match(lines[0] ?? "", /cylinder rear: .*release 2026\.12 has no limits for it in that place and state/);
  assert.equal(lines[1], "The limits of 1 other reading are the same in release 2026.12.");
});

test("a reading that was taken back says nothing, a build that is gone says so, and a moved id is followed", () => {
  const taken = record({});
  baybookRecord.withdraw(taken, reading({}), 1, "2026-11-25T12:00:00.000Z");
  assert.deepEqual(baybookToday.lines(taken, now, {}, {}), []);
  assert.deepEqual(baybookToday.lines(record({}), now, null, {}), ["Release 2026.12 has no build ox-887: what this record was judged by is no longer stated."]);
  const old = record({ of: "clearance.exhaust" });
  assert.deepEqual(baybookToday.lines(old, now, { [key]: facts }, { "clearance.exhaust": "lash.exhaust" }), ["The limits of every reading are the same in release 2026.12."]);
});

test("what is now asked for and was not answered leaves the reading unjudged", () => {
  const [line = ""] = baybookToday.lines(record({}), now, { [key]: { ...facts, needs: "stand=level" } }, {});
  assert.match(line, /0\.27.mm: cannot judge, and it was out of spec\. The limit holds with engine cold, stand level/);
});

/** A ring gap measured at 0.78 mm on the small base, whose next release has a wider wear limit. */
function closed() {
  const limits = { window: [], new: ["0.25..0.40 mm"], wear_limit: ["max 0.75 mm"], below: "low", above: "high" };
  const judged = verdict({ verdict: "out of spec", direction: "high", by: { min: "0.03", max: "0.03", unit: "mm" }, against: "wear_limit" });
  const made = record({ of: "ring.end-gap", where: "ring=top", when: "", asks: "", state: null, title: "Ring end gap", typed: { value: "0.78", unit: "mm" }, text: "0.78 mm", limits, judged });
  made.build = { id: "engine-a", hash: "1", engine: "Engine A", machine: "Machine A" };
  made.closed = "2026-11-25T12:00:00.000Z";
  return made;
}

for (const width of [360, 1280]) {
  test(`a closed record is held against the limits of today at ${width}, on both papers and without a change`, async () => {
    const { context, page, complaints } = await tab(browser, { viewport: { width, height: 740 } }, handbook);
    await page.goto(address("job.html"));
    const before = await page.evaluate((one) => {
      const name = document.body.dataset["base"] ?? "";
      const store = baybookStorage.open(() => localStorage, name);
      store.save({ ...store.load(), closed: [one] }, true);
      return localStorage.getItem(`baybook.closed.${name}`);
    }, closed());
    await page.reload();
    const said = page.locator(".recalled");
    await said.getByText("release 2026.12 has").waitFor();
    const words = ((await said.textContent()) ?? "").replaceAll("\u00a0", " ");
    assert.match(words, /Ring end gap, ring top: judged by new 0\.25\.\.0\.40 mm, wear limit max 0\.75 mm of release 2026\.11; release 2026\.12 has new 0\.25\.\.0\.40 mm, wear limit max 0\.80 mm\. By that, 0\.78 mm: in spec, and it was out of spec\. 0\.02 mm left to the wear limit/);
    const shop = ((await page.locator(".paper-sheet").last().textContent()) ?? "").replaceAll("\u00a0", " ");
    assert.match(shop, /Limits today.*wear limit max 0\.80 mm/);
    // The verdict in the record is the one that was given.
    assert.match(shop, /out of spec.*high by 0\.03 mm/is);
    const stored = await page.evaluate(() => localStorage.getItem(`baybook.closed.${document.body.dataset["base"] ?? ""}`));
    assert.equal(stored, before);
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= width);
    assert.deepEqual(complaints, []);
    await context.close();
  });
}

test("a record of a build that this handbook does not have says so", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: { width: 360, height: 740 } }, handbook);
  await page.goto(address("job.html"));
  await page.evaluate((one) => {
    const store = baybookStorage.open(() => localStorage, document.body.dataset["base"] ?? "");
    store.save({ ...store.load(), closed: [{ ...one, build: { ...one.build, id: "engine-b" } }] }, true);
  }, closed());
  await page.reload();
  await page.getByText("Release 2026.12 has no build engine-b").first().waitFor();
  assert.deepEqual(complaints, []);
  await context.close();
});
