// @ts-check
/* What is made ready for the next key: the same answers as without it, given way to a key, and little from a web host. */
"use strict";

const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const vm = require("node:vm");
const { after, before, describe, test } = require("node:test");
const opened = require("./opened.js");
const { Host } = require("./hosted.js");
require("./compute.js");

Object.assign(globalThis, { location: { protocol: "file:" } });
const site = path.join(__dirname, "../../site/find");
for (const name of ["words", "matching", "places", "held", "stated", "pairs", "fits", "head", "said", "search", "guess", "ahead"]) {
  vm.runInThisContext(fs.readFileSync(path.join(site, `${name}.js`), "utf8"), name);
}

const assets = path.join(opened.root, "assets");
const folder = path.join(assets, fs.readdirSync(assets).find((name) => /^find-[0-9a-f]+$/.test(name)) ?? "");
/** @type {Map<string, any>} */
const parts = new Map();
globalThis.baybookFind = { take: (name, rows) => parts.set(name, rows) };

/** @param {string} name @returns {Promise<any>} */
async function load(name) {
  if (["numbers", "held", "said"].includes(name)) {
    return undefined;
  }
  if (!parts.has(name)) {
    vm.runInThisContext(fs.readFileSync(path.join(folder, `${name}.js`), "utf8"));
  }
  return parts.get(name);
}

load.has = (/** @type {string} */ name) => parts.has(name);

const wait = (/** @type {number} */ time) => new Promise((done) => setTimeout(done, time));

/** Waits as long as something does not hold. @param {() => boolean} holds @param {string} what */
async function until(holds, what) {
  for (let waited = 0; !holds(); waited += 20) {
    assert.ok(waited < 20_000, what);
    await wait(20);
  }
}

describe("the next key", () => {
  const { search, prepare } = globalThis.baybookFindSearch;
  /** @param {() => boolean} isBusy @returns {BaybookFindField} */
  const field = (isBusy) => ({ search: (from, text, last) => search(from, text, last, 12), isBusy, last: () => null });
  /** @param {string} text */
  const guessed = async (text) => {
    const { sought } = await search(load, text, null, 12);
    return globalThis.baybookFindGuess.guesses(text, await prepare(load), sought.found);
  };

  test("goes on to words of the catalogue, machines, figures and units", async () => {
    const goesOn = /** @type {[string, string[]][]} */ ([
      ["l", ["la", "lo"]],
      ["ex las", ["ex lash"]],
      ["tar", ["tarn"]],
      ["0.2", ["0.20", "0.26", "0.2m"]],
      ["58 ", ["58 p", "58 k"]],
      ["58 p", ["58 ps"]],
      ["58p", ["58ps"]],
    ]);
    for (const [text, wanted] of goesOn) {
      const all = await guessed(text);
      assert.deepEqual(wanted.filter((one) => !all.includes(one)), [], `${text}: ${all}`);
    }
    assert.deepEqual((await guessed("zzzz")), []);
  });

  test("has the likeliest first: as many words go on with it as with no other", async () => {
    const { known } = await prepare(load);
    const begun = (/** @type {string} */ text) => [...known].filter((word) => word.startsWith(text)).length;
    const [first = "", ...others] = (await guessed("zz com")).map((text) => text.slice(3));
    assert.ok(others.length > 0 && others.every((one) => begun(one) <= begun(first)), `${first} of ${others}`);
  });

  test("is answered before it comes as it would be then", async () => {
    const ahead = globalThis.baybookFindAhead.start(load, await prepare(load), field(() => false));
    for (const text of ["ex las", "tarn", "0.2", "58 p", "drain plu"]) {
      ahead.after(text, null, await search(load, text, null, 12));
      const next = (await guessed(text))[0] ?? "";
      await until(() => ahead.known(next, null) !== undefined, next);
      const [known, own] = [ahead.known(next, null), await search(load, next, null, 12)];
      assert.deepEqual([known?.lines, known?.leftOut, known?.notes], [own.lines, own.leftOut, own.notes], next);
      assert.equal(ahead.known(next, "another-build"), undefined, "who looked at another build gets another answer");
    }
    ahead.stop();
  });

  test("is not answered while a query is, nor by half of the parts", async () => {
    let [isBusy, mayLoad] = [true, true];
    const held = (/** @type {string} */ name) => (mayLoad ? load(name) : Promise.reject(new Error(`${name} does not come`)));
    held.has = load.has;
    const ahead = globalThis.baybookFindAhead.start(held, await prepare(load), field(() => isBusy));
    const answer = await search(load, "ex las", null, 12);
    ahead.after("ex las", null, answer);
    await wait(300);
    assert.equal(ahead.known("ex lash", null), undefined, "a query is being answered");
    [isBusy, mayLoad] = [false, false];
    ahead.after("ex las", null, answer);
    await wait(300);
    assert.equal(ahead.known("ex lash", null), undefined, "no part comes");
    mayLoad = true;
    ahead.after("ex las", null, answer);
    await until(() => ahead.known("ex lash", null) !== undefined, "all is there");
    ahead.stop();
  });
});

