// @ts-check
/* What a reader meets: the longest sheet of each kind, opened from disk in a browser. */
"use strict";

const assert = require("node:assert/strict");
const { after, before, describe, test } = require("node:test");
const { address, barriers, launch, samples, tab } = require("./opened.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const PHONE = { width: 360, height: 740 };
const DESK = { width: 1280, height: 900 };

/** Links and controls that a thumb is meant to hit. */
const TARGETS =
  ".door, .chips a, .index a, .names a, .indexes a, .crumbs a, .to-index, .plain-link, .limit a, .years-of h3 a, .difference a, button, input";

for (const { kind, page: name } of samples) {
  describe(`${kind} (${name})`, () => {
    for (const javaScriptEnabled of [true, false]) {
      for (const viewport of [PHONE, DESK]) {
        test(`${viewport.width} px, scripts ${javaScriptEnabled ? "on" : "off"}`, async () => {
          const { context, page, complaints } = await tab(browser, { viewport, javaScriptEnabled });
          await page.goto(address(name));
          const found = await page.evaluate((targets) => {
            const shown = (/** @type {Element} */ one) => one.getClientRects().length > 0;
            const small = [...document.querySelectorAll(targets)].filter(shown).flatMap((one) => {
              const { width, height } = one.getBoundingClientRect();
              return width < 47.5 || height < 47.5 ? [`${one.textContent?.trim()} ${width}×${height}`] : [];
            });
            return { width: document.documentElement.scrollWidth, small, controls: [...document.querySelectorAll("button, input")].filter(shown).length };
          }, TARGETS);
          assert.ok(found.width <= viewport.width, `scrolls sideways: ${found.width} px`);
          assert.deepEqual(found.small, []);
          if (!javaScriptEnabled) {
            assert.equal(found.controls, 0, "a control that does nothing without scripts");
          }
          assert.deepEqual(complaints, []);
          await context.close();
        });
      }
    }

    for (const theme of ["light", "dark", "sun"]) {
      test(`no barrier in ${theme}`, async () => {
        const colorScheme = theme === "dark" ? "dark" : "light";
        const { context, page, complaints } = await tab(browser, { viewport: PHONE, colorScheme });
        await page.goto(address(name));
        // A bench card is paper in every theme.
        if (theme === "sun" && kind !== "bench card") {
          await page.getByRole("button", { name: "Sun" }).click();
        }
        const report = await barriers(page, theme === "sun");
        assert.deepEqual(report, []);
        assert.deepEqual(complaints, []);
        await context.close();
      });
    }

    test("on paper", async () => {
      const { context, page } = await tab(browser, { viewport: DESK });
      await page.goto(address(name));
      await page.emulateMedia({ media: "print" });
      const left = await page.evaluate(() => {
        const controls = [...document.querySelectorAll("button, input, nav")];
        const bare = [...document.querySelectorAll(".panel")].filter((one) => getComputedStyle(one).borderTopStyle !== "solid");
        return { controls: controls.filter((one) => one.getClientRects().length > 0).length, bare: bare.length };
      });
      assert.deepEqual(left, { controls: 0, bare: 0 });
      await context.close();
    });
  });
}
