// @ts-check
/* On which side of its limits a reading is shown: told by the comparison, whatever the trade calls that side. */
"use strict";

const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const { after, before, test } = require("node:test");
const { address, kindOf, launch, limits, pages, tab, text } = require("./opened.js");
require("./compute.js");
const { reading } = require("./bench.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

/** The entries of the demo base with words of their own for a side. */
const catalogue = path.join(__dirname, "../../specs/catalogue");
const entries = fs.readdirSync(catalogue).flatMap((file) => {
  const blocks = fs.readFileSync(path.join(catalogue, file), "utf8").split("[[entry]]").slice(1);
  const word = (/** @type {string} */ block, /** @type {string} */ key) => new RegExp(`^${key} = "([^"]+)"`, "m").exec(block)?.[1] ?? null;
  return blocks.map((block) => ({ id: word(block, "id") ?? "", below: word(block, "below"), above: word(block, "above") }));
});
const worded = entries.filter(({ below, above }) => below !== null || above !== null);

test("every entry's readings lie on the side they lie on, whatever the words of the trade", () => {
  assert.ok(worded.length > 70, "the catalogue has words for the sides");
  assert.ok(worded.some(({ above }) => above === "early") && worded.some(({ below }) => below === "early"), "one word can stand for either side");
  for (const { id, below, above } of [...worded, { id: "of two words alike", below: "off", above: "off" }]) {
    /** @type {[string, Partial<Limits>, string][]} */
    const cases = [
      ["5", { window: ["10..20 mm"] }, "below"],
      ["15", { window: ["10..20 mm"] }, "in"],
      ["25", { window: ["10..20 mm"] }, "above"],
      ["5", { new: ["14..16 mm"], wear_limit: ["min 12 mm"] }, "below"],
      ["25", { new: ["14..16 mm"], wear_limit: ["max 18 mm"] }, "above"],
    ];
    for (const [value, given, side] of cases) {
      const one = reading({ of: id, typed: { value, unit: "mm" }, limits: { window: [], new: [], wear_limit: [], ...given, below, above } });
      const { judged } = baybookVerdict.judge(one);
      assert.equal(baybookVerdict.side(one), side, `${id}: ${value} mm of ${JSON.stringify(given)}, ${judged.direction}`);
      assert.equal(judged.direction, side === "in" ? null : side === "below" ? below ?? "low" : above ?? "high");
    }
  }
});

test("what is not judged lies on no side, and what may be beyond both limits on neither", () => {
  assert.equal(baybookVerdict.side(reading({ state: "unmet" })), "none");
  const wide = { title: "Rule", kind: "length", span: "0..1 mm", resolution: null, error: "0.5 mm" };
  assert.equal(baybookVerdict.side(reading({ typed: { value: "0.23", unit: "mm" }, gauge_facts: wide })), "in");
});

test("on a sheet, a worn disc stands on the side where its drawing has it", async () => {
  const sheet = pages.find((page) => kindOf(page) === "engine sheet" && text(page).includes('data-spec="disc.thickness"') && text(limits(page)).includes('"spec":"disc.thickness"')) ?? "";
  assert.ok(sheet, "a build with a brake disc");
  for (const width of [360, 1280]) {
    const { context, page, complaints } = await tab(browser, { viewport: { width, height: 740 }, hasTouch: width === 360 });
    await page.goto(address(sheet));
    const row = page.locator('[data-spec="disc.thickness"]').first();
    await row.scrollIntoViewIfNeeded();
    await row.locator("[data-reading]").click();
    await page.locator(".dock-close").waitFor();
    await page.keyboard.type("0.5");
    assert.equal(await row.locator("output.verdict").getAttribute("data-verdict"), "out");
    assert.match((await row.locator("output.verdict").textContent()) ?? "", /Worn by/);
    assert.equal(await row.locator(".slot").first().getAttribute("data-side"), "below");
    assert.equal(await page.locator(".dock").getAttribute("data-side"), "below");
    await row.locator(".m-reading").waitFor();
    assert.equal(await row.locator(".m-off").first().textContent(), "below the scale");
    assert.deepEqual(complaints, []);
    await context.close();
  }
});
