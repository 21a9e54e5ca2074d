// @ts-check
/* Takes the picture of an engine sheet that the README shows.

   usage: BAYBOOK_HANDBOOK=public node pictures.js */
"use strict";

const path = require("node:path");
const { address, launch } = require("./opened.js");

async function main() {
  const browser = await launch();
  const context = await browser.newContext({ viewport: { width: 1120, height: 760 }, deviceScaleFactor: 1 });
  const page = await context.newPage();
  await page.goto(address("builds/ox-887~sb-22-04~sb-23-11/engine.html"));
  await page.locator('[data-spec="lash.intake"]').evaluate((row) => {
    window.scrollTo(0, row.getBoundingClientRect().top + window.scrollY - 24);
  });
  await page.screenshot({ path: path.join(__dirname, "../pictures/engine-sheet.png") });
  await browser.close();
}

main();
