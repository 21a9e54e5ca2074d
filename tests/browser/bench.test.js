// @ts-check
/* The bench on its sheets: state, reading, verdict, keypad, undo, reload, files, the guard of one machine. */
"use strict";

const assert = require("node:assert/strict");
const fs = require("node:fs");
const { after, before, test } = require("node:test");
const { address, barriers, kindOf, launch, limits, pages, tab, text } = require("./opened.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const PHONE = { width: 360, height: 740 };
const DESK = { width: 1280, height: 900 };
const TOUCH = { viewport: PHONE, hasTouch: true, isMobile: true };

const sheets = pages.filter((page) => kindOf(page) === "engine sheet");

/**
 * The rows of an engine sheet with what they are judged by.
 * @param {string} page
 * @returns {{ id: string, of: string, when: string, facts: Record<string, string> }[]}
 */
function judged(page) {
  const facts = JSON.parse(text(limits(page)).replace(/^[^{]*|;\s*$/g, ""));
  const rows = text(page).matchAll(/ id="([^"]+)" data-spec="([^"]+)" data-where="[^"]*" data-when="([^"]*)" data-unit=/g);
  return [...rows].map(([, id = "", of = "", when = ""]) => ({ id, of, when, facts: facts[id] }));
}

/** An engine sheet with a lash in millimetres that holds in a state, and its limits. */
const { sheet, low, high } = (() => {
  for (const page of sheets) {
    const lash = judged(page).find(({ of, when, facts }) => of === "lash.exhaust" && when !== "" && facts["kind"] === "length");
    const row = /^([\d.]+) ± ([\d.]+) mm/.exec(lash?.facts["window"] ?? "");
    if (row) {
      const [nominal, tolerance] = [Number(row[1]), Number(row[2])];
      return { sheet: page, low: (nominal - tolerance).toFixed(2), high: (nominal + tolerance).toFixed(2) };
    }
  }
  throw new Error("no engine sheet with a lash");
})();
const ROW = '[data-spec="lash.exhaust"]';
const over = (/** @type {number} */ by) => (Number(high) + by).toFixed(2);

/** @param {import("playwright-core").BrowserContextOptions} options @param {string} [page] */
async function opened(options, page = sheet) {
  const made = await tab(browser, { acceptDownloads: true, ...options });
  await made.page.goto(address(page));
  // What comes with the first touch, and keeps it, is held by its own tests; here a verdict stands as a key is pressed.
  await made.page.evaluate(() => new Promise((done) => baybookOpening.open(() => done(undefined))));
  const row = made.page.locator(ROW).first();
  return { ...made, row, field: row.locator("[data-reading]").first(), verdict: row.locator("output.verdict").first() };
}

/** @param {import("playwright-core").Locator} one */
const said = (one) => one.evaluate((output) => [output.dataset["verdict"] ?? null, output.querySelector("b")?.textContent ?? null]);

test("state first: unanswered and unmet cannot be judged, met is judged, and the answer stays", async () => {
  const { context, page, complaints, field, verdict } = await opened({ viewport: DESK });
  await field.click();
  await page.keyboard.type(over(0.05));
  assert.deepEqual(await said(verdict), ["none", "Cannot judge"]);
  assert.match((await verdict.textContent()) ?? "", /say whether it was so/);
  const state = page.locator(`.state:has(~ ${ROW})`).last();
  await state.locator('[data-state="unmet"]').click();
  assert.deepEqual(await said(verdict), ["none", "Cannot judge"]);
  assert.match((await verdict.textContent()) ?? "", /it was not so/);
  // It was read when it was not so; that it is so now changes nothing about it.
  await state.locator('[data-state="met"]').click();
  assert.deepEqual(await said(verdict), ["none", "Cannot judge"]);
  const thenToo = state.locator(".then-too");
  assert.equal(await thenToo.textContent(), "1 reading keeps what was said before. It was so then too");
  await thenToo.click();
  assert.equal(await thenToo.isVisible(), false);
  assert.deepEqual(await said(verdict), ["out", "Out of spec"]);
  assert.match((await verdict.textContent()) ?? "", /loose by 0\.05 mm/i);
  await page.reload();
  assert.equal(await state.locator('[data-state="met"]').getAttribute("aria-pressed"), "true");
  assert.deepEqual(await said(verdict), ["out", "Out of spec"]);
  assert.equal(await field.inputValue(), over(0.05));
  assert.deepEqual(complaints, []);
  await context.close();
});

test("on the limit is in spec; the drawing carries the reading, and says when it is off its scale", async () => {
  const { context, page, complaints, row, field, verdict } = await opened({ viewport: DESK });
  await field.click();
  await page.locator(".dock [data-state=met]").click();
  for (const [typed, mark] of [[low, "in"], [high, "in"], [over(0.01), "out"], [high.replace(".", ","), "in"]]) {
    await field.fill(String(typed));
    assert.equal(await verdict.getAttribute("data-verdict"), mark, String(typed));
  }
  const tips = row.locator("svg.dimension .m-reading");
  assert.equal(await tips.count(), 1);
  await field.fill(over(9));
  assert.equal(await row.locator(".m-off").textContent(), "beyond the scale");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a pair of leaves, one that goes and one that stops", async () => {
  const { context, page, complaints, row, field, verdict } = await opened({ viewport: DESK });
  await field.click();
  await page.locator(".dock [data-state=met]").click();
  await page.locator('.dock [data-option="pair"]').click();
  const [goes, stops] = [row.locator('[data-reading="goes"]').first(), row.locator('[data-reading="stops"]').first()];
  await goes.fill(low);
  await stops.fill(high);
  assert.equal(await verdict.getAttribute("data-verdict"), "in");
  await stops.fill(over(0.02));
  assert.equal(await verdict.getAttribute("data-verdict"), "close");
  await goes.fill(over(0.02));
  assert.equal(await verdict.getAttribute("data-verdict"), "none", "a leaf that stops is thicker than one that goes");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a gauge's error counts, and only where it is said", async () => {
  const { context, page, complaints, field, verdict } = await opened({ viewport: DESK });
  await field.click();
  await page.locator(".dock [data-state=met]").click();
  await field.fill(high);
  assert.equal(await verdict.getAttribute("data-verdict"), "in");
  const gauge = page.locator(".dock select");
  await gauge.selectOption({ index: 1 });
  await field.fill(high);
  assert.deepEqual(await said(verdict), ["close", "Too close to call"]);
  assert.match((await verdict.textContent()) ?? "", /as read in spec/i);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("used parts are judged by the wear limit with what is left, new ones by the fit of new parts", async () => {
  const fit = sheets.flatMap((page) => judged(page).flatMap(({ id, when, facts }) => {
    const [worn, greatest] = [/^max ([\d.]+) mm/.exec(facts["wear"] ?? ""), /^[\d.]+\.\.([\d.]+) mm/.exec(facts["new"] ?? "")];
    return when === "" && worn && greatest ? [{ page, id, middle: ((Number(greatest[1]) + Number(worn[1])) / 2).toFixed(4) }] : [];
  }))[0];
  assert.ok(fit, "a fit with a wear limit");
  const { context, page, complaints } = await opened({ viewport: DESK }, fit.page);
  const row = page.locator(`[id="${fit.id}"]`).first();
  const verdict = row.locator("output.verdict");
  await row.locator("[data-reading]").click();
  await page.locator(".dock-close").waitFor();
  await page.keyboard.type(fit.middle);
  assert.equal(await verdict.getAttribute("data-verdict"), "in");
  assert.match((await verdict.textContent()) ?? "", /left to the wear limit/);
  await page.locator('.dock [data-option="new"]').click();
  assert.equal(await verdict.getAttribute("data-verdict"), "out");
  assert.match((await verdict.textContent()) ?? "", /new parts/);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("our own keypad: no system keyboard, keys of 64 pixels 12 apart in the lower half, digits + 1 taps", async () => {
  const { context, page, complaints, field, verdict } = await opened(TOUCH);
  let taps = 0;
  const tap = async (/** @type {import("playwright-core").Locator} */ one) => {
    taps += 1;
    await one.tap();
  };
  await tap(field);
  await page.locator(".dock [data-state=met]").tap();
  assert.equal(await field.getAttribute("inputmode"), "none");
  const typed = over(0.05).slice(1);
  for (const digit of typed) {
    await tap(page.locator(`.key[aria-label="${digit === "." ? "point" : digit}"]`));
  }
  assert.equal(taps, typed.length + 1);
  assert.equal(await verdict.getAttribute("data-verdict"), "out");
  assert.equal(await field.evaluate((one) => one === document.activeElement), true);
  const boxes = await page.locator(".key").evaluateAll((all) => all.map((one) => one.getBoundingClientRect()).map(({ x, y, width, height }) => ({ x, y, width, height })));
  for (const one of boxes) {
    assert.ok(one.width >= 64 && one.height >= 64 && one.y >= PHONE.height / 2, JSON.stringify(one));
    for (const other of boxes.filter((two) => two !== one)) {
      const across = Math.max(other.x - one.x - one.width, one.x - other.x - other.width);
      const down = Math.max(other.y - one.y - one.height, one.y - other.y - other.height);
      assert.ok(Math.max(across, down) >= 11.9, "keys stand 12 apart");
    }
  }
  const sizes = await page.evaluate(() => [".dock-value", ".dock-verdict"].map((one) => parseFloat(getComputedStyle(/** @type {Element} */ (document.querySelector(one))).fontSize)));
  assert.ok(Number(sizes[0]) >= 28 && Number(sizes[1]) >= 40, String(sizes));
  const right = await page.locator(".key.next").boundingBox();
  await page.evaluate(() => localStorage.setItem(Object.keys(localStorage).find((key) => key.startsWith("baybook.bench.")) ?? `baybook.bench.${document.body.dataset["base"]}`, '{"hand":"left"}'));
  await page.reload();
  await field.tap();
  const left = await page.locator(".key.next").boundingBox();
  assert.ok(left && right && left.x < right.x, "the functions change sides with the hand");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("turning the device clears nothing, and the keys still fit", async () => {
  const { context, page, complaints, field } = await opened(TOUCH);
  await field.tap();
  for (const digit of ["0", ".", "2"]) {
    await page.locator(`.key[aria-label="${digit === "." ? "point" : digit}"]`).tap();
  }
  await page.setViewportSize({ width: 740, height: 360 });
  assert.equal(await field.inputValue(), "0.2");
  for (const box of await page.locator(".key").evaluateAll((all) => all.map((one) => one.getBoundingClientRect().toJSON()))) {
    assert.ok(box.top >= 0 && box.bottom <= 360 && box.width >= 63.9 && box.height >= 63.9, JSON.stringify(box));
  }
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a head of eight valves takes at most 60 touches", async () => {
  const { context, page, complaints } = await opened(TOUCH);
  let touches = 0;
  const tap = async (/** @type {string} */ selector) => {
    touches += 1;
    await page.locator(selector).first().tap();
  };
  const row = page.locator('[data-spec^="lash."][data-unit]').first();
  await row.locator("[data-reading]").first().tap();
  touches += 1;
  await tap(".dock [data-state=met]");
  for (let valve = 1; valve <= 8; valve += 1) {
    for (const key of ["point", "k1", "k3"]) {
      await tap(`.dock [data-key="${key}"]`);
    }
    if (valve < 8) {
      await tap('.dock [data-key="more"]');
    }
  }
  assert.equal(await row.locator("output.verdict[data-verdict]").count(), 8);
  assert.ok(touches <= 60, `${touches} touches`);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("undo takes the last action back and is always there; a repeat keeps the first", async () => {
  const { context, page, complaints, row, field, verdict } = await opened({ viewport: PHONE, hasTouch: true });
  const undo = page.locator(".bench-bar .undo");
  assert.ok(await undo.isVisible());
  await field.click();
  await page.locator(".dock [data-state=met]").click();
  await page.keyboard.type(high);
  await page.locator(".dock-close").click();
  await field.click();
  await page.keyboard.type(over(0.05));
  await page.locator(".dock-close").click();
  assert.equal(await verdict.getAttribute("data-verdict"), "out");
  assert.match((await row.locator(".earlier").textContent()) ?? "", new RegExp(`before: ${high} mm at \\d\\d:\\d\\d`));
  assert.ok(((await undo.boundingBox())?.height ?? 0) >= 64);
  await undo.click();
  assert.equal(await field.inputValue(), high);
  assert.equal(await verdict.getAttribute("data-verdict"), "in");
  await page.reload();
  assert.equal(await field.inputValue(), high);
  await undo.click();
  assert.equal(await field.inputValue(), over(0.05), "undo of the undo");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the other form of a value changes what stands first, and no verdict", async () => {
  const { context, page, complaints, row, field, verdict } = await opened({ viewport: DESK });
  await field.click();
  await page.locator(".dock [data-state=met]").click();
  await field.fill(over(0.05));
  await page.locator(".dock-close").click();
  const before = await verdict.textContent();
  const figure = row.locator(".value b").first();
  const size = () => figure.evaluate((one) => parseFloat(getComputedStyle(one).fontSize));
  const printed = await size();
  await page.locator(".open-job").click();
  await page.getByRole("button", { name: "in the other unit" }).click();
  await page.locator("dialog .leave").click();
  assert.ok((await size()) < printed);
  assert.equal(await verdict.textContent(), before);
  assert.equal(await field.inputValue(), over(0.05));
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a job is saved as a file, read back elsewhere, and a damaged file is refused", async () => {
  const one = await opened({ viewport: PHONE });
  await one.field.click();
  await one.page.locator(".dock [data-state=met]").click();
  await one.field.fill(over(0.05));
  await one.page.locator(".dock-close").click();
  await one.page.locator(".open-job").click();
  assert.match((await one.page.locator(".job-kept").textContent()) ?? "", /on this device, in this browser/i);
  const [download] = await Promise.all([one.page.waitForEvent("download"), one.page.locator("button.export").click()]);
  const file = await download.path();
  const record = JSON.parse(fs.readFileSync(file, "utf8"));
  assert.equal(record.build.id, sheet.split("/")[1]);
  assert.match(record.base.release + record.base.content, /.+[0-9a-f]{12}/);
  const [read] = record.readings;
  assert.deepEqual([read.typed.value, read.text, read.state, read.judged.verdict], [over(0.05), `${over(0.05)} mm`, "met", "out of spec"]);
  assert.ok(Date.parse(read.time) > 0);
  await one.context.close();

  const two = await opened({ viewport: PHONE });
  await two.page.locator(".open-job").click();
  const input = two.page.locator("dialog input[type=file]");
  await input.setInputFiles({ name: "x.json", mimeType: "application/json", buffer: Buffer.from("{") });
  await two.page.locator(".job-said", { hasText: /^Not read: it is not a job record/ }).waitFor();
  // A record of another release is judged again by this one, and says so.
  record.readings[0].judged = { ...read.judged, verdict: "in spec", direction: null, by: null };
  Object.assign(record.readings[0], { release: "2019.1", content: "0" });
  await input.setInputFiles({ name: "job.json", mimeType: "application/json", buffer: Buffer.from(JSON.stringify(record)) });
  await two.page.locator(".job-said", { hasText: /^Read: 1 reading/ }).waitFor();
  await two.page.locator("dialog .leave").click();
  assert.equal(await two.field.inputValue(), over(0.05));
  assert.equal(await two.verdict.getAttribute("data-verdict"), "out");
  assert.match((await two.page.locator(".guard").textContent()) ?? "", /Judged again by release .*taken under 2019\.1.*1 verdict changed/);
  assert.deepEqual([...one.complaints, ...two.complaints], []);
  await two.context.close();
});

test("another machine shuts the fields until the open job is closed", async () => {
  const { context, page, complaints, field } = await opened({ viewport: DESK });
  await field.click();
  await page.keyboard.type("0.2");
  await page.locator(".dock-close").click();
  const other = sheets.find((one) => one !== sheet) ?? "";
  await page.goto(address(other));
  const input = page.locator("[data-reading]").first();
  assert.equal(await input.isDisabled(), true);
  assert.match((await page.locator(".guard").textContent()) ?? "", /A job is open on .*1 reading/);
  await page.locator(".close-other").click();
  assert.equal(await input.isDisabled(), false);
  await page.goto(address(sheet));
  assert.equal(await field.inputValue(), "");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("where storage is denied the bench works and says that nothing is kept", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await context.addInitScript(() => {
    Object.defineProperty(globalThis, "localStorage", {
      get() {
        throw new DOMException("denied", "SecurityError");
      },
    });
  });
  await page.goto(address(sheet));
  const row = page.locator(ROW).first();
  await row.locator("[data-reading]").first().click();
  await page.locator(".dock [data-state=met]").click();
  await page.keyboard.type(over(0.05));
  assert.equal(await row.locator("output.verdict").first().getAttribute("data-verdict"), "out");
  await page.locator(".dock-close").click();
  await page.locator(".open-job").click();
  assert.match((await page.locator(".job-kept").textContent()) ?? "", /^Not kept/);
  assert.deepEqual(complaints, []);
  await context.close();
});

for (const theme of ["light", "dark", "sun"]) {
  test(`no barrier while a reading is typed, nor in the job, in ${theme}`, async () => {
    const { context, page, complaints, field } = await opened({ viewport: PHONE, hasTouch: true, colorScheme: theme === "dark" ? "dark" : "light" });
    const targets = () =>
      page.locator("button:visible, .dock select:visible, .entry input:visible, dialog a:visible, dialog label.import:visible").evaluateAll((all) =>
        all.filter((one) => one.getBoundingClientRect().width < 47.5 || one.getBoundingClientRect().height < 47.5).map((one) => one.outerHTML));
    if (theme === "sun") {
      await page.locator(".bench-bar .sun").tap();
      assert.equal(await page.evaluate(() => document.documentElement.dataset["theme"]), "sun");
    }
    await field.tap();
    assert.deepEqual(await barriers(page, theme === "sun"), []);
    await page.locator(".dock [data-state=met]").tap();
    await field.fill(over(0.05));
    assert.deepEqual(await barriers(page, theme === "sun"), []);
    assert.deepEqual(await targets(), []);
    assert.ok((await page.evaluate(() => document.documentElement.scrollWidth)) <= PHONE.width);
    await page.locator(".dock-close").tap();
    await page.locator(".open-job").tap();
    assert.deepEqual(await barriers(page, theme === "sun"), []);
    assert.deepEqual(await targets(), []);
    assert.deepEqual(complaints, []);
    await context.close();
  });
}
