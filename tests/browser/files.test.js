// @ts-check
/* What can be said of the files alone: links, markup, policy, hooks, escaping. All pages. */
"use strict";

const assert = require("node:assert/strict");
const crypto = require("node:crypto");
const fs = require("node:fs");
const path = require("node:path");
const test = require("node:test");
const { FileSystemConfigLoader, HtmlValidate } = require("html-validate");
const { root, pages, text, kindOf } = require("./opened.js");

const POLICY =
  "default-src 'none'; style-src 'self'; script-src 'self'; img-src 'self' data:; font-src 'self'; manifest-src 'self'; base-uri 'none'; form-action 'none'";

/** @param {string} html @param {RegExp} pattern */
const all = (html, pattern) => [...html.matchAll(pattern)].map((match) => match[1] ?? "");

/** @type {Map<string, Set<string>>} */
const anchors = new Map(pages.map((page) => [page, new Set(all(text(page), /\sid="([^"]*)"/g))]));

test("there is a page of every kind", () => {
  const kinds = new Set(pages.map(kindOf));
  for (const kind of [
    "index.html",
    "machines.html",
    "az.html",
    "groups.html",
    "rules.html",
    "about.html",
    "machines page",
    "entries page",
    "engine sheet",
    "drawings sheet",
    "procedure sheet",
  ]) {
    assert.ok(kinds.has(kind), kind);
  }
});

test("every link and fragment leads somewhere inside the handbook", () => {
  /** @type {string[]} */
  const broken = [];
  for (const page of pages) {
    for (const link of all(text(page), /\s(?:href|src)="([^"]*)"/g)) {
      const [file = "", fragment] = link.replaceAll("&amp;", "&").split("#");
      const target = file === "" ? page : path.posix.join(path.posix.dirname(page), decodeURI(file.replace(/\?.*/, "")));
      const known = target.endsWith(".html") ? anchors.has(target) : fs.existsSync(path.join(root, target));
      const lands = fragment === undefined || anchors.get(target)?.has(decodeURIComponent(fragment));
      if (/^[a-z]+:/i.test(link) || target.startsWith("..") || !known || !lands) {
        broken.push(`${page}: ${link}`);
      }
    }
  }
  assert.deepEqual(broken, []);
});

test("every page but home is linked from another", () => {
  const linked = new Set(["index.html"]);
  for (const page of pages) {
    for (const link of all(text(page), /\shref="([^"#]+)/g)) {
      linked.add(path.posix.join(path.posix.dirname(page), link));
    }
  }
  assert.deepEqual(pages.filter((page) => !linked.has(page)), []);
});

test("every page has the policy, and nothing that the policy forbids", () => {
  for (const page of pages.filter((page) => kindOf(page) !== "bench card")) {
    const html = text(page);
    assert.ok(html.includes(`content="${POLICY}"`), page);
    // A block of data is no script: what may stand in it is held below.
    assert.doesNotMatch(html, /\sstyle="|<style|<script(?![^>]*\ssrc=)(?! type="application\/ld\+json">)|\son[a-z]+="|javascript:/i, page);
  }
});

test("a bench card stands alone: its one style sheet is the one its policy names", () => {
  const cards = pages.filter((page) => kindOf(page) === "bench card");
  assert.equal(cards.length, pages.filter((page) => kindOf(page) === "engine sheet").length);
  for (const page of cards) {
    const html = text(page);
    const styles = all(html, /<style>([\s\S]*?)<\/style>/g);
    const hashes = styles.map((style) => crypto.createHash("sha256").update(style).digest("base64"));
    assert.equal(styles.length, 1, page);
    assert.ok(html.includes(`content="default-src 'none'; style-src 'sha256-${hashes[0]}'; font-src data:; base-uri 'none'; form-action 'none'"`), page);
    assert.doesNotMatch(html, /\sstyle="|<script|<link|\ssrc="|\son[a-z]+="|javascript:/i, page);
  }
});

test("every drawing has a text equivalent", () => {
  for (const page of pages) {
    for (const svg of all(text(page), /<svg([^>]*)>/g)) {
      const named = /role="img"/.test(svg) && /aria-label="[^"]+"/.test(svg);
      assert.ok(named || svg.includes('aria-hidden="true"'), `${page}: ${svg}`);
    }
  }
});

test("sheets carry their hooks", () => {
  for (const page of pages.filter((page) => page.startsWith("builds/"))) {
    const html = text(page);
    assert.ok(html.includes(`data-build="${page.split("/")[1]}"`), page);
    for (const row of all(html, /<article class="row([^>]*)>/g)) {
      assert.match(row, /\sid="[a-z][^"]*" data-spec="[^"]+" data-where="[^"]*" data-when="[^"]*"/, page);
    }
    for (const panel of all(html, /<div class="panel (?:danger|warning|caution|notice)"([^>]*)>/g)) {
      assert.match(panel, /data-hazard="[^"]+"/, page);
    }
    for (const several of all(html, /<div class="panel several [^>]*>([\s\S]*?)<\/div>/g)) {
      assert.equal(all(several, /(<li)/g).length, all(several, /<li data-hazard="([^"]+)"/g).length, page);
    }
    const steps = all(html, /<li id="step-\d+" data-step="(\d+)"/g).map(Number);
    assert.deepEqual(steps, steps.map((_, at) => at + 1), page);
    assert.equal(steps.length > 0, kindOf(page) === "procedure sheet", page);
  }
});

test("pound-inches never stand without their full name", () => {
  for (const page of pages.filter((page) => !page.startsWith("rules") && !page.startsWith("about"))) {
    // Drawings say it in their text equivalent; data for programs is not shown, and has the code of its unit.
    const shown = text(page).replace(/<svg[\s\S]*?<\/svg>|<script type="application\/ld\+json">[\s\S]*?<\/script>/g, "");
    for (const after of all(shown, /lbf·in\b([\s\S]{0,80})/g)) {
      assert.match(after, /^\s*(?:<span class="spoken">|\()/, page);
    }
  }
});

test("the markup is valid", async () => {
  const validator = new HtmlValidate(new FileSystemConfigLoader());
  /** @type {string[]} */
  const faults = [];
  for (const page of pages) {
    const report = await validator.validateString(text(page), path.join(__dirname, "page.html"));
    for (const { messages } of report.results) {
      faults.push(...messages.map((one) => `${page}:${one.line}:${one.column} ${one.ruleId}: ${one.message}`));
    }
  }
  assert.deepEqual(faults, []);
});
