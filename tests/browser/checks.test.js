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

test("results are kept with the job, found and proved, and stand on its papers", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE, acceptDownloads: true });
  await page.goto(address(sheet));
  assert.equal(await page.locator(".kept-checks").isVisible(), false);
  await press(page, "load-test", "Clear");
  await press(page, "running-volts", "Shows it");
  const cured = page.locator(".kept-checks > .results button");
  assert.equal(await cured.isDisabled(), true, "nothing is found yet");
  await press(page, "stator-volts", "Shows it");
  await cured.click();
  assert.match((await cured.textContent()) ?? "", /^Repaired and proved at \d\d:\d\d: the complaint is gone$/);
  // The address may be lost: the job has them all the same.
  await page.goto(address("index.html"));
  assert.match((await page.locator(".unfinished .door").textContent()) ?? "", /3 checks done/);
  await page.locator(".unfinished .door").click();
  await page.waitForURL(/complaint-loses-charge\.html/);
  assert.equal(await page.locator('[data-check] [aria-pressed="true"]').count(), 3);
  await page.goto(address("job.html"));
  const [owner, shop] = await Promise.all(["owner-page", "shop-record"].map((id) => page.locator(`[aria-labelledby="${id}"]`).innerText()));
  assert.match(owner ?? "", /checked: [^\n]+, not showing/);
  assert.match(owner ?? "", /Stator burnt or earthed; repaired, and the complaint is gone/);
  assert.match(shop ?? "", /Cause: Stator burnt or earthed, the only one the checks leave/);
  const [download] = await Promise.all([page.waitForEvent("download"), page.getByRole("button", { name: "Save as a file" }).click()]);
  const record = JSON.parse(require("node:fs").readFileSync(await download.path(), "utf8"));
  const kept = record.complaints["loses-charge"];
  assert.deepEqual([record.format, kept.found.cause, kept.found.by], ["baybook job record 2", "stator", "checks"]);
  assert.deepEqual(kept.checks.map((/** @type {any} */ one) => [one.check, one.result, one.withdrawn]), [["load-test", "clear", null], ["running-volts", "shown", null], ["stator-volts", "shown", null]]);
  assert.ok(Date.parse(kept.confirmed) > 0 && kept.release && kept.content);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the technician may say which cause it was, and a job of another machine is left alone", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(address(sheet));
  await press(page, "running-volts", "Shows it");
  await page.locator(".kept-checks summary").click();
  const [first] = await page.locator(".kept-checks details button").all();
  await first?.click();
  const cause = await first?.getAttribute("value");
  const stored = () => page.evaluate(() => JSON.parse(localStorage.getItem(Object.keys(localStorage).find((key) => key.startsWith("baybook.job.")) ?? "") ?? "null"));
  assert.deepEqual([(await stored()).job.complaints["loses-charge"].found.cause, (await stored()).job.complaints["loses-charge"].found.by], [cause, "said"]);
  // On a sheet of another build nothing of this job changes.
  const other = pages.find((one) => /complaint-loses-charge\.html$/.test(one) && one.split("/")[1] !== sheet.split("/")[1]) ?? "";
  await page.goto(address(other));
  await press(page, "load-test", "Clear");
  assert.match((await page.locator(".kept-checks .fine").textContent()) ?? "", /^Not kept with a job: one is open on /);
  assert.equal(Object.keys((await stored()).job.complaints).length, 1);
  assert.equal((await stored()).job.build.id, sheet.split("/")[1]);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("every cause cleared says so, and its buttons are large enough for a glove", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(`${address(sheet)}?clear=load-test,drain-current,running-volts`);
  assert.match((await page.locator("output.results-said").textContent()) ?? "", /^Every cause that a check shows is cleared/);
  await press(page, "plug-look", "Clear");
  await page.locator(".kept-checks summary").click();
  for (const box of await page.locator(".results button").all()) {
    const { width = 0, height = 0 } = (await box.boundingBox()) ?? {};
    assert.ok(width >= 64 && height >= 64, `${width} by ${height}`);
  }
  assert.deepEqual(complaints, []);
  await context.close();
});

