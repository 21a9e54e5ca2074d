// @ts-check
/* How a job leaves the bench: never closed while something is left open, parked at any time, and nothing of it lost. */
"use strict";

const assert = require("node:assert/strict");
const fs = require("node:fs");
const { after, before, describe, test } = require("node:test");
const { address, barriers, kindOf, launch, pages, tab, text } = require("./opened.js");
const { job, reading } = require("./bench.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const sheet = pages.find((page) => kindOf(page) === "procedure sheet" && page.endsWith("/valve-lash.html") && text(page).includes("data-until=")) ?? "";
const folder = sheet.slice(0, sheet.lastIndexOf("/"));
const other = pages.find((page) => kindOf(page) === "engine sheet" && !page.startsWith(`${folder}/`)) ?? "";

/** The sheet with its steps ticked up to the one that opens the last thing of those to be closed. @param {number} width */
async function begun(width) {
  const made = await tab(browser, { viewport: { width, height: 740 }, hasTouch: width === 360, acceptDownloads: true });
  await made.page.goto(address(sheet));
  const open = await made.page.locator(".open-ends [data-until]").evaluateAll((all) => all.map((one) => ({ what: one.querySelector("b")?.textContent ?? "", from: Number(one.getAttribute("data-from")), until: Number(one.getAttribute("data-until")) })));
  const first = Math.min(...open.map((one) => one.from));
  for (let step = 1; step <= first; step += 1) {
    await made.page.locator(".next-step").click();
  }
  return { ...made, open: open.filter((one) => one.from === first), first };
}

/** @param {import("playwright-core").Page} page */
const shelf = (page) =>
  page.evaluate(() => {
    const name = document.body.dataset["base"] ?? "";
    const read = (/** @type {string} */ part) => JSON.parse(localStorage.getItem(`baybook.${part}.${name}`) ?? "null");
    return { job: read("job")?.job ?? null, closed: /** @type {any[]} */ (read("closed") ?? []) };
  });

for (const width of [360, 1280]) {
  test(`while something is left open, closing says what and leads to its step, at ${width}`, async () => {
    const { context, page, complaints, open } = await begun(width);
    await page.locator(".open-job").click();
    await page.locator("dialog .close-job").click();
    assert.match((await page.locator(".job-said").textContent()) ?? "", /^Not closed: .*still open/);
    const ways = page.locator("dialog .still-open a");
    assert.deepEqual(await ways.evaluateAll((all) => all.map((one) => one.textContent)), open.map(({ what, until }) => `${what}valve-lash, closed at step ${until}`));
    assert.notEqual((await shelf(page)).job, null, "it is still on the bench");
    assert.deepEqual((await shelf(page)).closed, []);
    assert.deepEqual(await barriers(page, false), []);
    const small = await page.locator("dialog button:visible, dialog a:visible").evaluateAll((all) => all.filter((one) => one.getBoundingClientRect().height < 47.5).map((one) => one.outerHTML));
    assert.deepEqual(small, []);
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= width);
    await ways.first().click();
    assert.equal(new URL(page.url()).hash, `#step-${open[0]?.until}`);
    assert.equal(await page.locator("dialog").isVisible(), false);
    // Whatever was opened is closed by its step; then the job is closed, and what it lacks is only said.
    for (const { until } of open) {
      await page.locator(`[data-step="${until}"] .tick`).click();
    }
    await page.locator(".open-job").click();
    await page.locator("dialog .close-job").click();
    assert.equal(await page.locator(".job-said").textContent(), "Closed, and kept with the closed jobs. No proof was given for valve-lash.");
    assert.equal((await shelf(page)).job, null);
    assert.notEqual((await shelf(page)).closed[0].closed, null);
    assert.deepEqual(complaints, []);
    await context.close();
  });
}

