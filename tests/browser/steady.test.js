// @ts-check
/*
 * Nothing moves under a finger: what comes late to an engine sheet finds its room kept. The browser's own
 * measure is the layout-shift entry (Layout Instability, a draft of the W3C's community group); beside it the
 * places of all rows are compared before and after.
 */
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
const VIEWS = [PHONE, { width: 800, height: 900 }, { width: 1280, height: 900 }];
/** What a line of text may move where the face takes the place of the one that stood until it came. */
const FACE = 0.05;

const sheets = pages.filter((page) => kindOf(page) === "engine sheet");
const drawn = sheets.filter((page) => text(page).includes(" room-"));
/** The sheets that hold every height of drawing between them, and one with a shim plan. */
const heights = [...new Set(drawn.flatMap((page) => [...text(page).matchAll(/ room-([\d.]+)"/g)].map(([, height = ""]) => height)))];
const every = [...new Set(heights.map((height) => drawn.find((page) => text(page).includes(`room-${height}"`)) ?? ""))];
const planned = sheets.find((page) => text(page).includes('id="shim-plan"')) ?? "";

/** @typedef {{ value: number, at: number, what: string }} Shift */

/** A tab that notes every shift. @param {string} page @param {import("playwright-core").BrowserContextOptions} options @param {string} [theme] */
async function opened(page, options, theme = "light") {
  const made = await tab(browser, options);
  await made.page.addInitScript((theme) => {
    localStorage.setItem("baybook.theme", theme);
    /** @type {any} */ (globalThis).shifts = [];
    new PerformanceObserver((list) => {
      for (const entry of /** @type {any[]} */ (list.getEntries())) {
        const what = entry.sources.map((/** @type {any} */ one) => `${one.node?.nodeName} ${one.node?.id ?? ""} ${one.previousRect.y} to ${one.currentRect.y}`).join("; ");
        /** @type {any} */ (globalThis).shifts.push({ value: entry.value, at: entry.startTime, what });
      }
    }).observe({ type: "layout-shift", buffered: true });
  }, theme);
  await made.page.goto(address(page));
  /** @returns {Promise<Shift[]>} */
  const shifts = () => made.page.evaluate(() => /** @type {any} */ (globalThis).shifts);
  /** Where each row and part lies on the sheet. */
  const places = () =>
    made.page.evaluate(() =>
      [...document.querySelectorAll(".row, .part, .plan-windows > li")].map((one) => {
        const { top, height } = one.getBoundingClientRect();
        return `${one.id || one.querySelector("h3")?.textContent} ${Math.round(top + scrollY)} ${Math.round(height)}`;
      }),
    );
  return { ...made, shifts, places };
}

/** Goes to every row that waits for its drawing, until it has it. @param {import("playwright-core").Page} page */
async function readThrough(page) {
  /** Brings the next one into view; null where none is left. */
  const next = () =>
    page.evaluate(() => {
      const row = document.querySelector('[class*="room-"]')?.closest(".row");
      row?.scrollIntoView({ block: "center" });
      return row?.id ?? null;
    });
  for (let id = await next(); id !== null; id = await next()) {
    await page.waitForFunction((id) => !document.getElementById(id)?.outerHTML.includes(" room-"), id);
  }
}

test("every height of drawing has its sheet here", () => {
  assert.ok(heights.length > 2, heights.join());
  assert.ok(every.length > 0 && planned !== "");
});

for (const viewport of VIEWS) {
  test(`drawings come without moving a row, at ${viewport.width} px`, async () => {
    for (const sheet of every) {
      const { context, page, complaints, shifts, places } = await opened(sheet, { viewport });
      await page.waitForTimeout(300);
      const [first, standing] = [await shifts(), await places()];
      assert.ok(first.reduce((sum, { value }) => sum + value, 0) < FACE, JSON.stringify(first));
      assert.equal(await page.locator(".dimension, .curve, .stages-drawn").count() < await page.locator('[class*="room-"]').count(), true);
      await readThrough(page);
      assert.deepEqual((await shifts()).slice(first.length), [], sheet);
      assert.deepEqual(await places(), standing, sheet);
      assert.deepEqual(complaints, []);
      await context.close();
    }
  });

  test(`the shim plan comes without moving what is below it, at ${viewport.width} px`, async () => {
    for (const theme of ["light", "sun"]) {
      const { context, page, complaints, shifts, places } = await opened(planned, { viewport }, theme);
      await page.waitForTimeout(300);
      const standing = await places();
      assert.equal(await page.locator(".plan-valve").count(), 0);
      await page.locator('.index a[href="#shim-plan"]').click();
      await page.locator(".plan-valve").first().waitFor();
      await page.waitForTimeout(100);
      assert.deepEqual(await places(), standing, theme);
      const top = await page.locator("#shim-plan").evaluate((plan) => plan.getBoundingClientRect().top);
      assert.ok(top >= 0 && top < 70, `${top}`);
      // A sheet opened at its plan stands there from when it is loaded.
      const loaded = await opened(`${planned}#shim-plan`, { viewport }, theme);
      const before = await loaded.places();
      await loaded.page.locator(".plan-valve").first().waitFor();
      await loaded.page.waitForTimeout(100);
      assert.deepEqual(await loaded.places(), before);
      assert.deepEqual([...complaints, ...loaded.complaints], []);
      assert.ok((await shifts()).every(({ value }) => value < FACE), JSON.stringify(await shifts()));
      await loaded.context.close();
      await context.close();
    }
  });
}

test("a tap on a slow phone lands where it was aimed", async () => {
  const sheet = drawn[0] ?? "";
  for (let round = 0; round < 4; round += 1) {
    const { context, page, complaints } = await tab(browser, { viewport: PHONE, hasTouch: true });
    const session = await context.newCDPSession(page);
    await session.send("Emulation.setCPUThrottlingRate", { rate: 6 });
    await page.goto(address(sheet));
    const aimed = await page.locator(`.row[class*="room-"][data-unit]`).first().getAttribute("id");
    await page.locator(`[id="${aimed}"] [data-reading]`).first().tap();
    await page.locator(".dock:not([hidden])").waitFor();
    assert.equal(await page.evaluate(() => document.activeElement?.closest(".row")?.id), aimed);
    assert.deepEqual(complaints, []);
    await context.close();
  }
});
