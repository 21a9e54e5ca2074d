// @ts-check
/*
 * How long an engine sheet makes a technician wait, on a processor slowed four times, as an old tablet's is: script
 * work before the first touch, from a key to its verdict on the screen, and the plan of sixteen shims.
 *
 *     BAYBOOK_HANDBOOK=public node benches/sheet.js           60 keys, 7 openings
 *     BAYBOOK_HANDBOOK=public node benches/sheet.js 10 1      fewer
 *
 * Each stands beside its floor, measured in the same way in the same run: an empty page, and a bare field that echoes
 * what is typed. It is never a test: times are of the machine they were taken on.
 */
"use strict";

const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { pathToFileURL } = require("node:url");
const { address, kindOf, launch, pages, text } = require("../tests/browser/opened.js");

const [keys = 60, openings = 7] = process.argv.slice(2).map(Number);
/** @typedef {import("../tests/browser/opened.js").Browser} Browser */
/** @typedef {import("../tests/browser/opened.js").Page} Page */
/** Milliseconds from a key to its answer. @typedef {{ written: number, painted: number }} Wait */
const SLOWED = 4;
const VALVES = 16;
/** Milliseconds a page is left alone before it counts as ready. */
const ALONE = 1500;

/** A page that only echoes: what a key costs without a handbook. */
const ECHO = `<!DOCTYPE html><title>echo</title><input><output></output>
<script>document.querySelector("input").oninput = (event) => { document.querySelector("output").textContent = event.target.value; };</script>`;
const EMPTY = "<!DOCTYPE html><title>empty</title><p>empty</p>";

const engines = pages.filter((page) => kindOf(page) === "engine sheet").sort((one, other) => text(other).length - text(one).length);
const heaviest = engines.find((page) => text(page).includes('data-spec="lash.exhaust"')) ?? "";
const planned = engines.find((page) => text(page).includes('id="shim-plan"')) ?? "";

/** @param {Browser} browser */
async function slowPage(browser) {
  const context = await browser.newContext({ viewport: { width: 800, height: 1280 } });
  const page = await context.newPage();
  await page.addInitScript(watchTasks);
  const cdp = await context.newCDPSession(page);
  await cdp.send("Performance.enable");
  await cdp.send("Emulation.setCPUThrottlingRate", { rate: SLOWED });
  return { context, page, cdp };
}

/** Runs in the page: notes what holds the main thread for 50 ms or more. */
function watchTasks() {
  /** @type {number[]} */
  const tasks = [];
  Object.assign(globalThis, { benchTasks: tasks });
  new PerformanceObserver((list) => tasks.push(...list.getEntries().map((entry) => entry.duration))).observe({ type: "longtask", buffered: true });
}

/**
 * Runs in the page: from now on, how long each key takes until what it changes in `selector` is written, and painted.
 * @param {string} selector
 */
function watchKeys(selector) {
  const output = document.querySelector(selector);
  /** @type {Wait[]} */
  const waits = [];
  let pressed = 0;
  document.addEventListener("keydown", (event) => (pressed = event.timeStamp), true);
  const changed = () => {
    const from = pressed;
    const written = performance.now() - from;
    pressed = 0;
    if (from > 0) {
      requestAnimationFrame(() => {
        const { port1, port2 } = new MessageChannel();
        port1.onmessage = () => void waits.push({ written, painted: performance.now() - from });
        port2.postMessage(null);
      });
    }
  };
  new MutationObserver(changed).observe(/** @type {Element} */ (output), { childList: true, characterData: true, subtree: true });
  Object.assign(globalThis, { benchWaits: waits });
}

/** @param {Page} page @param {"benchTasks" | "benchWaits"} name @returns {Promise<any[]>} */
const noted = (page, name) => page.evaluate((key) => /** @type {any} */ (globalThis)[key], name);

/** Presses keys one after another, each once the one before is answered. @param {Page} page @param {string[]} pressed @returns {Promise<Wait[]>} */
async function press(page, pressed) {
  for (const [at, key] of pressed.entries()) {
    await page.keyboard.press(key);
    await page.waitForFunction((many) => /** @type {any} */ (globalThis).benchWaits.length >= many, at + 1);
    await page.waitForTimeout(50);
  }
  return noted(page, "benchWaits");
}

/** A digit and its deletion, over and over, so that every key has an answer of its own. @param {number} many */
const toggled = (many) => Array.from({ length: many }, (_, at) => (at % 2 === 0 ? String((at / 2) % 9 + 1) : "Backspace"));

/** Opens a page anew; milliseconds by what they were spent on. @param {Browser} browser @param {string} url */
async function opening(browser, url) {
  const { context, page, cdp } = await slowPage(browser);
  await page.goto(url, { waitUntil: "load" });
  await page.waitForTimeout(ALONE);
  const { metrics } = await cdp.send("Performance.getMetrics");
  const spent = (/** @type {string} */ name) => 1000 * (metrics.find((one) => one.name === name)?.value ?? NaN);
  const longest = Math.max(0, ...(await noted(page, "benchTasks")));
  const loaded = await page.evaluate(() => /** @type {PerformanceNavigationTiming} */ (performance.getEntriesByType("navigation")[0]).loadEventEnd);
  await context.close();
  return { script: spent("ScriptDuration"), all: spent("TaskDuration"), longest, loaded };
}

