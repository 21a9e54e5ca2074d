// @ts-check
/* The sheet of bench sums as a technician uses it: typed in any unit, answered at every key. */
"use strict";

const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
const axe = require("axe-core");
const { address, launch, tab } = require("./opened.js");
const { vectors } = require("./compute.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const PHONE = { width: 360, height: 740 };
const TARGETS = "summary, input, select, textarea";

test("from home an adapter is two taps and its digits", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(address("index.html"));
  await page.locator('a.door[href="sums.html"]').click();
  await page.locator("#sum-adapter summary").click();
  const found = page.locator("#sum-adapter output");
  await page.fill("#adapter-torque", "80");
  assert.equal(await found.isVisible(), false, "nothing is said before all is typed");
  await page.fill("#adapter-wrench", "40");
  await page.fill("#adapter-adapter", "5");
  assert.equal(await found.locator(".number").textContent(), "71.1 N·m");
  await page.selectOption("#adapter-torque + select", "lbf·ft");
  assert.equal(await found.locator(".number").textContent(), "71.1 lbf·ft");
  await page.selectOption("#adapter-torque + select", { label: "lbf·in (pound-inches)" });
  assert.equal(await found.locator(".number").textContent(), "71.1 lbf·in (pound-inches)");
  await page.fill("#adapter-torque", "10 N·m");
  await page.fill("#adapter-angle", "90");
  assert.equal(await found.locator(".number").textContent(), "10.0 N·m");
  assert.match((await found.textContent()) ?? "", /changes nothing/);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("our own keys on the sums: no system keyboard, 64 pixels, unit, sign, several values, undo", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE, hasTouch: true, isMobile: true });
  await page.goto(address("sums.html"));
  const dock = page.locator(".sum-keys");
  const key = (/** @type {string} */ name) => dock.locator(`[data-key="${name}"]`);
  const press = async (/** @type {string} */ names) => {
    for (const name of names.split(" ")) {
      await key(name).tap();
    }
  };
  assert.equal(await dock.isVisible(), false);
  await page.locator("#sum-adapter summary").tap();
  await page.locator("#adapter-torque").tap();
  assert.equal(await page.getAttribute("#adapter-torque", "inputmode"), "none");
  await press("k8 k0 next k4 k0 next k5");
  const found = page.locator("#sum-adapter output .number");
  assert.equal(await found.textContent(), "71.1 N·m");
  assert.match((await dock.locator(".dock-detail").textContent()) ?? "", /71\.1 N·m/, "the answer stands above the keys");
  for (const box of await dock.locator(".key").evaluateAll((all) => all.map((one) => one.getBoundingClientRect().toJSON()))) {
    assert.ok(box.width >= 63.9 && box.height >= 63.9 && box.top >= PHONE.height / 3 && box.bottom <= PHONE.height, JSON.stringify(box));
  }
  const unit = await page.locator("#adapter-adapter + select").inputValue();
  await press("unit");
  assert.notEqual(await page.locator("#adapter-adapter + select").inputValue(), unit);
  await press("k5 undo undo");
  assert.equal(await page.inputValue("#adapter-adapter"), "");
  await page.locator(".sum-keys .dock-close").tap();
  assert.equal(await dock.isVisible(), false);
  // A cylinder after the other in one field, each with its own point; and a sign where it freezes.
  const list = page.locator('[data-sort="quantities"] input[type=text]').first();
  await list.evaluate((field) => field.closest("details")?.setAttribute("open", ""));
  await list.tap();
  await press("k1 point k2 more k3 point k4");
  assert.equal(await list.inputValue(), "1.2; 3.4");
  const one = page.locator("#adapter-angle");
  await one.evaluate((field) => field.closest("details")?.setAttribute("open", ""));
  await one.tap();
  await press("k4 more");
  assert.equal(await one.inputValue(), "-4");
  await page.evaluate(axe.source);
  for (const theme of ["light", "dark", "sun"]) {
    await page.evaluate((name) => {
      document.documentElement.dataset["theme"] = name;
    }, theme);
    const barriers = await page.evaluate(() => /** @type {any} */ (globalThis).axe.run(document, { preload: false }));
    assert.deepEqual(barriers.violations.map((/** @type {any} */ found) => found.id), [], theme);
  }
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a device that is set to its own keyboard keeps it, and so does a desk", async () => {
  for (const [options, kept] of /** @type {[import("playwright-core").BrowserContextOptions, string][]} */ ([[{ viewport: PHONE, hasTouch: true }, '{"keypad":false}'], [{ viewport: { width: 1280, height: 900 } }, "{}"]])) {
    const { context, page, complaints } = await tab(browser, options);
    await page.goto(address("sums.html"));
    await page.evaluate((settings) => localStorage.setItem(`baybook.bench.${document.body.dataset["base"]}`, settings), kept);
    await page.locator("#sum-adapter summary").click();
    await page.locator("#adapter-torque").click();
    assert.equal(await page.locator(".sum-keys").isVisible(), false);
    assert.notEqual(await page.getAttribute("#adapter-torque", "inputmode"), "none");
    assert.deepEqual(complaints, []);
    await context.close();
  }
});

