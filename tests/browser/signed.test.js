// @ts-check
/* Readings less than nothing, as toe-out is: our own keys have a sign where an entry can be so, and nowhere else. */
"use strict";

const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
const { address, barriers, kindOf, launch, limits, pages, tab, text } = require("./opened.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

/** @type {(page: string) => Record<string, Record<string, string>>} */
const facts = (page) => JSON.parse(text(limits(page)).replace(/^[^{]*|;\s*$/g, ""));
const sheets = pages.filter((page) => kindOf(page) === "engine sheet");
const rows = sheets.flatMap((page) => Object.values(facts(page)));

test("a row has the sign where its limits or what is plausible reach below nothing", () => {
  const of = (/** @type {boolean} */ signed) => new Set(rows.filter((row) => (row["signed"] !== undefined) === signed).map((row) => row["spec"]));
  for (const spec of ["toe", "timing.idle", "ski.toe"]) {
    assert.ok(of(true).has(spec) && !of(false).has(spec), spec);
  }
  for (const spec of ["lash.exhaust", "disc.thickness", "oil.pressure", "bore.diameter"]) {
    assert.ok(of(false).has(spec) && !of(true).has(spec), spec);
  }
});

const sheet = sheets.find((page) => Object.values(facts(page)).some((row) => row["spec"] === "toe" && /^-?[\d.]+\.\.[\d.]+ mm/.test(row["window"] ?? ""))) ?? "";

for (const [width, height] of [[360, 740], [740, 360], [1280, 900]]) {
  test(`toe-out is typed with our own keys at ${width} × ${height}`, async () => {
    assert.ok(sheet, "a build with a toe from below nothing");
    const { context, page, complaints } = await tab(browser, { viewport: { width: Number(width), height: Number(height) }, hasTouch: true, isMobile: Number(width) < 800 });
    await page.goto(address(sheet));
    const row = page.locator('[data-spec="toe"]').first();
    await row.scrollIntoViewIfNeeded();
    await row.locator("[data-reading]").tap();
    const met = page.locator(".dock [data-state=met]");
    // The first touch brings the bench: what it asks is there when it is.
    await met.or(page.locator(".dock [data-key=minus]")).first().waitFor();
    if (await met.isVisible()) {
      await met.tap();
    }
    for (const key of ["k9", "k9", "minus"]) {
      await page.locator(`.dock [data-key=${key}]`).tap();
    }
    assert.equal(await row.locator("[data-reading]").inputValue(), "-99");
    assert.match((await page.locator(".dock-detail").textContent()) ?? "", /^Toe-out by /);
    assert.equal(await page.locator(".dock").getAttribute("data-side"), "below");
    const keys = await page.locator(".dock .key:visible").evaluateAll((all) => all.map((one) => one.getBoundingClientRect()).map(({ x, y, width, height, right, bottom }) => ({ x, y, width, height, right, bottom })));
    assert.equal(keys.length, 16);
    for (const [at, one] of keys.entries()) {
      assert.ok(one.width >= 64 && one.height >= 63.5 && one.right <= Number(width) && one.bottom <= Number(height), JSON.stringify(one));
      for (const other of keys.slice(at + 1)) {
        const apart = Math.max(other.x - one.right, one.x - other.right, other.y - one.bottom, one.y - other.bottom);
        assert.ok(apart >= 11.5, "12 apart");
      }
    }
    assert.deepEqual(await barriers(page, false), []);
    await page.locator(".dock-close").tap();
    await page.locator('[data-spec="disc.thickness"] [data-reading]').first().tap();
    assert.equal(await page.locator(".dock [data-key=minus]").isVisible(), false, "a thickness is never less than nothing");
    assert.deepEqual(complaints, []);
    await context.close();
  });
}
