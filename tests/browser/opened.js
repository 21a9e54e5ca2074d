// @ts-check
/*
 * The compiled handbook as the tests open it: its pages by kind, and a browser that reads them from
 * disk. Nothing here is skipped quietly: without a handbook or a browser every test fails.
 */
"use strict";

const fs = require("node:fs");
const path = require("node:path");
const { fileURLToPath, pathToFileURL } = require("node:url");
const axe = require("axe-core");
const { chromium } = require("playwright-core");

/** @typedef {import("playwright-core").Browser} Browser */
/** @typedef {import("playwright-core").Page} Page */

const given = process.env["BAYBOOK_HANDBOOK"];
if (!given || !fs.existsSync(path.join(given, "index.html"))) {
  throw new Error("set BAYBOOK_HANDBOOK to the directory of a compiled handbook");
}
const root = fs.realpathSync(given);

/** @param {string} folder @returns {string[]} */
function below(folder) {
  return fs.readdirSync(folder, { withFileTypes: true }).flatMap((entry) => {
    const full = path.join(folder, entry.name);
    return entry.isDirectory() ? below(full) : [full];
  });
}

/** Every page, by path relative to the handbook, with `/`. */
const pages = below(root)
  .filter((file) => file.endsWith(".html"))
  .map((file) => path.relative(root, file).split(path.sep).join("/"))
  .sort();

/** @param {string} page */
function text(page) {
  return fs.readFileSync(path.join(root, page), "utf8");
}

/** @param {string} page */
function kindOf(page) {
  const [folder, , file] = page.split("/");
  if (folder === "builds") {
    if (file === "drawings.html") {
      return "drawings sheet";
    }
    if (file === "card.html") {
      return "bench card";
    }
    const complaint = file?.startsWith("complaint-") ? "complaint sheet" : "procedure sheet";
    return file === "engine.html" ? "engine sheet" : complaint;
  }
  return page.includes("/") ? `${folder} page` : page;
}

/** The script with what the rows of an engine sheet are judged by. @param {string} page */
function limits(page) {
  return page.replace("engine.html", /\blimits-[0-9a-f]+\.js/.exec(text(page))?.[0] ?? "");
}

/** The longest page of each kind: the one most likely to hold everything. */
const samples = [...new Set(pages.map(kindOf))].map((kind) => {
  const ofKind = pages.filter((page) => kindOf(page) === kind);
  const page = ofKind.reduce((long, one) => (text(one).length > text(long).length ? one : long));
  return { kind, page };
});

/** @param {string} page */
function address(page) {
  const [file = "", fragment] = page.split("#");
  return pathToFileURL(path.join(root, file)).href + (fragment ? `#${fragment}` : "");
}

/** A browser that talks to nobody. */
const program = {
  executablePath: process.env["BAYBOOK_CHROMIUM"] ?? "/usr/bin/chromium",
  args: [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
    "--no-first-run",
  ],
};

function launch() {
  return chromium.launch(program);
}

/** The same browser with what it kept in a folder, as a device has it. @param {string} folder */
function device(folder) {
  return chromium.launchPersistentContext(folder, { ...program, viewport: { width: 360, height: 740 } });
}

/** Another handbook that a test reads: its folder, and the address of a page. @param {string} variable that names it */
function other(variable) {
  const given = process.env[variable] ?? "";
  if (!fs.existsSync(path.join(given, "index.html"))) {
    throw new Error(`set ${variable} to the compiled handbook that tests/run makes for it`);
  }
  const folder = fs.realpathSync(given);
  return { folder, address: (/** @type {string} */ page) => pathToFileURL(path.join(folder, page)).href };
}

/**
 * Whether a request was only given up as the page was left before it was answered, a page's icon above all: the
 * file it asked for is there. A file that is missing, or refused, fails with another word.
 * @param {import("playwright-core").Request} request
 */
function leftBehind(request) {
  const { protocol } = new URL(request.url());
  return (
    request.failure()?.errorText === "net::ERR_ABORTED" &&
    protocol === "file:" &&
    fs.existsSync(fileURLToPath(request.url()))
  );
}

/**
 * A page of a new context that notes every complaint: script errors, console errors, refused loads,
 * and requests that leave the handbook.
 * @param {import("playwright-core").Browser} browser
 * @param {import("playwright-core").BrowserContextOptions} options
 * @param {string} [handbook] the folder of another handbook
 */
async function tab(browser, options, handbook = root) {
  const context = await browser.newContext(options);
  const page = await context.newPage();
  /** @type {string[]} */
  const complaints = [];
  const inside = pathToFileURL(fs.realpathSync(handbook)).href + "/";
  page.on("pageerror", (error) => complaints.push(`script error: ${error.message}`));
  page.on("console", (message) => {
    if (message.type() === "error" || message.type() === "warning") {
      complaints.push(`console: ${message.text()}`);
    }
  });
  page.on("requestfailed", (request) => {
    if (!leftBehind(request)) {
      complaints.push(`not loaded: ${request.url()}: ${request.failure()?.errorText}`);
    }
  });
  page.on("request", (request) => {
    if (!request.url().startsWith(inside) && !request.url().startsWith("data:")) {
      complaints.push(`leaves the handbook: ${request.url()}`);
    }
  });
  return { context, page, complaints };
}

/**
 * What bars a reader's way on a page as it stands, by axe-core: every rule of its own, the size of targets, and where
 * the theme promises it contrast of 7:1.
 * @param {import("playwright-core").Page} page
 * @param {boolean} enhanced
 */
async function barriers(page, enhanced) {
  await page.evaluate(axe.source);
  return page.evaluate(async (enhanced) => {
    const runner = /** @type {typeof import("axe-core")} */ (/** @type {any} */ (globalThis).axe);
    const rules = { "color-contrast-enhanced": { enabled: enhanced }, "target-size": { enabled: true } };
    const { violations } = await runner.run(document, { rules, preload: false });
    return violations.map((one) => `${one.id}: ${one.nodes.slice(0, 3).map((node) => node.html).join(" | ")}`);
  }, enhanced);
}

module.exports = { root, pages, samples, text, limits, kindOf, address, launch, device, other, tab, barriers };