test("a job with something open is parked from another machine's sheet, and taken up again whole", async () => {
  const { context, page, complaints, open, first } = await begun(360);
  const before = (await shelf(page)).job;
  await page.goto(address(other));
  assert.equal(await page.locator(".close-other").count(), 0, "it cannot be closed from here");
  assert.match((await page.locator(".guard").textContent()) ?? "", new RegExp(`still open.*${open[0]?.what}`));
  const way = (await page.locator(".guard .still-open a").first().getAttribute("href")) ?? "";
  assert.ok(new URL(way, page.url()).href.endsWith(`${sheet}#step-${open[0]?.until}`), way);
  await page.locator(".park-other").click();
  assert.deepEqual(await shelf(page), { job: null, closed: [before] });
  await page.locator("[data-reading]").first().click();
  await page.locator(".dock-close").waitFor();
  await page.keyboard.type("9");
  await page.goto(address("index.html"));
  await page.locator("section", { has: page.locator("#parked") }).locator("a").click();
  await page.locator("button", { hasText: "Take this job up again" }).click();
  const kept = await shelf(page);
  assert.deepEqual(kept.job, before, "as it was left");
  assert.deepEqual(kept.closed.map((one) => [one.closed, one.readings.length]), [[null, 1]], "the one that was on the bench is parked");
  await page.goto(address(sheet));
  assert.equal(await page.locator('.tick[aria-pressed="true"]').count(), first);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("reading a job from a file parks the open one; undo brings it back, and again", async () => {
  const { context, page, complaints } = await begun(1280);
  const before = (await shelf(page)).job;
  await page.locator(".open-job").click();
  const [download] = await Promise.all([page.waitForEvent("download"), page.locator("dialog .export").click()]);
  const record = JSON.parse(fs.readFileSync(await download.path(), "utf8"));
  record.id = "another";
  await page.locator("dialog input[type=file]").setInputFiles({ name: "job.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(record)) });
  await page.locator(".job-said", { hasText: /The job that was open is parked\.$/ }).waitFor();
  const both = { job: "another", closed: [[before.id, null]] };
  const seen = async () => {
    const { job: now, closed } = await shelf(page);
    return { job: now?.id ?? null, closed: closed.map((one) => [one.id, one.closed]) };
  };
  assert.deepEqual(await seen(), both);
  await page.locator("dialog .leave").click();
  await page.locator(".bench-bar .undo").click();
  assert.deepEqual(await seen(), { job: before.id, closed: [] });
  await page.locator(".bench-bar .undo").click();
  assert.deepEqual(await seen(), both);
  // On the page of jobs too, a job that comes open stays open.
  await page.goto(address("job.html"));
  record.id = "a-third";
  await page.locator("input[type=file]").setInputFiles({ name: "job.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(record)) });
  await page.locator(".job-said", { hasText: "Read." }).waitFor();
  assert.deepEqual((await seen()).closed, [["a-third", null], [before.id, null]]);
  assert.deepEqual(complaints, []);
  await context.close();
});

describe("what is kept", () => {
  /** @param {Map<string, string>} kept @returns {any} */
  const storage = (kept) => ({ getItem: (/** @type {string} */ key) => kept.get(key) ?? null, setItem: (/** @type {string} */ key, /** @type {string} */ value) => kept.set(key, value) });

  test("a parked job never makes room for closed ones", () => {
    const store = baybookStorage.open(() => storage(kept), "A");
    const kept = new Map();
    const closed = Array.from({ length: 40 }, (_, at) => ({ ...job(), id: `closed ${at}`, closed: "2026-11-25" }));
    store.save({ job: null, closed: [...closed, { ...job(), id: "parked" }], undo: null }, true);
    const left = store.load().closed;
    assert.deepEqual([left.length, left[29]?.id, left[30]?.id], [31, "closed 29", "parked"]);
  });

  test("what is left open is told with its step where the record has it", () => {
    const one = job();
    baybookRecord.write(one, reading());
    one.open = { "valve-lash": ["Spark plugs out", "Cover off"], other: [] };
    one.closes_at = { "valve-lash": { "Spark plugs out": "9" } };
    assert.deepEqual(baybookEnds.standing(one), [
      { procedure: "valve-lash", what: "Spark plugs out", step: "9" },
      { procedure: "valve-lash", what: "Cover off", step: null },
    ]);
    baybookRecord.settle(one);
    assert.deepEqual(baybookRecord.parse(JSON.stringify(one)), { ok: true, job: one });
    for (const damage of [7, null, [], { a: 7 }, { a: { b: 7 } }]) {
      assert.equal(baybookRecord.parse(JSON.stringify({ ...one, closes_at: damage })).ok, false, JSON.stringify(damage));
    }
  });
});
