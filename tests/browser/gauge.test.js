// @ts-check
/* The gauge in hand: kept for its kind, and put down where its span does not reach the limits. */
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

const sheet = pages.find((page) => kindOf(page) === "engine sheet" && ['"spec":"lash.exhaust"', '"spec":"bore.diameter"', '"spec":"ring.end-gap"'].every((one) => text(limits(page)).includes(one))) ?? "";

for (const width of [360, 1280]) {
  test(`a feeler chosen at the lash does not measure the bore, at ${width}`, async () => {
    assert.ok(sheet, "a build with a lash, a bore and a ring gap");
    const { context, page, complaints } = await tab(browser, { viewport: { width, height: 740 }, hasTouch: width === 360 });
    await page.goto(address(sheet));
    const row = (/** @type {string} */ spec) => page.locator(`[data-spec="${spec}"]`).first();
    const select = page.locator(".dock-options select");
    const note = page.locator(".dock-options .instead");
    const close = () => page.locator(".dock-close").click();
    /** @param {string} spec @param {string} value */
    const read = async (spec, value) => {
      await row(spec).scrollIntoViewIfNeeded();
      await row(spec).locator("[data-reading]").first().click();
      const met = page.locator(".dock [data-state=met]");
      // The first touch brings the bench: what it asks is there when it is.
      await met.or(select).first().waitFor();
      if (await met.isVisible()) {
        await met.click();
      }
      await page.keyboard.type(value);
    };
    const last = () => page.evaluate(() => JSON.parse(localStorage.getItem(`baybook.job.${document.body.dataset["base"]}`) ?? "").job.readings.at(-1));
    await read("lash.exhaust", "0.2");
    await select.selectOption("feeler");
    assert.equal(await note.textContent(), "");
    await close();
    await read("bore.diameter", "92.02");
    assert.notEqual(await row("bore.diameter").locator("output.verdict").first().getAttribute("data-verdict"), "none");
    assert.equal(await note.textContent(), "Feeler gauge set does not reach these limits: Bore gauge set with ring is taken.");
    assert.equal(await select.inputValue(), "bore-gauge");
    assert.equal((await last()).gauge, "bore-gauge");
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= width);
    assert.deepEqual(await barriers(page, false), []);
    // What is chosen here all the same is meant, for this row alone, and told that it judges nothing.
    await select.selectOption("feeler");
    assert.equal(await row("bore.diameter").locator("output.verdict").first().getAttribute("data-verdict"), "none");
    assert.equal(await note.textContent(), "");
    await select.selectOption("micrometer-large");
    assert.equal((await last()).gauge, "micrometer-large");
    await close();
    // The small gap now has a gauge in hand that does not reach it, and falls back to its own.
    await read("ring.end-gap", "0.3");
    assert.equal((await last()).gauge, "feeler");
    assert.match((await note.textContent()) ?? "", /^Outside micrometer set does not reach these limits: Feeler gauge set is taken\.$/);
    assert.deepEqual(complaints, []);
    await context.close();
  });
}
