// @ts-check
/*
 * What a first view weighs. From a memory stick nothing is compressed, so every byte counts as it lies on
 * disk: the sheet, its style sheets, scripts, faces and icon, whatever loads before anything is touched.
 */
"use strict";

const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const { after, before, test } = require("node:test");
const { fileURLToPath } = require("node:url");
const { tree } = require("./tree.js");
const { address, kindOf, launch, pages, root, samples, tab } = require("./opened.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const PHONE = { width: 360, height: 740 };
const DESK = { width: 1280, height: 900 };
/** Of markup, style sheets, faces and icon: what a reader without scripts loads. */
const MOST_READ = 138_000;
/**
 * With scripts, which bring the bench only when something is touched: 150 000 is what a first view may weigh. On a
 * desk the first rows are in view, and their drawings come with them.
 */
const MOST = new Map([[PHONE, 146_000], [DESK, 149_000]]);

/** Milliseconds after which a page that nobody touches has loaded what it ever will; with the half second of
 * `networkidle` before it. */
const SETTLED = 1_500;

/** Bytes by ending of what a page loads. @param {string} page @param {{width: number, height: number}} viewport */
async function weigh(page, viewport) {
  const opened = await tab(browser, { viewport });
  /** @type {Record<string, number>} */
  const bytes = {};
  opened.page.on("requestfinished", (request) => {
    const file = fileURLToPath(request.url().replace(/[?#].*$/, ""));
    const kind = path.extname(file).slice(1);
    bytes[kind] = (bytes[kind] ?? 0) + fs.statSync(file).size;
  });
  await opened.page.goto(address(page), { waitUntil: "networkidle" });
  // Nothing is fetched behind the reader's back a little later.
  await opened.page.waitForTimeout(SETTLED);
  await opened.context.close();
  return { bytes, total: Object.values(bytes).reduce((sum, one) => sum + one, 0) };
}

test("the first view of no engine sheet grows beyond what it weighs", async () => {
  for (const page of pages.filter((one) => kindOf(one) === "engine sheet")) {
    for (const viewport of [PHONE, DESK]) {
      const { bytes, total } = await weigh(page, viewport);
      const read = total - (bytes["js"] ?? 0);
      assert.ok(read < MOST_READ, `${page} at ${viewport.width} px: ${read} bytes without scripts, ${JSON.stringify(bytes)}`);
      assert.ok((bytes["html"] ?? 0) > 0 && (bytes["css"] ?? 0) > 0 && (bytes["woff2"] ?? 0) > 0, JSON.stringify(bytes));
      assert.ok(total < (MOST.get(viewport) ?? 0), `${page} at ${viewport.width} px: ${total} bytes, ${JSON.stringify(bytes)}`);
    }
  }
});

test("what the heaviest sheet of each kind weighs", async (context) => {
  for (const { kind, page } of samples) {
    const { bytes, total } = await weigh(page, PHONE);
    context.diagnostic(`${kind}: ${total} bytes, ${JSON.stringify(bytes)}`);
    assert.ok(total > 0);
  }
});

test("drawings come to their rows as they come near, and say so", async () => {
  const page = pages.filter((one) => kindOf(one) === "engine sheet").find((one) => fs.readFileSync(path.join(root, one), "utf8").includes("data-drawings")) ?? "";
  const { context, page: sheet, complaints } = await tab(browser, { viewport: PHONE });
  await sheet.goto(address(page));
  const group = sheet.locator("section.group").last();
  const drawings = await group.getAttribute("data-drawings");
  await sheet.evaluate(() => {
    document.addEventListener("baybook-drawn", () => document.body.setAttribute("data-heard", ""));
  });
  await group.locator(".row").last().scrollIntoViewIfNeeded();
  if (drawings) {
    await group.locator(".row > .drawing.dimension, .row > .drawing.curve").first().waitFor({ state: "attached" });
    await sheet.locator("[data-heard]").waitFor({ state: "attached" });
  }
  assert.deepEqual(complaints, []);
  await context.close();
});

/** The assets as they are written in `site/`, by the start of the name they get. */
const site = path.join(__dirname, "../../site");
const emitted = fs.readdirSync(path.join(root, "assets"));

test("slimming changes no script: but for the names of its own, both parse to the same tree", () => {
  assert.equal(tree("(a => { let b = a; return { b }; })(c)"), tree("(x=>{let y=x;return{b:y}})(c)"));
  assert.notEqual(tree("(a => (b) => a)(c)"), tree("(a => (b) => b)(c)"));
  assert.notEqual(tree("(a => c)(c)"), tree("(a => d)(c)"));
  // Which files an asset is written from stands in the one table of assets.
  const table = fs.readFileSync(path.join(__dirname, "../../src/emit/handbook/assets.rs"), "utf8");
  let compared = 0;
  for (const [, name = "", list = ""] of table.matchAll(/^ {4}"([a-z-]+)\.js": \[([^\]]*)\]/gm)) {
    const slim = emitted.find((one) => new RegExp(`^${name}-[0-9a-f]{10}\\.js$`).test(one));
    assert.ok(slim, `${name}.js is not written`);
    const source = [...list.matchAll(/"([^"]+)"/g)].map(([, file = ""]) => fs.readFileSync(path.join(site, file), "utf8"));
    assert.equal(tree(fs.readFileSync(path.join(root, "assets", slim), "utf8")), tree(source.join("")), name);
    compared += 1;
  }
  assert.ok(compared >= 4, `${compared} scripts compared`);
});

test("slimming changes no style: a browser reads the same rules", async () => {
  const context = await browser.newContext();
  const page = await context.newPage();
  /** @param {string} text */
  const rules = (text) =>
    page.evaluate(async (css) => {
      const sheet = new CSSStyleSheet();
      await sheet.replace(css.replace(/url\([^)]*\)/g, "url(x)"));
      return [...sheet.cssRules].map((rule) => rule.cssText.replace(/,\s*/g, ","));
    }, text);
  const sources = fs.readdirSync(path.join(site, "css"));
  const known = new Set((await Promise.all(sources.map((one) => rules(fs.readFileSync(path.join(site, "css", one), "utf8"))))).flat());
  const card = pages.find((one) => kindOf(one) === "bench card") ?? "";
  const [, inline = ""] = /<style>([\s\S]*?)<\/style>/.exec(fs.readFileSync(path.join(root, card), "utf8")) ?? [];
  const whole = fs.readFileSync(process.env["BAYBOOK_SINGLE"] ?? "", "utf8");
  const [, single = ""] = /<style>([\s\S]*?)@media print\{\s*@page[\s\S]*?<\/style>/.exec(whole) ?? [];
  const sheets = emitted.filter((one) => one.endsWith(".css")).map((one) => ({ name: one, text: fs.readFileSync(path.join(root, "assets", one), "utf8") }));
  /** @type {Set<string>} */
  const seen = new Set();
  for (const { name, text } of [{ name: card, text: inline }, { name: "single", text: single }, ...sheets]) {
    const read = await rules(text);
    assert.ok(read.length > 5, name);
    assert.deepEqual(read.filter((rule) => !known.has(rule)), [], name);
    for (const rule of read) {
      seen.add(rule);
    }
  }
  assert.deepEqual([...known].filter((rule) => !seen.has(rule)), [], "rules that no written style sheet has");
  await context.close();
});