describe("the field", () => {
  /** @type {import("playwright-core").Browser} */
  let browser;
  /** @type {InstanceType<typeof Host>} */
  let host;
  before(async () => {
    browser = await opened.launch();
    host = new Host(opened.root);
    await host.open();
  });
  after(async () => {
    await browser.close();
    await host.close();
  });

  /** Opens the home sheet, and keeps the names of what it asks for. @param {string} at */
  async function open(at) {
    const context = await browser.newContext({ serviceWorkers: "block" });
    const sheet = await context.newPage();
    /** @type {string[]} */
    const asked = [];
    sheet.on("request", (request) => asked.push(request.url().split("/").at(-1) ?? ""));
    await sheet.goto(at);
    return { context, sheet, asked };
  }

  /** Types a text as a thumb does, and tells what stands under the field after each key. @param {import("playwright-core").Page} sheet @param {string} text */
  async function typed(sheet, text) {
    const told = [];
    for (let end = 1; end <= text.length; end += 1) {
      await sheet.fill("[data-find]", text.slice(0, end));
      await sheet.locator(".find [role=status]", { hasText: /./ }).waitFor();
      told.push([text.slice(0, end), await sheet.locator(".find [role=status]").innerText(), await sheet.locator("[data-result]").allInnerTexts()]);
      await sheet.waitForTimeout(150);
    }
    return told;
  }

  test("from disk, what the next key asks for is there before it comes, and each part once", async () => {
    const { context, sheet, asked } = await open(opened.address("index.html"));
    await until(() => asked.includes("f-0.js") && asked.includes("words.js") && asked.includes("w-ta.js"), "the home sheet, untouched");
    await typed(sheet, "tarn");
    let before = -1;
    while (before < asked.length) {
      before = asked.length;
      await sheet.waitForTimeout(500);
    }
    await sheet.fill("[data-find]", "tarnh");
    await sheet.locator("[data-result]").first().waitFor();
    assert.deepEqual(asked.slice(before), [], "nothing is left to be asked for");
    assert.deepEqual(asked.filter((name, at) => asked.indexOf(name) !== at), [], "each once");
    assert.equal(await sheet.locator("script[src*='/f-']").count(), 0, "and leaves no element behind");
    await context.close();
  });

  test("the same after each key from disk, where the next is made ready, as from a web host, where it is not", async () => {
    for (const text of ["ex lash tarn 22", "58 psi", "exhuast la", "0.26 m"]) {
      const told = [];
      for (const at of [opened.address("index.html"), host.at("index.html")]) {
        const { context, sheet } = await open(at);
        told.push(await typed(sheet, text));
        await context.close();
      }
      assert.deepEqual(told[0], told[1]);
    }
  });

  test("from a web host no part is loaded for the next key alone", async () => {
    const { context, sheet, asked } = await open(host.at("index.html"));
    await sheet.fill("[data-find]", "t");
    await sheet.locator("[data-result]").first().waitFor();
    await until(() => asked.some((name) => name.startsWith("find-said")), "what any query needs");
    // What comes after the last of those that any query needs would come now.
    await sheet.waitForTimeout(500);
    await context.close();
    assert.ok(asked.includes("words.js") && asked.includes("f-0.js"), asked.join(" "));
    assert.deepEqual(asked.filter((name) => /^(w-[a-z0-9]{2}|[brvd]-.*)[.]js$/.test(name)), [], "no machine, build or number");
  });
});