/** Keys in a bare field. @param {Browser} browser @param {string} url */
async function echoed(browser, url) {
  const { context, page } = await slowPage(browser);
  await page.goto(url);
  await page.locator("input").fill("0.2");
  await page.evaluate(watchKeys, "output");
  await page.locator("input").press("End");
  const waits = await press(page, toggled(keys));
  await context.close();
  return waits;
}

/** Keys in the lash of the heaviest sheet; the first apart, as it may bring what it needs. @param {Browser} browser @param {number} many */
async function judged(browser, many) {
  const { context, page } = await slowPage(browser);
  await page.goto(address(heaviest));
  const row = page.locator('[data-spec="lash.exhaust"]').first();
  const field = row.locator("[data-reading]").first();
  await field.click();
  await page.locator(".dock [data-state=met]").click();
  await page.keyboard.type("0.");
  await page.waitForTimeout(ALONE);
  await row.evaluate((one) => one.querySelector("output.verdict")?.setAttribute("data-bench", ""));
  await page.evaluate(watchKeys, "output.verdict[data-bench]");
  const [first, ...waits] = await press(page, ["2", ...toggled(many)]);
  const verdict = await row.locator("output.verdict").first().getAttribute("data-verdict");
  await context.close();
  if (!["in", "out", "close"].includes(verdict ?? "")) {
    throw new Error(`${heaviest}: no verdict, but ${verdict}`);
  }
  return { first, waits };
}

/** Keys in the last field of a plan of sixteen. @param {Browser} browser @param {number} many */
async function plannedOf(browser, many) {
  const { context, page } = await slowPage(browser);
  await page.goto(address(`${planned}#shim-plan`));
  const windows = page.locator("#shim-plan [data-plans]");
  await windows.first().waitFor();
  await page.locator("#shim-plan .more").first().waitFor();
  const each = VALVES / (await windows.count());
  for (const window of await windows.all()) {
    while ((await window.locator(".plan-valve").count()) < each) {
      await window.locator(".more").click();
    }
  }
  // Every lash is off by another step, tight and loose in turn, so that shims can change places.
  const fields = page.locator("#shim-plan .plan-valve input");
  for (let valve = 0; valve < VALVES; valve += 1) {
    await fields.nth(2 * valve).fill((0.2 + (valve % 2 === 0 ? -1 : 1) * (0.04 + 0.005 * (valve % 7))).toFixed(3));
    await fields.nth(2 * valve + 1).fill((2.2 + 0.05 * ((valve * 5) % 9)).toFixed(2));
  }
  await page.evaluate(watchKeys, "#shim-plan output");
  await fields.nth(2 * VALVES - 2).press("End");
  const waits = await press(page, toggled(many));
  const lines = await page.locator(".plan-lines li").count();
  await context.close();
  if (lines !== VALVES) {
    throw new Error(`${planned}: a plan of ${lines} valves`);
  }
  return waits;
}

/** @param {number[]} all @param {number} part */
const quantile = (all, part) => [...all].sort((one, other) => one - other)[Math.min(all.length - 1, Math.floor(part * all.length))] ?? NaN;

/** @param {string} what @param {number[]} all */
function line(what, all) {
  const number = (/** @type {number} */ value) => `${value.toFixed(0)} ms`.padStart(9);
  console.log(`${what.padEnd(58)}${number(quantile(all, 0.5))}${number(quantile(all, 0.95))}${String(all.length).padStart(7)}`);
}

async function main() {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "baybook-bench-"));
  const [empty, echo] = [["empty", EMPTY], ["echo", ECHO]].map(([name, html]) => {
    const file = path.join(folder, `${name}.html`);
    fs.writeFileSync(file, html ?? "");
    return pathToFileURL(file).href;
  });
  const browser = await launch();
  const rounds = async (/** @type {string} */ url) => {
    const all = [];
    for (let round = 0; round < openings; round += 1) {
      all.push(await opening(browser, url));
    }
    return all;
  };
  console.log(`Chromium ${browser.version()}, processor slowed ${SLOWED} times; ${heaviest}, ${text(heaviest).length} characters\n`);
  console.log(`${"".padEnd(58)}${"median".padStart(9)}${"95 of 100".padStart(10)}${"taken".padStart(6)}`);
  const [floor, sheet] = [await rounds(empty ?? ""), await rounds(address(heaviest))];
  line("floor: script of an empty page", floor.map((one) => one.script));
  line("script before the first touch", sheet.map((one) => one.script));
  line("  longest task (0: none of 50 ms)", sheet.map((one) => one.longest));
  line("  all work: read, style, lay out, paint, script", sheet.map((one) => one.all));
  line("  loaded", sheet.map((one) => one.loaded));
  const painted = (/** @type {Wait} */ wait) => wait.painted;
  const written = (/** @type {Wait} */ wait) => wait.written;
  line("floor: key to echo painted, a bare field", (await echoed(browser, echo ?? "")).map(painted));
  const { first, waits } = await judged(browser, keys);
  line("first key to its verdict painted", first ? [first.painted] : []);
  line("key to verdict painted", waits.map(painted));
  line("  of it until it is written", waits.map(written));
  const plans = await plannedOf(browser, Math.ceil(keys / 3));
  line(`key to plan painted, ${VALVES} valves`, plans.map(painted));
  line("  of it until it is written", plans.map(written));
  await browser.close();
  fs.rmSync(folder, { recursive: true });
}

main();
