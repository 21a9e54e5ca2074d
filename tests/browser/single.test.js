// @ts-check
/* A build as one file: complete with scripts off, nothing beside it, every anchor in place. */
"use strict";

const assert = require("node:assert/strict");
const crypto = require("node:crypto");
const fs = require("node:fs");
const path = require("node:path");
const { pathToFileURL } = require("node:url");
const { after, before, test } = require("node:test");
const { launch, pages, text } = require("./opened.js");

const file = process.env["BAYBOOK_SINGLE"] ?? "";
const html = fs.existsSync(file) ? fs.readFileSync(file, "utf8") : "";
const build = /data-build="([^"]+)"/.exec(html)?.[1] ?? "";
const sheets = pages.filter((page) => page.startsWith(`builds/${build}/`));

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  assert.ok(html, "set BAYBOOK_SINGLE to the file of a build of the same base");
  browser = await launch();
});
after(() => browser?.close());

/** @param {string} from @param {RegExp} pattern */
const all = (from, pattern) => [...from.matchAll(pattern)].map((match) => match[1] ?? "");

test("it holds every sheet of the build, and every value, step and caution of each", () => {
  assert.ok(sheets.length > 5);
  for (const hook of [/data-spec="([^"]+)"/g, /data-step="([^"]+)"/g, /data-hazard="([^"]+)"/g, /aria-label="([^"]+)" data-axis/g]) {
    const wanted = sheets.flatMap((page) => all(text(page), hook)).sort();
    assert.deepEqual(all(html, hook).sort(), wanted, String(hook));
  }
  for (const page of sheets) {
    assert.ok(html.includes(`id="${path.basename(page, ".html")}"`), page);
  }
});

test("no id stands twice, every link lands inside, and the policy names the one style sheet", () => {
  const ids = all(html, /<[^>]*?\sid="([^"]*)"/g);
  assert.equal(new Set(ids).size, ids.length);
  for (const link of all(html, /\shref="([^"]*)"/g)) {
    assert.ok(link.startsWith("#") && ids.includes(link.slice(1)), link);
  }
  const styles = all(html, /<style>([\s\S]*?)<\/style>/g);
  assert.equal(styles.length, 1);
  const hash = crypto.createHash("sha256").update(styles[0] ?? "").digest("base64");
  assert.ok(html.includes(`style-src 'sha256-${hash}'`));
  assert.doesNotMatch(html, /<script|<link|\ssrc="|\sstyle="/);
  assert.ok(html.length < 1_000_000, `${html.length} bytes`);
});

test("it opens from a disk with scripts off, asks for nothing else, and leads from a step to its value", async () => {
  const context = await browser.newContext({ viewport: { width: 360, height: 740 }, javaScriptEnabled: false });
  const page = await context.newPage();
  /** @type {string[]} */
  const asked = [];
  page.on("request", (request) => asked.push(request.url()));
  page.on("console", (message) => asked.push(`console: ${message.text()}`));
  await page.goto(pathToFileURL(fs.realpathSync(file)).href);
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= 360, "scrolls sideways");
  await page.locator('[data-step] a[href^="#engine-"]').first().click();
  const row = page.locator(`[id="${page.url().split("#")[1]}"]`);
  assert.ok(await row.locator(".value").isVisible());
  assert.deepEqual(asked.filter((one) => !one.startsWith("data:")).length, 1, asked.join("\n"));
  await context.close();
});
