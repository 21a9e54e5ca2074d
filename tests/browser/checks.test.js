// @ts-check
/* Results on a complaint sheet: the order goes on from them, outlasts a reload, and is taken back. */
"use strict";

const assert = require("node:assert/strict");
const test = require("node:test");
const axe = require("axe-core");
const { address, launch, pages, tab } = require("./opened.js");
require("./compute.js");

const PHONE = { width: 360, height: 740 };
const sheet = pages.find((page) => /builds\/[^/]+\/complaint-loses-charge\.html$/.test(page)) ?? "";

/** @type {import("playwright-core").Browser} */
let browser;
test.before(async () => {
  browser = await launch();
});
test.after(() => browser.close());

/** @param {import("playwright-core").Page} page */
const shown = (page) =>
  page.locator("[data-check]").evaluateAll((all) => all.map((one) => one.getAttribute("data-check")));

/** @param {import("playwright-core").Page} page @param {string} check @param {string} label */
const press = (page, check, label) => page.locator(`[data-check="${check}"]`).getByRole("button", { name: label }).click();

test("there is a sheet to work from", () => {
  assert.notEqual(sheet, "");
});

test("the order printed is the order worked out", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE, javaScriptEnabled: false });
  await page.goto(address(sheet));
  const job = JSON.parse((await page.locator("[data-complaint]").getAttribute("data-complaint")) ?? "");
  const order = baybookCompute.order(job);
  assert.ok("order" in order);
  assert.deepEqual(await shown(page), order.order);
  assert.equal(await page.locator("[data-complaint] button").count(), 0, "a dead button without scripts");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a result moves the order on, outlasts a reload and is taken back", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(address(sheet));
  const job = JSON.parse((await page.locator("[data-complaint]").getAttribute("data-complaint")) ?? "");
  const printed = await shown(page);
  const said = page.locator("output.results-said");
  await press(page, "running-volts", "Shows it");
  const order = baybookCompute.order(job, { "running-volts": "shown" });
  assert.ok("order" in order);
  assert.deepEqual(await shown(page), [...order.order, "running-volts"]);
  assert.match((await said.textContent()) ?? "", /^Left: .*Next: Voltage drop to the regulator\. 12\.8 min/);
  assert.equal(await page.locator("#cause-drain.cleared").count(), 1);
  await page.reload();
  assert.deepEqual(await shown(page), [...order.order, "running-volts"]);
  await press(page, "stator-volts", "Shows it");
  assert.match((await said.textContent()) ?? "", /^Found: Stator burnt or earthed\./);
  await press(page, "drain-current", "Shows it");
  assert.match((await said.textContent()) ?? "", /^Not taken: /);
  await press(page, "stator-volts", "Shows it");
  await press(page, "running-volts", "Shows it");
  assert.deepEqual(await shown(page), printed);
  assert.match(page.url(), /complaint-loses-charge\.html$/);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("every cause cleared says so, and its buttons are large enough for a glove", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(`${address(sheet)}?clear=load-test,drain-current,running-volts`);
  assert.match((await page.locator("output.results-said").textContent()) ?? "", /^Every cause that a check shows is cleared/);
  for (const box of await page.locator(".results button").all()) {
    const { width = 0, height = 0 } = (await box.boundingBox()) ?? {};
    assert.ok(width >= 64 && height >= 64, `${width} by ${height}`);
  }
  assert.deepEqual(complaints, []);
  await context.close();
});

test("results pass axe-core in every theme", async () => {
  const { context, page } = await tab(browser, { viewport: PHONE });
  await page.goto(`${address(sheet)}?shown=running-volts`);
  for (const theme of ["light", "dark", "sun"]) {
    await page.evaluate((name) => {
      document.documentElement.dataset["theme"] = name;
    }, theme);
    await page.evaluate(axe.source);
    const found = await page.evaluate(() => /** @type {any} */ (globalThis).axe.run());
    assert.deepEqual(found.violations.map((/** @type {any} */ one) => one.id), [], theme);
  }
  await context.close();
});
