// @ts-check
/* The find: the same list as the compiler's for every query, and a reader at the field. */
"use strict";

const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const vm = require("node:vm");
const { after, before, describe, test } = require("node:test");
const opened = require("./opened.js");
const { Host } = require("./hosted.js");
require("./compute.js");

const site = path.join(__dirname, "../../site/find");
for (const name of ["words", "matching", "places", "held", "stated", "pairs", "fits", "head", "said", "search"]) {
  vm.runInThisContext(fs.readFileSync(path.join(site, `${name}.js`), "utf8"), name);
}

const assets = path.join(opened.root, "assets");
const folder = fs.readdirSync(assets).find((name) => /^find-[0-9a-f]+$/.test(name)) ?? "";

/** @type {Map<string, any>} */
const loaded = new Map();
/** Parts that were asked for and are not there. @type {Set<string>} */
const absent = new Set();
globalThis.baybookFind = { take: (name, rows) => loaded.set(name, rows) };

/** What is no part of the index. @param {string} name */
const isCode = (name) => ["numbers", "held", "said"].includes(name);

/** @param {string} name @returns {Promise<any>} */
async function load(name) {
  if (isCode(name)) {
    return undefined;
  }
  if (!loaded.has(name)) {
    const file = path.join(assets, folder, `${name}.js`);
    if (!fs.existsSync(file)) {
      absent.add(name);
    }
    vm.runInThisContext(fs.readFileSync(file, "utf8"));
  }
  return loaded.get(name);
}

describe("the search", () => {
  test("finds what the compiler finds, in the same order, for every query", async () => {
    const answers = JSON.parse(fs.readFileSync(path.join(__dirname, "../../target/find-answers.json"), "utf8"));
    assert.ok(answers.length >= 200, `${answers.length} queries`);
    const wrong = [];
    for (const { query, last, found, left_out: leftOut, notes } of answers) {
      const own = await baybookFindSearch.search(load, query, last, 12);
      const lines = own.lines.map((one) => [one.kind, one.of, one.build, one.builds, one.where, one.when, one.title, one.text, one.score]);
      try {
        assert.deepEqual([lines, own.leftOut, own.notes], [found, leftOut, notes]);
      } catch {
        wrong.push({ query, browser: [lines.slice(0, 3).map((one) => [one[1], one[2], one[8]]), own.notes], compiler: [found.slice(0, 3).map((/** @type {any[]} */ one) => [one[1], one[2], one[8]]), notes] });
      }
    }
    assert.deepEqual(wrong, []);
    assert.deepEqual([...absent], [], "what is asked for ahead of need is there too");
  });

  test("every line leads to a sheet that is there, at a line that is there", async () => {
    for (const query of ["exhaust lash tarnhawk 887", "check the valve lash", "starts badly cold", "code 17", "tarnhawk 887 machine manual", "crageel", "torque adapter"]) {
      for (const one of (await baybookFindSearch.search(load, query, null, 12)).lines) {
        const [page = "", anchor] = one.href.split("#");
        const text = fs.readFileSync(path.join(opened.root, page), "utf8");
        assert.ok(!anchor || text.includes(`id="${anchor}"`), one.href);
      }
    }
  });
});

describe("on a base of sixty thousand statements", () => {
  /** A first query with the code that it needs. The sheet brings the field alone, its first touch what works it. */
  const MOST = 100_000;
  const large = JSON.parse(fs.readFileSync(path.join(__dirname, "../../target/find-large.json"), "utf8"));
  /** @param {string} start */
  const code = (start) => fs.statSync(path.join(assets, fs.readdirSync(assets).find((name) => new RegExp(`^${start}-[0-9a-f]{10}[.](js|css)$`).test(name)) ?? start)).size;

  /** What a query answers where nothing is loaded, the bytes of each part that it loads, and parts that are not there. @param {string} query */
  async function first(query) {
    /** @type {Map<string, number>} */
    const bytes = new Map([["panel", code("find-panel")], ["how the lines look", code("late")]]);
    // What is asked for ahead of need fails in silence: it is told here.
    /** @type {string[]} */
    const absent = [];
    const own = await baybookFindSearch.search(async (name) => {
      if (isCode(name)) {
        bytes.set(name, code(name === "numbers" ? name : `find-${name}`));
        return undefined;
      }
      if (!(name in large.parts)) {
        absent.push(name);
        throw new Error(`${name} is not there`);
      }
      bytes.set(name, Buffer.byteLength(`baybookFind.take("${name}",${JSON.stringify(large.parts[name])});\n`));
      return large.parts[name];
    }, query, null, 12);
    const lines = own.lines.map((one) => [one.kind, one.of, one.build, one.builds, one.text, one.score]);
    return { told: [lines, own.leftOut, own.notes], bytes, absent };
  }

  test("the same list, and what a first query loads: a hundred kilobytes at most", async (context) => {
    assert.ok(large.statements >= 60_000 && large.answers.length >= 20);
    for (const { query, found, left_out: leftOut, notes } of large.answers) {
      const { told, bytes, absent } = await first(query);
      assert.deepEqual(told, [found, leftOut, notes], query);
      assert.deepEqual(absent, [], query);
      const all = [...bytes.values()].reduce((sum, one) => sum + one, 0);
      context.diagnostic(`${query}: ${all} bytes, ${bytes.size} files`);
      assert.ok(all <= MOST, `${query}: ${all} bytes, ${JSON.stringify([...bytes])}`);
    }
  });

  test("the same list of what is typed so far", async () => {
    assert.ok(large.typed.length >= 80, `${large.typed.length} beginnings`);
    for (const { query, found, left_out: leftOut, notes } of large.typed) {
      const { told, absent } = await first(query);
      assert.deepEqual(told, [found, leftOut, notes], query);
      assert.deepEqual(absent, [], query);
    }
  });
});

