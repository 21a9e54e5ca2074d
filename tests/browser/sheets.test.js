// @ts-check
/* The sheets behind an engine sheet, what folds on a phone, and the age of a copy. */
"use strict";

const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
const { address, kindOf, launch, pages, tab, text } = require("./opened.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const PHONE = { width: 360, height: 740 };
const DESK = { width: 1280, height: 900 };
const DAY = 86_400_000;

const engineSheets = pages.filter((page) => kindOf(page) === "engine sheet");
const folded = engineSheets.find((page) => text(page).includes('class="fold"')) ?? "";

test("a copy past its age asks for a newer one, a fresh copy does not", async () => {
  const sheet = engineSheets[0] ?? "";
  const [, date = "", days = ""] = /data-date="([^"]+)" data-stale-after="(\d+)"/.exec(text(sheet)) ?? [];
  const limit = Date.parse(`${date}T00:00:00Z`) + Number(days) * DAY;
  for (const [late, shown] of /** @type {[number, boolean][]} */ ([[-DAY, false], [0, false], [DAY, true], [40 * DAY, true]])) {
    const { context, page, complaints } = await tab(browser, { viewport: PHONE });
    await page.clock.setFixedTime(limit + late);
    for (const name of ["index.html", sheet, "gauges.html"]) {
      await page.goto(address(name));
      const age = page.locator(".age").first();
      assert.equal(await age.isVisible(), shown, `${name}, ${late / DAY} days past its age`);
      if (shown) {
        assert.equal(await age.textContent(), `${Number(days) + late / DAY} days old: ask for a newer copy`);
      }
    }
    assert.deepEqual(complaints, []);
    await context.close();
  }
});

test("the service groups begin on the first screen of a phone, scripts off", async () => {
  const { context, page } = await tab(browser, { viewport: PHONE, javaScriptEnabled: false });
  for (const sheet of engineSheets.filter((one) => !text(one).includes('class="panel stop"'))) {
    await page.goto(address(sheet));
    const box = await page.locator("#index a").first().boundingBox();
    assert.ok(box && box.y + box.height <= PHONE.height, `${sheet}: the first group ends at ${box && box.y + box.height} px`);
  }
  await context.close();
});

test("what folds opens by a tap without scripts, and stands open on a wide sheet and on paper", async () => {
  const { context, page } = await tab(browser, { viewport: PHONE, javaScriptEnabled: false });
  await page.goto(address(folded));
  const words = page.locator(".fold .fine").first();
  const summary = page.locator(".fold summary").first();
  const visible = () => words.evaluate((one) => one.checkVisibility({ contentVisibilityAuto: true }));
  assert.equal(await visible(), false);
  for (const one of await page.locator(".fold summary").all()) {
    assert.ok(((await one.boundingBox())?.height ?? 0) >= 47.5, "a summary is a target");
  }
  await summary.click();
  assert.equal(await visible(), true);
  await summary.click();
  await page.emulateMedia({ media: "print" });
  assert.equal(await visible(), true, "on paper");
  await page.emulateMedia({ media: "screen" });
  await page.setViewportSize(DESK);
  assert.equal(await visible(), true, "on a wide sheet");
  await context.close();
});

test("from home a complaint leads to its sheet, its causes and its procedures, scripts off", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE, javaScriptEnabled: false });
  await page.goto(address("index.html"));
  await page.locator('a.door[href^="complaints.html#"]').first().click();
  const place = page.url().split("#")[1] ?? "";
  await page.locator(`[id="${place}"] .chips a`).first().click();
  assert.match(page.url(), /builds\/.*\/complaint-.*\.html$/);
  assert.ok((await page.locator(".causes li").count()) > 1);
  assert.ok(await page.locator(".jobs svg").getAttribute("aria-label"));
  await page.locator('.checks a[href^="#cause-"]').first().click();
  assert.match(page.url(), /#cause-/);
  await page.locator(".checks a.plain-link").first().click();
  assert.ok((await page.locator("[data-step]").count()) > 0);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("from an engine sheet a code leads back to the row to measure, scripts off", async () => {
  const sheet = engineSheets.find((page) => text(page).includes('href="../../codes/')) ?? "";
  const { context, page } = await tab(browser, { viewport: PHONE, javaScriptEnabled: false });
  await page.goto(address(sheet));
  await page.locator('.index a[href^="../../codes/"]').first().click();
  await page.locator(".index a").first().click();
  const code = page.locator(`[id="${page.url().split("#")[1]}"]`);
  await code.locator(".which summary").first().click();
  const link = code.locator(`.which[open] a[href^="../${sheet}#"]`).first();
  assert.ok(((await link.boundingBox())?.height ?? 0) >= 47.5);
  await link.click();
  assert.ok(await page.locator(`[id="${page.url().split("#")[1]}"] .value`).isVisible());
  await context.close();
});

test("a row's source leads to its page, and the value there leads back", async () => {
  const { context, page } = await tab(browser, { viewport: PHONE, javaScriptEnabled: false });
  await page.goto(address(engineSheets[0] ?? ""));
  const row = page.locator(".row").first();
  const of = await row.getAttribute("data-spec");
  await row.locator('cite a[href*="/sources/"]').click();
  const read = page.locator(`[id="${page.url().split("#")[1]}"] [data-spec="${of}"]`).first();
  await read.locator(".rows-of a").first().click();
  assert.ok(page.url().split("#")[1]?.startsWith((of ?? "").replaceAll(".", "_")));
  await context.close();
});
