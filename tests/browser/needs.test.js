// @ts-check
/*
 * What cannot be judged, and why: a reading whose entry needs more than the state of its limits, one taken
 * under another answer, a gauge off its span, a gauge of another sort. Common practice, no source: cranked
 * slowly, compression reads low; a flat battery draws otherwise; a plain meter does not hold a peak.
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

const sheets = pages.filter((page) => ["engine sheet", "procedure sheet"].includes(kindOf(page)));
/** A sheet with a row of an entry that can be judged, the attributes of the row. @param {string} wanted @param {string} [kind] */
function sheetWith(wanted, kind = "engine sheet") {
  const row = new RegExp(`<[a-z]+ class="(?:row|reading)[ "][^>]*${wanted}[^>]*data-unit="[^"]+"[^>]*>`);
  const page = sheets.filter((one) => kindOf(one) === kind).find((one) => row.test(text(one)));
  assert.ok(page, `no ${kind} with ${wanted}`);
  return page;
}

/** @param {string} page @param {string} selector */
async function opened(page, selector) {
  const made = await tab(browser, { viewport: { width: 1280, height: 900 } });
  await made.page.goto(address(page));
  const row = made.page.locator(selector).first();
  // What a row of an engine sheet is judged by comes with the bench.
  await made.page.evaluate(() => new Promise((done) => baybookOpening.open(() => done(undefined))));
  const [limits = "", when = "", needs = ""] = await row.evaluate((one) => ["data-window", "data-when", "data-needs"].map((name) => one.getAttribute(name) ?? ""));
  const first = Number(/\d+(?:\.\d+)?/.exec(limits)?.[0]);
  const verdict = row.locator("output.verdict").first();
  /** @returns {Promise<[string, string]>} */
  const said = async () => [(await verdict.getAttribute("data-verdict")) ?? "", (await verdict.locator(".detail").textContent()) ?? ""];
  const condition = [when, needs].flatMap((one) => one.split(";")).filter(Boolean).map((one) => one.replace("=", " ")).join(", ");
  return { ...made, row, field: row.locator("[data-reading]").first(), first, said, condition };
}

for (const [of, kind] of [["compression.cranking", "engine sheet"], ["compression.cranking", "procedure sheet"], ["starter.draw", "engine sheet"], ["spark.peak-volts", "engine sheet"]]) {
  test(`${of} on a ${kind} asks what its reading needs, and judges nothing before`, async () => {
    const selector = `[data-spec="${of}"][data-needs]`;
    const { context, page, complaints, field, first, said, condition } = await opened(sheetWith(`data-spec="${of}"`, kind), selector);
    await field.fill(String(first));
    assert.deepEqual(await said(), ["none", `The limit holds with ${condition}: say whether it was so`]);
    await field.click();
    assert.equal(await page.locator(".dock-state b").textContent(), condition.replaceAll(", ", " · "));
    await page.locator('.dock [data-state="unmet"]').click();
    assert.deepEqual(await said(), ["none", `The limit holds with ${condition}, and it was not so`]);
    await page.locator(".dock-close").click();
    await page.locator(".bench-bar .undo").click();
    await field.click();
    await page.locator('.dock [data-state="met"]').click();
    assert.notEqual((await said())[0], "none");
    assert.deepEqual(complaints, []);
    await context.close();
  });
}

test("a reading keeps the state it was taken in, until it is said to have been otherwise", async () => {
  const selector = '[data-spec^="lash."][data-when*="engine=cold"]';
  const { context, page, complaints, row, field, first, said } = await opened(sheetWith('data-spec="lash\\.[^>]*engine=cold'), selector);
  const state = page.locator(`.state:has(~ ${selector})`).last();
  const asks = await state.getAttribute("data-asks");
  const answers = (/** @type {string} */ answer) => page.locator(`.state[data-asks="${asks}"] [data-state="${answer}"]`).first();
  await answers("met").click();
  await field.fill(String(first));
  await page.locator(".dock-close").click();
  const cold = await said();
  assert.notEqual(cold[0], "none");
  // The engine has been run since.
  await answers("unmet").click();
  assert.deepEqual(await said(), cold);
  await page.reload();
  assert.deepEqual(await said(), cold, "after a reload too");
  // A repeat is taken as things are now, and the first stays beside it.
  await field.fill(String(first));
  await page.locator(".dock-close").click();
  assert.equal((await said())[0], "none");
  assert.match((await row.locator(".earlier").first().textContent()) ?? "", /^before: /);
  const record = await page.evaluate(() => JSON.parse(localStorage.getItem(Object.keys(localStorage).find((key) => key.startsWith("baybook.job.")) ?? "") ?? "null"));
  assert.deepEqual(record.job.readings.map((/** @type {Reading} */ one) => one.state), ["met", "unmet"]);
  // Cooled again: nothing is judged anew by itself.
  await answers("met").click();
  assert.equal((await said())[0], "none");
  await page.locator(`.state[data-asks="${asks}"] .then-too`).first().click();
  assert.equal((await said())[0], cold[0]);
  await page.locator(".bench-bar .undo").click();
  assert.equal((await said())[0], "none", "and can be taken back");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a gauge off its span judges nothing", async () => {
  const { context, page, complaints, field, said } = await opened(sheetWith('data-spec="lash\\.'), '[data-spec^="lash."][data-gauge]');
  await field.click();
  await page.locator('.dock [data-state="met"]').click();
  await page.locator(".dock select").selectOption({ index: 1 });
  const [title = "", span = ""] = await page.evaluate(() => {
    const gauge = document.querySelector('[data-spec^="lash."][data-gauge]')?.getAttribute("data-gauge") ?? "";
    const facts = baybookGauges[gauge];
    return [facts?.title ?? "", facts?.span ?? ""];
  });
  const most = Number(/\.\.([\d.]+)/.exec(span)?.[1]);
  await field.fill(String(most + 1));
  const [mark, words = ""] = await said();
  assert.equal(mark, "none");
  assert.equal(words, `${title} measures ${span}, and ${most + 1} mm lies off it`);
  await field.fill(String(most));
  assert.notEqual((await said())[0], "none", "the end of the span belongs to it");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a plain meter judges no peak limit, whether the unit says so or the gauge", async () => {
  const selector = '[data-spec="spark.peak-volts"]';
  const { context, page, complaints, field, first, said } = await opened(sheetWith('data-spec="spark\\.peak-volts"'), selector);
  await field.click();
  await page.locator('.dock [data-state="met"]').click();
  await field.fill(`${first} V`);
  const [typed, words = ""] = await said();
  assert.equal(typed, "none");
  assert.match(words, /V is .*, and the limit is peak voltage/i);
  await field.fill(String(first));
  assert.notEqual((await said())[0], "none");
  const gauges = page.locator(".dock select");
  const plain = await gauges.locator("option").evaluateAll((all) => all.findIndex((one) => baybookGauges[/** @type {HTMLOptionElement} */ (one).value]?.kind === "voltage"));
  assert.ok(plain > 0, "a plain meter can be said");
  await gauges.selectOption({ index: plain });
  const [meter, because = ""] = await said();
  assert.equal(meter, "none");
  assert.match(because, /shows .*, and the limit is peak voltage/i);
  assert.deepEqual(complaints, []);
  await context.close();
});