describe("the field", () => {
  /** @type {import("playwright-core").Browser} */
  let browser;
  before(async () => {
    browser = await opened.launch();
  });
  after(() => browser.close());

  /** @param {string} page @param {(sheet: import("playwright-core").Page) => Promise<void>} reads */
  async function on(page, reads) {
    const context = await browser.newContext({ viewport: { width: 360, height: 740 } });
    const sheet = await context.newPage();
    /** @type {string[]} */
    const errors = [];
    sheet.on("pageerror", (error) => errors.push(String(error)));
    await sheet.goto(opened.address(page));
    await reads(sheet);
    await context.close();
    assert.deepEqual(errors, []);
  }

  test("the number is in the line, and enter leads to it", () =>
    on("index.html", async (sheet) => {
      await sheet.fill("[data-find]", "ex lash tarn 887 rear");
      const first = sheet.locator("[data-result]").first();
      await first.waitFor();
      assert.match(await first.innerText(), /Exhaust valve lash[^]*rear[^]*0\.26 ± 0\.02 mm/);
      assert.ok(((await first.boundingBox())?.height ?? 0) >= 48);
      assert.match((await sheet.locator(".find [role=status]").textContent()) ?? "", /lines\. First: Exhaust valve lash/);
      await sheet.press("[data-find]", "Enter");
      await sheet.waitForURL(/engine\.html#lash_exhaust/);
      assert.equal(await sheet.locator(":target").getAttribute("data-spec"), "lash.exhaust");
    }));

  test("arrows walk the lines, escape clears them, and a slip is said", () =>
    on("index.html", async (sheet) => {
      await sheet.fill("[data-find]", "58 psi");
      await sheet.locator("[data-result]").first().waitFor();
      await sheet.press("[data-find]", "ArrowDown");
      assert.equal(await sheet.evaluate(() => document.activeElement?.getAttribute("data-result")), "statement");
      await sheet.keyboard.press("ArrowUp");
      await sheet.keyboard.press("Escape");
      assert.equal(await sheet.locator("[data-result]").count(), 0);
      assert.equal(await sheet.inputValue("[data-find]"), "");
      await sheet.fill("[data-find]", "zzzzzz");
      await sheet.locator(".find [role=status]", { hasText: "Nothing fits" }).waitFor();
    }));

  test("what fits nothing is said, and enter then leads to no sheet", () =>
    on("index.html", async (sheet) => {
      await sheet.fill("[data-find]", "exhaust lash 888");
      await sheet.locator("[data-result]").first().waitFor();
      assert.match(await sheet.locator(".find [role=status]").innerText(), /Nothing fits “888”[^]* Without “888”: the best 12 lines\./);
      await sheet.press("[data-find]", "Enter");
      assert.equal(await sheet.evaluate(() => document.activeElement?.getAttribute("data-result")), "statement");
      assert.match(sheet.url(), /index\.html$/);
      await sheet.fill("[data-find]", "57 psi compression");
      await sheet.locator(".find [role=status]", { hasText: "“57 psi” is printed, but not with the rest; nearest: “58 psi”" }).waitFor();
      await sheet.fill("[data-find]", "exhaust lash 887");
      await sheet.locator(".find [role=status]", { hasText: /^(?!Nothing)/ }).first().waitFor();
    }));

  test("the machine looked at last is preferred, and says so", () =>
    on("builds/qk-1021/engine.html", async (sheet) => {
      await sheet.fill("[data-find]", "drain plug");
      const first = sheet.locator("[data-result]").first();
      await first.waitFor();
      assert.match(await first.innerText(), /qk-1021 \(looked at last\)/);
    }));

  test("it finds where storage is denied", async () => {
    const context = await browser.newContext();
    await context.addInitScript(() => {
      Object.defineProperty(globalThis, "localStorage", { get: () => { throw new Error("denied"); } });
    });
    const sheet = await context.newPage();
    await sheet.goto(opened.address("index.html"));
    await sheet.fill("[data-find]", "drain plug");
    await sheet.locator("[data-result]").first().waitFor();
    await context.close();
  });

  test("the same lines from a web host as from disk, each in a private window", async () => {
    const host = new Host(opened.root);
    await host.open();
    /** @type {string[][]} */
    const told = [];
    for (const at of [opened.address("index.html"), host.at("index.html")]) {
      // A context of its own keeps nothing: so does a private window.
      const context = await browser.newContext();
      const sheet = await context.newPage();
      await sheet.goto(at);
      await sheet.fill("[data-find]", "ex lash tarn 887 22");
      await sheet.locator("[data-result]").first().waitFor();
      told.push(await sheet.locator("[data-result]").allInnerTexts());
      await context.close();
    }
    await host.close();
    assert.ok((told[0]?.length ?? 0) > 3);
    assert.deepEqual(told[1], told[0]);
  });

  test("an assistive reader meets nothing that is wrong", () =>
    on("index.html", async (sheet) => {
      await sheet.fill("[data-find]", "lash 887");
      await sheet.locator("[data-result]").first().waitFor();
      await sheet.evaluate(fs.readFileSync(require.resolve("axe-core/axe.min.js"), "utf8"));
      const found = await sheet.evaluate("axe.run('.find')");
      assert.deepEqual(/** @type {any} */ (found).violations.map((/** @type {any} */ one) => one.id), []);
    }));
});
