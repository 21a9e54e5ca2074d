// @ts-check
/* The bench card on paper: one page, A4 and Letter, read back from the printed file. */
"use strict";

const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const { after, before, test } = require("node:test");
const jsqr = require("jsqr");
const { PNG } = require("pngjs");
const { address, kindOf, launch, other, pages, tab, text } = require("./opened.js");
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

test("a compression says on card, engine sheet and in its procedure that it falls with height", () => {
  let compared = 0;
  for (const card of cards) {
    const [row] = /<div data-spec="compression\.cranking"[\s\S]*?<\/div>/.exec(text(card)) ?? [];
    if (row !== undefined) {
      assert.ok(row.includes("less high above the sea"), `${card}: ${row}`);
      assert.ok(text(card.replace("card.html", "engine.html")).includes("bench sum of compression at altitude"), card);
      compared += 1;
    }
  }
  assert.ok(compared > 3, `${compared}`);
  const procedures = pages.filter((page) => page.endsWith("/compression-test.html") && page.startsWith("builds/"));
  for (const procedure of procedures) {
    assert.ok(text(procedure).includes("compression at altitude, before a cylinder is called low"), procedure);
  }
  assert.ok(procedures.length > 3, `${procedures.length}`);
});

// What reads the code is jsQR (npm), which knows nothing of how it was made; the picture is what Chromium paints.
test("a phone reads the address of the engine sheet from the card, on the screen and as printed", async () => {
  const recalled = other("BAYBOOK_RECALLED");
  const base = /^base_url = "(.+?)\/?"$/m.exec(fs.readFileSync(path.join(__dirname, "../cases/clean/every-key/base/base.toml"), "utf8"))?.[1] ?? "";
  assert.notEqual(base, "");
  const { context, page, complaints } = await tab(browser, { viewport: { width: 800, height: 1120 }, deviceScaleFactor: 2 }, recalled.folder);
  for (const build of fs.readdirSync(path.join(recalled.folder, "builds"))) {
    await page.goto(recalled.address(`builds/${build}/card.html`));
    for (const media of /** @type {const} */ (["screen", "print"])) {
      await page.emulateMedia({ media });
      const { data, width, height } = PNG.sync.read(await page.locator(".card").screenshot());
      const read = jsqr.default(new Uint8ClampedArray(data), width, height)?.data;
      assert.equal(decodeURI(read ?? ""), `${base}/builds/${build}/engine.html`, `${build}, ${media}`);
      // For whoever has no phone at hand the same address stands in words.
      assert.ok((await page.locator("footer").innerText()).includes(read ?? "-"), build);
      // A module of half a millimetre is what a phone still reads from a hand's breadth: common practice, no source.
      const modules = Number((await page.locator(".square").getAttribute("viewBox"))?.split(" ")[2]);
      const { width: wide = 0 } = (await page.locator(".square").boundingBox()) ?? {};
      assert.ok((wide / modules) * (25.4 / 96) >= 0.5, `${wide} px for ${modules} modules`);
    }
  }
  assert.deepEqual(complaints, []);
  await context.close();
});
