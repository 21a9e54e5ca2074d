// @ts-check
/*
 * The verdict that stops a machine (common practice, no source): a brake under its limit, no oil pressure. It is said by
 * word, sign and place at the bench, and on the owner's page by default.
 */
"use strict";

const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const { after, before, test } = require("node:test");
const { address, barriers, kindOf, launch, limits, pages, tab, text } = require("./opened.js");
require("./compute.js");
const { job, reading } = require("./bench.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const disc = { of: "disc.thickness", title: "Brake disc thickness", where: "", when: "", asks: "", state: null, limits: { window: [], new: ["5.0 mm"], wear_limit: ["min 4.4 mm"], below: "worn", above: null } };

/** @param {Partial<Reading>} parts */
function taken(parts) {
  const one = reading({ ...disc, stop: "below", ...parts });
  return /** @type {Reading} */ ({ ...one, ...baybookVerdict.judge(one), no: 1, open: false, withdrawn: null });
}

test("out of its limits on the side that stops, and only then", () => {
  const typed = (/** @type {string} */ value) => ({ typed: { value, unit: "mm" } });
  const window = { limits: { ...disc.limits, window: ["4..6 mm"], new: [], wear_limit: [] } };
  const rough = { title: "Rule", kind: "length", span: "0..100 mm", resolution: null, error: "0.5 mm" };
  /** @type {[string, Partial<Reading>, boolean][]} */
  const cases = [
    ["worn away", typed("4.0"), true],
    ["with some left", typed("4.6"), false],
    ["too close to call", { ...typed("4.2"), gauge_facts: rough }, false],
    ["not judged", { ...typed("4.0"), asks: "wheel=off", state: "unanswered" }, false],
    ["a new part outside its fit", { ...typed("4.6"), fitting: "new" }, false],
    ["above, where below stops", { ...window, ...typed("7") }, false],
    ["above, where either stops", { ...window, ...typed("7"), stop: "either" }, true],
    ["above, where above stops", { ...window, ...typed("7"), stop: "above" }, true],
  ];
  for (const [what, parts, stops] of cases) {
    assert.equal(baybookVerdict.mustStop(taken(parts)), stops, what);
  }
  const { stop: _, ...other } = taken(typed("4.0"));
  assert.equal(baybookVerdict.mustStop(other), false, "an entry that stops nothing");
});

test("the owner's page lists it under do not ride, beside what the shop writes in; the shop's record says it", () => {
  const one = job();
  baybookRecord.write(one, taken({ typed: { value: "4.0", unit: "mm" } }));
  baybookRecord.settle(one);
  const ride = () => Object.fromEntries(baybookReport.owner(one))["Do not ride"]?.map((line) => line.replaceAll("\u00a0", " "));
  const line = "Brake disc thickness: 4.0 mm, outside the maker’s limits (new 5.0 mm, wear limit min 4.4 mm)";
  assert.deepEqual(ride(), [line]);
  one.written["do not ride"] = "Tie rod bent";
  assert.deepEqual(ride(), [line, "Tie rod bent"]);
  assert.match(baybookReport.readings(one)[0]?.[4] ?? "", /^Out of spec\. Do not run\. Worn by 0\.4 mm/);
  assert.deepEqual(baybookRecord.parse(JSON.stringify(one)), { ok: true, job: one });
  assert.equal(baybookRecord.parse(JSON.stringify(one).replace('"stop":"below"', '"stop":true')).ok, false);
  // Measured again with a new disc, it stops nothing more.
  baybookRecord.write(one, taken({ typed: { value: "5.0", unit: "mm" } }));
  delete one.written["do not ride"];
  assert.equal(ride()?.length, 1);
  assert.notEqual(ride()?.[0], line);
});

test("brake, steering, wheel bearing, held fuel pressure and oil pressure stop; what only wears does not", () => {
  const catalogue = path.join(__dirname, "../../specs/catalogue");
  const all = fs.readdirSync(catalogue).flatMap((file) => fs.readFileSync(path.join(catalogue, file), "utf8").split("[[entry]]").slice(1));
  const stops = Object.fromEntries(all.flatMap((entry) => {
    const [id, side] = ["id", "stop"].map((key) => new RegExp(`^${key} = "(.*)"`, "m").exec(entry)?.[1]);
    return id && side ? [[id, side]] : [];
  }));
  assert.deepEqual(stops, {
    "disc.thickness": "below",
    "disc.runout": "above",
    "pad.thickness": "below",
    "lever.play": "either",
    "pedal.play": "either",
    "steering.play": "either",
    "wheel.bearing-play": "either",
    "oil.pressure": "below",
    "fuel.hold": "below",
  });
});

for (const width of [360, 1280]) {
  test(`a disc under its limit says not to run the machine, at ${width}`, async () => {
    const sheet = pages.find((page) => kindOf(page) === "engine sheet" && text(page).includes('data-spec="disc.thickness"') && /"disc[^}]*"spec":"disc\.thickness"[^}]*"stop":"below"/.test(text(limits(page)))) ?? "";
    assert.ok(sheet, "a build with a brake disc");
    const { context, page, complaints } = await tab(browser, { viewport: { width, height: 740 }, hasTouch: width === 360 });
    await page.goto(address(sheet));
    const row = page.locator('[data-spec="disc.thickness"]').first();
    await row.scrollIntoViewIfNeeded();
    await row.locator("[data-reading]").click();
    await page.locator(".dock-close").waitFor();
    await page.keyboard.type("9");
    assert.equal(await page.locator(".dock-stop").isVisible(), false);
    await page.keyboard.press("Backspace");
    await page.keyboard.type("0.5");
    const [inRow, inDock] = [row.locator(".verdict .must-stop"), page.locator(".dock-stop")];
    assert.deepEqual([await inRow.textContent(), await inDock.textContent()], ["Do not run", "Do not run"]);
    assert.equal(await inDock.isVisible(), true);
    assert.equal(await inDock.locator("svg").count(), 1, "by a sign too");
    assert.ok(await inDock.evaluate((one) => parseFloat(getComputedStyle(one).fontSize) >= 28));
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= width);
    assert.deepEqual(await barriers(page, false), []);
    await page.locator(".dock-close").click();
    assert.equal(await inRow.isVisible(), true);
    await page.goto(address("job.html"));
    const part = page.locator(".paper-part", { has: page.locator("h3", { hasText: "Do not ride" }) });
    assert.match((await part.textContent()) ?? "", /Brake disc thickness.*0\.5\u00a0mm/);
    assert.deepEqual(complaints, []);
    await context.close();
  });
}
