// @ts-check
/* The bench card on paper: one page, A4 and Letter, read back from the printed file. */
"use strict";

const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
const { address, kindOf, launch, pages, tab, text } = require("./opened.js");
const { plain, sheets } = require("./printed.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const cards = pages.filter((page) => kindOf(page) === "bench card");

test("every bench card prints on one page, A4 and Letter, with all that stands on it", async () => {
  assert.ok(cards.length > 0);
  const { context, page } = await tab(browser, { javaScriptEnabled: true });
  for (const card of cards) {
    await page.goto(address(card));
    const stands = await page.locator("[data-spec] b, [data-hazard] b, footer p").allTextContents();
    for (const format of ["A4", "Letter"]) {
      const printed = await sheets(await page.pdf({ format, printBackground: true }));
      assert.equal(printed.length, 1, `${card} on ${format}`);
      for (const one of stands) {
        assert.ok(printed[0]?.includes(plain(one)), `${card} on ${format} lacks ${one}`);
      }
    }
  }
  await context.close();
});

test("a card says its build, its release and its hash, and what the engine sheet says", () => {
  for (const card of cards) {
    const sheet = text(card.replace("card.html", "engine.html"));
    const [, build = "", hash = ""] = /Bench card of <code>([^<]+)<\/code> · build <code>([^<]+)<\/code> · release \S+/.exec(text(card)) ?? [];
    assert.equal(build, card.split("/")[1]);
    assert.match(hash, /^[0-9a-f]{12}$/);
    assert.ok(sheet.includes(`<code>${hash}</code>`), card);
    const rows = [...text(card).matchAll(/data-spec="[^"]*" data-where="[^"]*" data-when="[^"]*"/g)];
    assert.ok(rows.length > 5, card);
    for (const [row] of rows) {
      assert.ok(sheet.includes(row), `${card}: ${row}`);
    }
    assert.ok(sheet.includes('href="card.html"'), card);
  }
});
