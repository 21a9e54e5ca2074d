// @ts-check
/* The shim planner of an engine sheet: fitted shims typed, lashes typed or taken from the sheet, the plan below. */
"use strict";

const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
require("./compute.js");
const { address, kindOf, launch, pages, tab, text } = require("./opened.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const PHONE = { width: 360, height: 740 };
const engines = pages.filter((page) => kindOf(page) === "engine sheet");
const planned = engines.filter((page) => text(page).includes('id="shim-plan"'));

test("an engine with shims has a planner, one with screws has none", () => {
  assert.ok(planned.length > 3 && planned.length < engines.length);
  for (const page of planned) {
    assert.match(text(page), /data-plans="lash\./, page);
  }
});

test("our own keys in the shim plan, with what the plan says above them", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE, hasTouch: true, isMobile: true });
  await page.goto(address(`${planned[0] ?? ""}#shim-plan`));
  await page.locator(".plan-valve input").first().tap();
  const dock = page.locator(".sum-keys");
  for (const name of ["k0", "point", "k1", "k3", "next", "k2", "point", "k1", "k0"]) {
    await dock.locator(`[data-key="${name}"]`).tap();
  }
  assert.deepEqual(await page.locator(".plan-valve input").evaluateAll((all) => all.slice(0, 2).map((one) => /** @type {HTMLInputElement} */ (one).value)), ["0.13", "2.10"]);
  assert.match((await dock.locator(".dock-detail").textContent()) ?? "", /stock/);
  const { height = 0 } = (await dock.locator('[data-key="k5"]').boundingBox()) ?? {};
  assert.ok(height >= 63.9);
  // A reading of the sheet has the keys of the bench; never two at once.
  await page.locator(".entry [data-reading]").first().tap();
  await page.locator('.dock:not(.sum-keys):not([hidden])').waitFor();
  assert.equal(await dock.isVisible(), false);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("two valves that put each other right are planned on a phone", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(address(`${planned[0] ?? ""}#shim-plan`));
  const window = page.locator("[data-plans]").first();
  const limits = (await window.getAttribute("data-window")) ?? "";
  const [low, high] = [baybookCompute.Value.parse(limits).min(), baybookCompute.Value.parse(limits).max()];
  const middle = (Number(low?.text) + Number(high?.text)) / 2;
  assert.ok(middle > 0, limits);
  await window.locator(".more").click();
  const fields = window.locator(".plan-valve input");
  const [tight, loose] = [(middle - 0.05).toFixed(3), (middle + 0.05).toFixed(3)];
  for (const [place, typed] of [tight, "2.10", loose, "2.05"].entries()) {
    await fields.nth(place).fill(typed);
  }
  const lines = page.locator(".plan-lines li");
  assert.deepEqual(await page.locator(".plan-lines .number").allTextContents(), ["2.05 mm", "2.10 mm"]);
  assert.match((await lines.first().textContent()) ?? "", /from .* 2/);
  assert.match((await page.locator("#shim-plan output").textContent()) ?? "", /Nothing from stock/);
  const small = await page.evaluate(() =>
    [...document.querySelectorAll("#shim-plan input, #shim-plan button")].filter((one) => one.getBoundingClientRect().height < 63.5).length,
  );
  assert.equal(small, 0);
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 360);
  await fields.nth(0).fill("0");
  assert.match((await page.locator("#shim-plan output").textContent()) ?? "", /fit a thinner shim/);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("what the maker asks to set is aimed at, and a shim that misses it is named", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  const asked = planned.filter((one) => text(one).includes('data-set-to="0.26..0.28 mm"'));
  assert.ok(asked.length > 0);
  await page.goto(address(`${asked[0] ?? ""}#shim-plan`));
  const window = page.locator("[data-set-to]").first();
  assert.deepEqual(
    [await window.getAttribute("data-window"), await window.getAttribute("data-target"), await window.getAttribute("data-set-to")],
    ["0.26 ± 0.02 mm", "0.27 mm", "0.26..0.28 mm"],
  );
  assert.match((await window.locator("p").first().textContent()) ?? "", /set to 0\.26/);
  const [measured, fitted] = [window.locator(".plan-valve input").nth(0), window.locator(".plan-valve input").nth(1)];
  await measured.fill("0.20");
  await fitted.fill("2.60");
  // Worked by hand: 2.60 + 0.20 = 2.80; 2.55 leaves 0.25, within the window and short of what is asked; 2.52 leaves 0.28.
  const output = page.locator("#shim-plan output");
  await page.locator("#plan-stock").fill("2.55 mm, 2.52 mm");
  assert.deepEqual(await page.locator(".plan-lines .number").allTextContents(), ["2.52 mm"]);
  assert.doesNotMatch((await output.textContent()) ?? "", /is to be set to/);
  await page.locator("#plan-stock").fill("2.55 mm");
  assert.deepEqual(await page.locator(".plan-lines .number").allTextContents(), ["2.55 mm"]);
  assert.match((await output.textContent()) ?? "", /within the limits, but off the 0\.26.*mm it is to be set to/);
  // One that lies within its limits stays.
  await measured.fill("0.25");
  assert.deepEqual(await page.locator(".plan-lines .number").allTextContents(), ["stays"]);
  assert.doesNotMatch((await output.textContent()) ?? "", /is to be set to/);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a lash that is read on the sheet is taken, and one typed here is left alone", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(address(planned[0] ?? ""));
  const window = page.locator("[data-plans]").first();
  const [of, where] = [await window.getAttribute("data-plans"), await window.getAttribute("data-where")];
  await page.evaluate(
    ([of, where]) => {
      const rows = [...document.querySelectorAll(`[data-spec="${of}"]`)];
      const row = rows.find((one) => one.getAttribute("data-where") === where);
      const field = row?.querySelector("[data-reading]") ?? row?.appendChild(document.createElement("input"));
      field?.setAttribute("data-reading", "value");
    },
    [of, where],
  );
  const read = page.locator(`[data-spec="${of}"][data-where="${where}"] [data-reading="value"]`).first();
  const measured = window.locator(".plan-valve input").first();
  // Read before the plan is come to, and again with the plan in view.
  await read.fill("0.16");
  await page.locator("#shim-plan").scrollIntoViewIfNeeded();
  assert.equal(await measured.inputValue(), "0.16");
  await read.fill("0.17");
  assert.equal(await measured.inputValue(), "0.17");
  await measured.fill("0.19");
  await read.fill("0.18");
  assert.equal(await measured.inputValue(), "0.19");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("without scripts the windows and the table of sizes are there", async () => {
  const { context, page } = await tab(browser, { viewport: PHONE, javaScriptEnabled: false });
  await page.goto(address(planned[0] ?? ""));
  assert.ok(await page.locator("#shim-plan .plan-windows li").first().isVisible());
  assert.equal(await page.locator("#shim-plan input").count(), 0);
  // The sizes stand once on a sheet: in the row of the shims, which the plan leads to.
  await page.locator("#shim-plan .which a").click();
  const row = page.locator(`[id="${page.url().split("#")[1]}"]`);
  assert.equal(await row.getAttribute("data-spec"), "lash.shim");
  assert.ok(await row.locator(".picks dd").first().isVisible());
  assert.ok(await row.evaluate((one) => one.getBoundingClientRect().top < innerHeight && one.getBoundingClientRect().bottom > 0));
  await context.close();
});
