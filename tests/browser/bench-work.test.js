// @ts-check
/* A procedure worked from, the unfinished job picked up again, and the papers of a job. */
"use strict";

const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
const axe = require("axe-core");
const { address, kindOf, launch, pages, tab, text } = require("./opened.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const PHONE = { width: 360, height: 740 };

/** A procedure with readings that leaves something open on the way. */
const sheet = pages.find((page) => kindOf(page) === "procedure sheet" && text(page).includes("data-until=") && text(page).includes('data-spec="lash.')) ?? "";

test("one tap a step, what is left open, and the proof only when nothing is missing", async () => {
  assert.ok(sheet, "a procedure that leaves something open");
  const { context, page, complaints } = await tab(browser, { viewport: PHONE, hasTouch: true });
  await page.goto(address(sheet));
  const next = page.locator(".next-step");
  const box = await next.boundingBox();
  assert.ok(box && box.height >= 64 && box.y > PHONE.height / 2, "the next step is one tap in the lower half");
  const first = page.locator(".open-ends [data-until]").first();
  const from = Number(await first.getAttribute("data-from"));
  assert.equal(await first.getAttribute("data-open"), "before");
  for (let step = 1; step <= from; step += 1) {
    await next.tap();
  }
  assert.equal(await first.getAttribute("data-open"), "open");
  assert.match((await page.locator(".missing").textContent()) ?? "", /left open: /);
  assert.equal(await page.locator(`[data-step="${from + 1}"]`).evaluate((one) => one.classList.contains("now")), true);
  await page.reload();
  assert.equal(await page.locator('.tick[aria-pressed="true"]').count(), from, "ticks survive a reload");
  await page.locator(".bench-bar .undo").tap();
  assert.equal(await page.locator('.tick[aria-pressed="true"]').count(), from - 1);
  await next.tap();
  const steps = await page.locator("[data-step]").count();
  for (let step = from + 1; step <= steps; step += 1) {
    await next.tap();
  }
  assert.equal(await first.getAttribute("data-open"), "closed");
  await page.locator(".give-proof").tap();
  assert.equal(await page.locator(".proved").textContent(), "Not proved yet");
  assert.match((await page.locator(".missing").textContent()) ?? "", /no reading of /);
  for (const answer of await page.locator('.state:not([data-again]) [data-state="met"]').all()) {
    await answer.tap();
  }
  for (const row of await page.locator("[data-window]").all()) {
    const middle = /\d+(?:\.\d+)?/.exec((await row.getAttribute("data-window")) ?? "")?.[0] ?? "";
    await row.locator("[data-reading]").fill(middle);
    assert.equal(await row.locator("output.verdict").getAttribute("data-verdict"), "in", (await row.textContent()) ?? "");
  }
  await page.locator(".dock-close").tap();
  assert.match((await page.locator(".proved").textContent()) ?? "", /^Proved at \d\d:\d\d$/);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the sheet says honestly whether the screen is kept awake", async () => {
  for (const refused of [false, true]) {
    const { context, page, complaints } = await tab(browser, { viewport: PHONE });
    await context.addInitScript((refused) => {
      const request = async () => {
        if (refused) {
          throw new DOMException("refused", "NotAllowedError");
        }
        return new EventTarget();
      };
      Object.defineProperty(navigator, "wakeLock", { value: { request } });
    }, refused);
    await page.goto(address(sheet));
    const words = refused ? /^not kept awake: .*Set the device to stay on\.$/ : /^kept awake/;
    await page.locator(".awake", { hasText: words }).waitFor();
    assert.deepEqual(complaints, []);
    await context.close();
  }
});

test("the unfinished job is one tap from home, and its papers are two", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE, hasTouch: true });
  await page.goto(address(sheet));
  await page.locator('.state [data-state="met"]').first().tap();
  const row = page.locator("[data-window]").first();
  await row.locator("[data-reading]").tap();
  await page.locator(".dock-close").waitFor();
  await page.keyboard.type("9");
  await page.goto(address("index.html"));
  await page.locator(".unfinished a").tap();
  await page.waitForURL(address(sheet));
  assert.equal(page.url(), address(sheet));
  assert.equal(await row.locator("[data-reading]").inputValue(), "9");
  await page.locator(".open-job").tap();
  await page.locator("dialog .paper").tap();
  await page.waitForURL(address("job.html"));
  await page.locator('textarea[name="complaint"]').fill("Ticks when <b>cold</b>");
  await page.locator('textarea[name="found"]').fill("One valve loose");
  const owner = page.locator(".paper-sheet").first();
  assert.match((await owner.textContent()) ?? "", /Ticks when <b>cold<\/b>/);
  assert.match((await owner.textContent()) ?? "", /9\u00a0mm, outside the maker’s limits/);
  assert.match((await page.locator(".paper-sheet").last().textContent()) ?? "", /Out of spec/);
  await page.evaluate(axe.source);
  const barriers = await page.evaluate(async () => {
    const runner = /** @type {typeof import("axe-core")} */ (/** @type {any} */ (globalThis).axe);
    const { violations } = await runner.run(document, { rules: { "target-size": { enabled: true } }, preload: false });
    return violations.map((one) => `${one.id}: ${one.nodes.slice(0, 3).map((node) => node.html).join(" | ")}`);
  });
  assert.deepEqual(barriers, []);
  assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= PHONE.width);
  await page.emulateMedia({ media: "print" });
  assert.equal(await page.locator("textarea").first().isVisible(), false);
  assert.equal(await owner.isVisible(), true);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("with scripts off what is left open still reads", async () => {
  const { context, page } = await tab(browser, { viewport: PHONE, javaScriptEnabled: false });
  await page.goto(address(sheet));
  assert.match((await page.locator(".open-ends").textContent()) ?? "", /from step \d+, closed at step \d+/);
  assert.equal(await page.locator("input:visible, button:visible").count(), 0);
  await context.close();
});