test("what cannot be answered is said in words, and a field that is wrong is marked", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(address("sums.html#sum-rest"));
  assert.equal(await page.locator("#sum-rest").evaluate((one) => /** @type {HTMLDetailsElement} */ (one).open), true);
  await page.fill("#rest-volts", "12,45");
  const found = page.locator("#sum-rest output");
  assert.match((await found.textContent()) ?? "", /75 %/);
  await page.selectOption("#rest-kind", "lithium");
  assert.match((await found.textContent()) ?? "", /lithium iron battery/);
  await page.selectOption("#rest-kind", "flooded");
  await page.fill("#rest-volts", "12.4.5");
  assert.equal(await page.getAttribute("#rest-volts", "aria-invalid"), "true");
  await page.fill("#rest-volts", "12.4");
  assert.equal(await page.getAttribute("#rest-volts", "aria-invalid"), null);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("hours left of any kind of wear: the first unit is chosen, and the numbers after it are in that", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: { width: 360, height: 740 } });
  await page.goto(address("sums.html#sum-wear"));
  await page.fill("#wear-previous", "9");
  await page.locator('#sum-wear [data-input="previous"] select').selectOption("%");
  for (const [key, number] of [["now", "12"], ["limit", "15"], ["between", "40"]]) {
    await page.fill(`#wear-${key}`, number ?? "");
  }
  const found = page.locator("#sum-wear output");
  assert.equal(await found.locator(".number").textContent(), "40 h");
  await page.fill("#wear-now", "12 mm");
  assert.match((await found.locator(".no-answer").textContent()) ?? "", /`mm` is a unit of length, not of percentage/);
  assert.equal(await page.getAttribute("#wear-now", "aria-invalid"), "true");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("every sum answers its own examples on the sheet as the compiler does", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: { width: 1280, height: 900 } });
  await page.goto(address("sums.html"));
  const { table, cases } = vectors("sums.json");
  for (const sum of table) {
    const examples = Object.fromEntries(sum.inputs.map((/** @type {BaybookSumInput} */ one) => [one.key, one.example]));
    const same = (/** @type {any} */ one) => one.sum === sum.id && JSON.stringify(Object.entries(one.given).sort()) === JSON.stringify(Object.entries(examples).sort());
    const expected = cases.find(same)?.outcome.results.map((/** @type {BaybookSumResult} */ one) => one.text);
    await page.locator(`#sum-${sum.id}`).evaluate((one) => Object.assign(one, { open: true }));
    for (const [key, text] of Object.entries(examples)) {
      const field = page.locator(`#${sum.id}-${key}`);
      const word = await field.evaluate((one) => one instanceof HTMLSelectElement);
      await (word ? field.selectOption(String(text)) : field.fill(String(text)));
    }
    assert.deepEqual(await page.locator(`#sum-${sum.id} .number`).allTextContents(), expected, sum.id);
  }
  assert.deepEqual(complaints, []);
  await context.close();
});

test("fields are for a gloved thumb, and formulas and tables read without scripts", async () => {
  for (const javaScriptEnabled of [true, false]) {
    const { context, page, complaints } = await tab(browser, { viewport: PHONE, javaScriptEnabled });
    await page.goto(address("sums.html"));
    const found = await page.evaluate((targets) => {
      document.querySelectorAll("details").forEach((one) => (one.open = true));
      const all = [...document.querySelectorAll(targets)].filter((one) => one.getClientRects().length > 0 && !one.matches("[data-find]"));
      const small = all.filter((one) => one.getBoundingClientRect().height < 63.5).map((one) => one.id || one.textContent);
      const wide = document.documentElement.scrollWidth;
      const shown = (/** @type {string} */ of) => [...document.querySelectorAll(of)].filter((one) => one.getClientRects().length > 0).length;
      return { small, wide, fields: shown("input"), formulas: shown(".sum-formula"), tables: shown("table") };
    }, TARGETS);
    assert.deepEqual(found.small, []);
    assert.ok(found.wide <= 360, `scrolls sideways: ${found.wide} px`);
    assert.equal(found.fields > 50, javaScriptEnabled);
    assert.ok(found.formulas >= 35 && found.tables >= 7, JSON.stringify(found));
    const text = await page.locator("main").innerText();
    for (const word of ["12.45 V", "25.5 N·m", "9.6 V", "89.88 kPa abs", "1.265", "common practice, no source"]) {
      assert.ok(text.toLowerCase().includes(word.toLowerCase()), word);
    }
    assert.deepEqual(complaints, []);
    await context.close();
  }
});
