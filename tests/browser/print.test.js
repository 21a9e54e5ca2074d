// @ts-check
/*
 * Sheets on paper, A4 and Letter, read back from the printed file: every number of the sheet is there, no
 * row or step is split over two pages, cautions stand before what they guard, and each page says by itself
 * what it is of.
 */
"use strict";

const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
const { address, kindOf, launch, limits, pages, tab, text } = require("./opened.js");
const { plain, sheets } = require("./printed.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const FORMATS = /** @type {const} */ (["A4", "Letter"]);

/** The longest of each group. @param {string[]} all @param {(page: string) => string} group */
function longest(all, group) {
  /** @type {Map<string, string>} */
  const found = new Map();
  for (const page of all) {
    const before = found.get(group(page));
    if (before === undefined || text(page).length > text(before).length) {
      found.set(group(page), page);
    }
  }
  return [...found.values()];
}

const engines = longest(pages.filter((page) => kindOf(page) === "engine sheet"), (page) => text(limits(page)).includes("several") ? "several" : "one");
const procedures = longest(pages.filter((page) => kindOf(page) === "procedure sheet"), (page) => page.split("/")[2] ?? "");
const complaints = longest(pages.filter((page) => kindOf(page) === "complaint sheet"), (page) => page.split("/")[2] ?? "");

/**
 * What must stand on one page together: every text of a row or step that paper shows, number by number.
 * @param {import("playwright-core").Page} page @param {string} selector
 */
async function blocks(page, selector) {
  const found = await page.locator(selector).evaluateAll((all) =>
    all.map((one) => {
      const texts = [];
      for (const walker = document.createTreeWalker(one, NodeFilter.SHOW_TEXT); walker.nextNode(); ) {
        const parent = walker.currentNode.parentElement;
        if (parent && !parent.closest("svg, .entry, .ends") && parent.checkVisibility({ contentVisibilityAuto: true })) {
          texts.push(walker.currentNode.textContent ?? "");
        }
      }
      return texts;
    }),
  );
  return found.map((texts) => texts.map(plain).filter((one) => one !== "")).filter((texts) => texts.length > 0);
}

/** @param {string} name @param {string} selector @param {readonly ("A4" | "Letter")[]} formats */
async function onPaper(name, selector, formats) {
  const { context, page, complaints } = await tab(browser, { viewport: { width: 1280, height: 900 } });
  await page.goto(address(name));
  await page.emulateMedia({ media: "print" });
  const together = await blocks(page, selector);
  assert.ok(together.length > 0, `${name} has no ${selector}`);
  const [build = "", hash = ""] = await page.locator("main").evaluate((main) => [main.dataset["build"] ?? "", document.querySelector(".cell.hash p:last-child")?.textContent ?? ""]);
  const release = (await page.locator("body").getAttribute("data-release")) ?? "";
  const notice = plain((await page.locator(".panel.general .danger-text").textContent()) ?? "");
  assert.match(hash, /^[0-9a-f]{12}$/);
  for (const format of formats) {
    const printed = await sheets(await page.pdf({ format, printBackground: true }));
    for (const parts of together) {
      const whole = printed.some((words) => parts.every((part) => words.includes(part)));
      assert.ok(whole, `${name} on ${format}: not on one page: ${parts.join(" | ")}`);
    }
    printed.forEach((words, at) => {
      for (const one of [build, hash, release, notice, `${at + 1}/${printed.length}`]) {
        assert.ok(words.includes(plain(one)), `${name} on ${format}: page ${at + 1} lacks ${one}`);
      }
    });
    const groups = await page.locator(".group:has(.row) .head h2, .steps > h3").allTextContents();
    for (const group of groups) {
      // A heading at the very end of a page, before its foot, has lost what it heads.
      assert.ok(!printed.some((words) => words.replace(notice, "").includes(`${plain(group)}Build${build}`)), `${name} on ${format}: ${group} ends a page`);
    }
  }
  assert.deepEqual(complaints, []);
  await context.close();
}

for (const name of engines) {
  test(`${name} on paper: every number, no row split, every page says what it is of`, () => onPaper(name, "article.row", FORMATS));
}

procedures.forEach((name, at) => {
  test(`${name} on paper: every number and caution with its step, every page says what it is of`, () => onPaper(name, "[data-step]", [at % 2 === 0 ? "A4" : "Letter"]));
});

complaints.forEach((name, at) => {
  test(`${name} on paper: no check split, every page says what it is of`, () => onPaper(name, "[data-check]", [at % 2 === 0 ? "Letter" : "A4"]));
});

test("an engine sheet on paper has a line to write on where nothing is read, and the reading where one is", async () => {
  const { context, page } = await tab(browser, { viewport: { width: 1280, height: 900 } });
  await page.goto(address(engines[0] ?? ""));
  const row = page.locator('.row[data-unit][data-when=""]:not([data-needs])').first();
  // The limits come with the bench, which comes with the first touch.
  await row.locator("[data-reading]").focus();
  await page.locator(`[id="${await row.getAttribute("id")}"][data-kind]`).waitFor();
  const limit = /[\d.]+/.exec((await row.getAttribute("data-window")) ?? (await row.getAttribute("data-wear")) ?? (await row.getAttribute("data-new")) ?? "")?.[0] ?? "";
  const line = () => row.evaluate((one) => getComputedStyle(one, "::after").display);
  await page.emulateMedia({ media: "print" });
  assert.notEqual(await line(), "none");
  await page.emulateMedia({ media: "screen" });
  await row.locator("[data-reading]").fill(limit);
  await page.emulateMedia({ media: "print" });
  assert.equal(await line(), "none");
  const said = plain(await row.locator("output.verdict").innerText());
  const printed = await sheets(await page.pdf({ format: "A4" }));
  assert.ok(printed.some((words) => words.includes(said)), said);
  await context.close();
});

test("the papers of a job: no part split, the reading drawn at its true place, every reading in the record", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: { width: 1280, height: 900 } });
  await page.goto(address(engines[0] ?? ""));
  // The limits come with the bench, which comes with the first touch.
  await page.locator("[data-reading]").first().focus();
  const row = page.locator('.row[data-kind][data-when=""]:not([data-needs])[data-window*=".."]').first();
  const [, low = 0, high = 0] = (/([\d.]+)\.\.([\d.]+)/.exec((await row.getAttribute("data-window")) ?? "") ?? []).map(Number);
  const [before, now] = [low / 2, (low + high) / 2];
  for (const value of [before, now]) {
    await row.locator("[data-reading]").fill(String(value));
    await page.locator(".dock-close").click();
  }
  await page.goto(address("job.html"));
  const drawing = page.locator(".paper-line");
  const at = await drawing.evaluate((svg) => ({
    limits: [...svg.querySelectorAll(".d-edge")].map((one) => Number(/^M([\d.]+)/.exec(one.getAttribute("d") ?? "")?.[1])),
    tips: [...svg.querySelectorAll(".m-tip")].map((one) => Number(/^M([\d.]+)/.exec(one.getAttribute("d") ?? "")?.[1])),
  }));
  const [left = 0, right = 0] = at.limits;
  const place = (/** @type {number} */ value) => left + ((value - low) / (high - low)) * (right - left);
  assert.ok(Math.abs(Number(at.tips[0]) - place(before)) < 1 && Math.abs(Number(at.tips[1]) - place(now)) < 1, JSON.stringify(at));
  await page.emulateMedia({ media: "print" });
  const together = await blocks(page, ".paper-part, .paper-sheet tr");
  for (const format of FORMATS) {
    const printed = await sheets(await page.pdf({ format, printBackground: true }));
    for (const parts of together) {
      assert.ok(printed.some((words) => parts.every((part) => words.includes(part))), `${format}: not on one page: ${parts.join(" | ")}`);
    }
    const record = printed.find((words) => words.includes("Shoprecord")) ?? "";
    assert.ok(record.includes(`${plain(String(before))}`) && record.includes("(repeatedlater)"), record);
    assert.ok(printed.every((words) => words.includes("release")));
  }
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the sheet of sums prints what is open, worked out, else all with their formulas", async () => {
  const { context, page } = await tab(browser, { viewport: { width: 1280, height: 900 } });
  await page.goto(address("sums.html"));
  const formulas = (await page.locator(".sum-formula").allTextContents()).map(plain);
  const all = (await sheets(await page.pdf({ format: "A4" }))).join("");
  assert.deepEqual(formulas.filter((one) => !all.includes(one)), []);
  const one = page.locator("#sum-battery-rest, details.reckon").first();
  await one.evaluate((details) => /** @type {HTMLDetailsElement} */ (details).setAttribute("open", ""));
  const open = (await sheets(await page.pdf({ format: "A4" }))).join("");
  const own = plain((await one.locator(".sum-formula").textContent()) ?? "");
  assert.ok(open.includes(own));
  assert.ok(formulas.filter((other) => other !== own && open.includes(other)).length === 0);
  await context.close();
});
