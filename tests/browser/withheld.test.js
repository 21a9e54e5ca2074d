// @ts-check
/*
 * A bulletin that says not to run a machine heads every sheet it touches, the sums that an engine sheet leads to and the
 * papers of a job among them; invented data is said to be so on every sheet.
 */
"use strict";

const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
const { address, barriers, kindOf, launch, pages, tab, text } = require("./opened.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const stopped = pages.find((page) => kindOf(page) === "engine sheet" && text(page).includes("panel stop") && text(page).includes("sums.html?for=")) ?? "";
const other = pages.find((page) => kindOf(page) === "engine sheet" && !text(page).includes("panel stop") && text(page).includes("sums.html?for=")) ?? "";
/** Its words, however the page is spaced. @param {string | null} text */
const said = (text) => (text ?? "").replace(/\s+/g, "");

test("every sheet says that its data is invented, bench cards in their own place", () => {
  const silent = pages.filter((page) => !/Invented data/i.test(text(page)));
  assert.deepEqual(silent, []);
});

for (const width of [360, 1280]) {
  test(`the sums of a machine that must not be run say so first, at ${width}`, async () => {
    assert.ok(stopped && other, "a build that a bulletin stops, and one that none does");
    const { context, page, complaints } = await tab(browser, { viewport: { width, height: 740 } });
    await page.goto(address(stopped));
    const panel = said(await page.locator(".panel.stop").textContent());
    assert.match(panel, /^DONOTRUN/);
    await page.locator('a[href*="sums.html?for="]').first().click();
    await page.locator(".frame > .panel.stop:first-child").waitFor();
    assert.equal(said(await page.locator(".panel.stop").textContent()), panel, "the words of the engine sheet");
    assert.deepEqual(await barriers(page, false), []);
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= width);
    await page.goto(address(other));
    await page.locator('a[href*="sums.html?for="]').first().click();
    await page.locator("#offered").waitFor();
    assert.equal(await page.locator(".panel.stop").count(), 0);
    assert.deepEqual(complaints, []);
    await context.close();
  });

  test(`both papers of its job are headed by it, on the screen and in print, at ${width}`, async () => {
    const { context, page, complaints } = await tab(browser, { viewport: { width, height: 740 } });
    await page.goto(address(stopped));
    const panel = said(await page.locator(".panel.stop").textContent());
    await page.locator("[data-reading]").first().click();
    await page.locator(".dock-close").waitFor();
    await page.keyboard.type("9");
    await page.goto(address("job.html"));
    const panels = page.locator("main .panel.stop");
    assert.deepEqual((await panels.allTextContents()).map(said), [panel, panel, panel]);
    for (const paper of await page.locator(".paper-sheet").all()) {
      assert.equal(await paper.locator("h2 + .panel.stop").count(), 1);
    }
    assert.deepEqual(await barriers(page, false), []);
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= width);
    await page.emulateMedia({ media: "print" });
    assert.deepEqual(await panels.evaluateAll((all) => all.map((one) => one.checkVisibility())), [false, true, true]);
    assert.deepEqual(complaints, []);
    await context.close();
  });
}