test("cautions stand at their check, with scripts and without, and go with it when the order changes", async () => {
  const pump = pages.find((page) => /complaint-pump-will-not-start\.html$/.test(page)) ?? "";
  for (const javaScriptEnabled of [false, true]) {
    for (const width of [360, 1280]) {
      const { context, page, complaints } = await tab(browser, { viewport: { width, height: 740 }, javaScriptEnabled });
      await page.goto(`${address(pump)}?clear=level`);
      const entry = page.locator('[data-check="spark"]');
      // Common practice, no source: earth the plug before cranking, never a spark test beside open fuel.
      const said = await entry.locator('[data-hazard="spark-beside-fuel"]').innerText();
      assert.match(said, /^Spark beside open fuel\. Fire or explosion\. Never a spark test beside open fuel/);
      assert.match(await entry.innerText(), /WARNING/i);
      const [caution, access] = await Promise.all(["[data-hazard]", '[data-part="access"]'].map((part) => entry.locator(part).first().evaluate((one) => one.getBoundingClientRect().top)));
      assert.ok((caution ?? 0) < (access ?? 0), "the caution comes before what is done");
      if (javaScriptEnabled) {
        assert.match((await page.locator("output.results-said").textContent()) ?? "", /Next: Spark at an open tester, tank shut\..* Read its cautions first\.$/);
      }
      assert.deepEqual(complaints, []);
      await context.close();
    }
  }
});

/** @param {string} name */
const of = (name) => pages.find((page) => page.endsWith(`/complaint-${name}.html`)) ?? "";

test("heat is said before it is paid, with scripts and without", async () => {
  for (const javaScriptEnabled of [false, true]) {
    const { context, page, complaints } = await tab(browser, { viewport: PHONE, javaScriptEnabled });
    const part = (/** @type {string} */ check, /** @type {string} */ name) => page.locator(`[data-check="${check}"] [data-part="${name}"]:visible`).allTextContents();
    // Common practice, no source: warming 12 min, cooling 180; starting the engine voids cold lash.
    await page.goto(address(of("overheats-loaded")));
    assert.deepEqual(await part("in-and-out", "heat"), ["First: run the engine warm, 12 min more (common practice, no source)"]);
    assert.deepEqual(await part("gas-test", "heat"), ["First: let the engine cool right through, 180 min more (common practice, no source)"]);
    assert.match((await part("in-and-out", "voids")).join(), /^It takes the cold engine away from: Exhaust gas in the coolant\. Do that first/);
    assert.deepEqual(await part("core-look", "heat"), []);
    await page.goto(address(of("starts-badly-cold")));
    assert.match((await part("ground-drop", "voids")).join(), /Measure the lash, engine cold\. Do that first, or the engine must cool again, 180.min/);
    if (javaScriptEnabled) {
      await page.goto(`${address(of("starts-badly-cold"))}?clear=lash-measure`);
      assert.deepEqual(await part("ground-drop", "voids"), [], "nothing cold is left to be lost");
    }
    assert.deepEqual(complaints, []);
    await context.close();
  }
});

test("shares are marked where they stand", async () => {
  const { context, page } = await tab(browser, { viewport: PHONE, javaScriptEnabled: false });
  await page.goto(address(sheet));
  const causes = page.locator('[aria-labelledby="causes"]');
  assert.match(await causes.innerText(), /Shares of past jobs are common practice with no source, and invented like all data here\.[^]*\d+ of 100 past jobs/);
  assert.match(await page.locator('[aria-labelledby="checks"] > p').first().innerText(), /by the shares above: common practice, no source, invented/);
  await context.close();
});

test("causes that no check tells apart are not promised in no minutes", async () => {
  const { context, page } = await tab(browser, { viewport: PHONE });
  await page.goto(`${address(of("overheats-loaded"))}?shown=in-and-out&clear=core-look`);
  const said = (await page.locator("output.results-said").textContent()) ?? "";
  assert.equal(said, "Left: Thermostat sticks; Water pump worn. No check of this guide tells them apart: look at each of them, as the maker's current manual has it.");
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
