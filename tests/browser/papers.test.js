// @ts-check
/*
 * Sheets that are not there without more: what changed since a release (in BAYBOOK_NEXT), and the page of jobs with
 * a job in it. Each as the others are walked: in every theme, by its markup, and on paper.
 */
"use strict";

const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const { after, before, describe, test } = require("node:test");
const { FileSystemConfigLoader, HtmlValidate } = require("html-validate");
const { address, barriers, kindOf, launch, other, pages, text } = require("./opened.js");
const { plain, sheets } = require("./printed.js");

const next = other("BAYBOOK_NEXT");
const changes = next.address("changes.html");
const bench = pages.find((page) => kindOf(page) === "engine sheet" && text(page).includes('data-spec="lash.exhaust"')) ?? "";
const LONG = "Hard to start from cold, ticks at idle, and the lamp comes on while the heated grips draw their current.";

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

/** @param {import("playwright-core").Page} page */
async function openChanges(page) {
  await page.goto(changes);
}

/** Reads a lash, and writes into the job what an owner says. @param {import("playwright-core").Page} page */
async function openJob(page) {
  await page.goto(address(bench));
  const row = page.locator('[data-spec="lash.exhaust"]').first();
  await row.locator("[data-reading]").first().click();
  await page.locator(".dock [data-state=met]").click();
  await row.locator("[data-reading]").first().fill("0.9");
  await row.locator("[data-verdict]").first().waitFor();
  await page.goto(address("job.html"));
  for (const [name, words] of [["serial", "TH22-0417"], ["complaint", LONG]]) {
    await page.locator(`textarea[name="${name}"]`).fill(words ?? "");
    await page.locator(`textarea[name="${name}"]`).blur();
  }
}

for (const [name, open] of /** @type {const} */ ([["changes", openChanges], ["a job", openJob]])) {
  describe(name, () => {
    for (const [width, theme] of /** @type {const} */ ([[360, "light"], [360, "dark"], [360, "sun"], [1280, "light"]])) {
      test(`no barrier at ${width} px in ${theme}`, async () => {
        const context = await browser.newContext({ viewport: { width, height: 800 }, colorScheme: theme === "dark" ? "dark" : "light" });
        const page = await context.newPage();
        /** @type {string[]} */
        const complaints = [];
        page.on("pageerror", (error) => complaints.push(error.message));
        page.on("console", (message) => ["error", "warning"].includes(message.type()) && complaints.push(message.text()));
        await open(page);
        if (theme === "sun") {
          await page.getByRole("button", { name: "Sun" }).click();
        }
        const found = await page.evaluate(() => ({
          width: document.documentElement.scrollWidth,
          small: [...document.querySelectorAll("main a, main button, main select, main textarea")].filter((one) => one.getClientRects().length > 0 && one.getBoundingClientRect().height < 47.5).map((one) => one.textContent),
          cut: [...document.querySelectorAll("textarea")].filter((one) => one.scrollHeight > one.clientHeight + 1).map((one) => one.name),
        }));
        assert.deepEqual(found, { width, small: [], cut: [] });
        const report = await barriers(page, theme === "sun");
        assert.deepEqual([...report, ...complaints], []);
        await context.close();
      });
    }
  });
}

test("the changes stand by kind and engine, with their numbers held to their units", async () => {
  const html = fs.readFileSync(path.join(next.folder, "changes.html"), "utf8");
  const validator = new HtmlValidate(new FileSystemConfigLoader());
  const { results } = await validator.validateString(html, path.join(__dirname, "page.html"));
  assert.deepEqual(results.flatMap(({ messages }) => messages.map((one) => `${one.line}:${one.column} ${one.ruleId}: ${one.message}`)), []);
  const page = await browser.newPage();
  await page.goto(changes);
  const kinds = await page.locator(".changed a").allTextContents();
  assert.deepEqual(kinds.map((kind) => kind.replace(/: \d+$/, "")), await page.locator("h2").evaluateAll((all) => all.map((one) => one.firstChild?.textContent?.trim())));
  assert.ok(kinds.includes("Loosened: 1") && kinds.some((kind) => kind.startsWith("Stages")) && kinds.some((kind) => kind.startsWith("Confirmed")), kinds.join());
  const loosened = page.locator("section:has(#loosened)");
  assert.match((await loosened.locator(".changed-in").textContent()) ?? "", /Engine A/);
  assert.match((await loosened.locator("td").last().textContent()) ?? "", /max\s0\.80\u00a0mm/);
  assert.match(html, /lbf·in/);
  assert.doesNotMatch(html, /lbf·in(?! \(pound-inches\)|\u00a0\(pound-inches\))/);
  for (const kind of await page.locator(".changed a").all()) {
    assert.equal(await page.locator((await kind.getAttribute("href")) ?? "").count(), 1);
  }
  await page.close();
});

test("the shop's record begins a page of its own, and no page is empty", async () => {
  const context = await browser.newContext({ viewport: { width: 1280, height: 800 } });
  const page = await context.newPage();
  await openJob(page);
  const papers = await sheets(await page.pdf({ format: "A4", preferCSSPageSize: true }));
  const record = papers.findIndex((words) => words.includes(plain("Shop record Build")));
  assert.ok(record > 0 && !papers[record]?.includes(plain("Who to ask")), papers.join("\n"));
  const [owner, shop] = [papers.slice(0, record).join(""), papers.slice(record).join("")];
  for (const words of ["Owner’s page", "Serial number: TH22-0417", "outside the maker’s limits"]) {
    assert.ok(owner.includes(plain(words)), words);
  }
  for (const words of ["TH22-0417", "Out of spec"]) {
    assert.ok(shop.includes(plain(words)), words);
  }
  const base = /data-base="([^"]+)"/.exec(text("job.html"))?.[1] ?? "no base";
  for (const words of papers) {
    assert.ok(words.includes(plain(base)) && words.includes(plain("trained or licensed technician")) && words.length > 300, words);
  }
  await context.close();
});

for (const width of [360, 1280]) {
  test(`what nobody noted is one line on the screen and lines to write on in print, at ${width}`, async () => {
    const context = await browser.newContext({ viewport: { width, height: 800 } });
    const page = await context.newPage();
    await openJob(page);
    const owner = page.locator(".paper-sheet").first();
    const seen = async () => [await owner.locator(".unfilled:visible").count(), await owner.locator(".left-blank").isVisible()];
    assert.deepEqual(await seen(), [0, true]);
    assert.match((await owner.locator(".left-blank").textContent()) ?? "", /^Nothing noted yetFound, what it means, .*do not ride, .*who to ask\.$/);
    assert.match((await owner.textContent()) ?? "", /Age of the dataRelease \S+ of \S+, (?:\d+ (?:day|month)s? old on \d{4}-\d\d-\d\d|dated later)/);
    await page.locator('textarea[name="do not ride"]').fill("Tie rod bent");
    await page.locator('textarea[name="do not ride"]').blur();
    assert.doesNotMatch((await owner.locator(".left-blank").textContent()) ?? "", /do not ride/);
    await page.emulateMedia({ media: "print" });
    const [blanks, named] = await seen();
    assert.deepEqual([Number(blanks) > 5, named], [true, false]);
    await context.close();
  });
}
