// @ts-check
/* Ways through the handbook, tap by tap, and what the scripts add to it. */
"use strict";

const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
const fs = require("node:fs");
const path = require("node:path");
const { address, barriers, kindOf, launch, pages, root, tab, text } = require("./opened.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

const PHONE = { width: 360, height: 740 };

const engineSheets = pages.filter((page) => kindOf(page) === "engine sheet");

/** What an engine sheet gives the sums, as its script says it. @param {string} sheet @returns {BaybookGivenSums} */
function givenTo(sheet) {
  const [, file = ""] = /sums\.html\?for=([^"]+)"/.exec(text(sheet)) ?? [];
  const script = fs.readFileSync(path.join(root, "builds", `${file}.js`), "utf8");
  return JSON.parse(/^baybookGiven\(([\s\S]*)\);\n$/.exec(script)?.[1] ?? "");
}

/** A machine, a year and the build it has there, whose engine has a valve lash. */
function lashOfAYear() {
  for (const machine of pages.filter((page) => page.startsWith("machines/"))) {
    const years = [...text(machine).matchAll(/id="(year-\d+)"[\s\S]*?href="\.\.\/(builds\/[^"]+)"/g)];
    for (const [, year = "", build = ""] of years) {
      const row = /<article class="row[^>]* id="([^"]+)" data-spec="lash\.(?:exhaust|intake)"/.exec(text(build));
      if (row) {
        return { machine, year, build, row: row[1] ?? "" };
      }
    }
  }
  throw new Error("no machine with a valve lash");
}

test("the lash of this machine and year is four taps from home, scripts off", async () => {
  const { machine, year, build, row } = lashOfAYear();
  const { context, page } = await tab(browser, { viewport: PHONE, javaScriptEnabled: false });
  await page.goto(address("index.html"));
  await page.locator(`a.door[href="${machine}"]`).click();
  await page.locator(`.years a[href="#${year}"]`).click();
  await page.locator(`#${year} a[href="../${build}"]`).first().click();
  const group = await page.locator(`section.group:has([id="${row}"])`).getAttribute("id");
  await page.locator(`.index a[href="#${group}"]`).click();
  assert.equal(page.url(), address(`${build}#${group}`));
  assert.ok(await page.locator(`[id="${row}"] .value b`).first().isVisible());
  await context.close();
});

test("the machine last looked at is one tap from home, from whichever sheet of it", async () => {
  const { build } = lashOfAYear();
  const complaint = pages.find((page) => page.startsWith(`${build.split("/").slice(0, 2).join("/")}/complaint-`)) ?? build;
  for (const sheet of [build, complaint]) {
    const { context, page, complaints } = await tab(browser, { viewport: PHONE });
    await page.goto(address("index.html"));
    assert.equal(await page.locator("#last-machine").count(), 0);
    await page.goto(address(sheet));
    await page.goto(address("index.html"));
    const door = page.locator('[aria-labelledby="last-machine"] .door');
    const box = await door.boundingBox();
    assert.ok(box && box.y + box.height <= PHONE.height && box.height >= 47.5, "on the first screen");
    await door.click();
    assert.equal(page.url(), address(build));
    assert.deepEqual(complaints, []);
    await context.close();
  }
});

test("an engine sheet leads to the sums that it has values for, and each opens", async () => {
  const { build } = lashOfAYear();
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(address(build));
  await page.locator('.index a[href*="sums.html"]').click();
  const links = page.locator("#offered .door");
  await links.first().waitFor();
  assert.ok((await links.count()) > 3);
  for (const link of await links.all()) {
    const box = await link.boundingBox();
    assert.ok(box && box.height >= 47.5, "a target");
  }
  await links.first().click();
  assert.equal(await page.locator(`[id="${page.url().split("#")[1]}"]`).evaluate((one) => /** @type {HTMLDetailsElement} */ (one).open), true);
  // Only an engine with shims is offered the sum of one shim.
  for (const sheet of engineSheets) {
    const given = givenTo(sheet);
    const ids = given.sums.map(([id]) => id);
    const shims = /<dl class="picks"/.test(/<article[^>]*data-spec="lash\.shim"[\s\S]*?<\/article>/.exec(text(sheet))?.[0] ?? "");
    assert.equal(ids.includes("size"), shims, sheet);
    for (const id of ids) {
      assert.ok(text("sums.html").includes(`id="sum-${id}"`), `${sheet}: ${id}`);
    }
  }
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the fields of the sums hold the values that stand on the engine sheet, and what is typed comes first", async () => {
  let compared = 0;
  for (const sheet of engineSheets) {
    const given = new Map(givenTo(sheet).sums.map(([id, fields]) => [id, fields]));
    /** What the rows of an entry print first. @param {string} of */
    const printed = (of) =>
      [...text(sheet).matchAll(new RegExp(`<article [^>]*data-spec="${of}[\\s\\S]*?</article>`, "g"))]
        .flatMap(([row]) => [...row.matchAll(/<b>([\s\S]*?)<\/b>/g)].map(([, value = ""]) => value.replace(/<bdi>|<\/bdi>| ?<span[\s\S]*?<\/span>/g, "").replace(/\s+/g, " ")));
    const values = (/** @type {string} */ sum, /** @type {string} */ input) => (given.get(sum)?.[input] ?? []).map(([, value]) => value);
    const torques = printed("torque\\.").filter((value) => /^[\d.]+ (N·m|lbf·ft|lbf·in)$/.test(value));
    assert.deepEqual(values("adapter", "torque").filter((value) => torques.includes(value)).sort(), torques.sort(), sheet);
    assert.deepEqual(values("refill", "capacity"), printed("battery\\.capacity"), sheet);
    const pressures = printed("compression\\.cranking").flatMap((value) => {
      const [, low, high, unit] = /^([\d.]+)\.\.([\d.]+) (\S+)$/.exec(value) ?? [];
      return low === undefined ? [] : [`${low} ${unit}`, `${high} ${unit}`];
    });
    assert.ok(pressures.every((one) => values("altitude", "limit").includes(one)), `${sheet}: ${pressures}`);
    compared += torques.length + pressures.length;
  }
  assert.ok(compared > 100, `${compared}`);
  const sheet = engineSheets.find((one) => givenTo(one).sums.some(([id]) => id === "altitude")) ?? "";
  const given = givenTo(sheet);
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(address(sheet));
  await page.locator('.index a[href*="sums.html"]').click();
  await page.locator('#offered a[href="#sum-adapter"]').click();
  const torque = page.locator('[data-sum="adapter"] [data-input="torque"]');
  const choice = torque.locator("select.given");
  const torques = given.sums.find(([id]) => id === "adapter")?.[1]["torque"] ?? [];
  assert.equal(await choice.locator("option").count(), torques.length + 1);
  assert.equal(await torque.locator("input").inputValue(), "");
  const box = await choice.boundingBox();
  assert.ok(box && box.height >= 47.5 && box.x >= 0 && box.x + box.width <= PHONE.width, "a target, within the phone");
  await choice.selectOption({ index: 1 });
  const chosen = () => torque.evaluate((one) => {
    const [field, unit] = /** @type {NodeListOf<HTMLInputElement>} */ (one.querySelectorAll(".boxed > *"));
    return `${field?.value} ${unit?.value.replace(/ \(.*/, "")}`;
  });
  assert.equal(await chosen(), torques[0]?.[1]);
  await page.locator("#adapter-wrench").fill("400");
  await page.locator("#adapter-adapter").fill("0");
  const answer = page.locator('[data-sum="adapter"] output');
  assert.ok((await answer.innerText()).includes(torques[0]?.[1].split(" ")[0] ?? "-"), await answer.innerText());
  await torque.locator("input").fill("77");
  assert.equal(await choice.inputValue(), "");
  // A single value stands there at once, and says whose it is.
  const [sum, fields] = given.sums.find(([, fields]) => Object.values(fields).some((values) => values.length === 1)) ?? ["", {}];
  const [input, values] = Object.entries(fields).find(([, values]) => values.length === 1) ?? ["", []];
  const one = page.locator(`[data-sum="${sum}"] [data-input="${input}"]`);
  await page.locator(`#sum-${sum}`).evaluate((details) => details.setAttribute("open", ""));
  assert.match((await one.locator(".given").textContent()) ?? "", new RegExp(given.engine));
  assert.notEqual(await one.locator(".boxed > *").first().inputValue(), "", `${sum} ${input} ${values}`);
  assert.deepEqual(await barriers(page, false), []);
  await page.locator("#offered .plain-link").click();
  assert.equal(page.url(), address(sheet));
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a build that a new release has dropped leads to where another is chosen, or to the record of its job", async () => {
  const { build } = lashOfAYear();
  const id = build.split("/")[1] ?? "";
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(address(build));
  await page.locator("[data-reading]").first().fill("1");
  await page.locator("output.verdict[data-verdict]").first().waitFor();
  const gone = async () => {
    await page.goto(address("index.html"));
    // As if this release had never had it.
    await page.evaluate((id) => {
      for (let at = 0; at < localStorage.length; at += 1) {
        const key = localStorage.key(at) ?? "";
        localStorage.setItem(key, (localStorage.getItem(key) ?? "").replaceAll(`"${id}"`, '"dropped-1"'));
      }
    }, id);
    await page.reload();
  };
  await gone();
  const job = page.locator('[aria-labelledby="unfinished"] .door');
  assert.match((await job.innerText()).replace(/\s+/g, " "), /its build is not in this release/);
  await job.click();
  assert.equal(page.url(), address("job.html"));
  await page.evaluate(() => localStorage.clear());
  await page.goto(address(build));
  await gone();
  const machine = page.locator('[aria-labelledby="last-machine"] .door');
  assert.match((await machine.innerText()).replace(/\s+/g, " "), /not in this release/);
  await machine.click();
  assert.ok(page.url().startsWith(address("machines/")), page.url());
  assert.deepEqual(complaints, []);
  await context.close();
});

test("from A to Z it is three taps, and the third lands on the row", async () => {
  const { context, page } = await tab(browser, { viewport: PHONE });
  const entry = pages.find((one) => one.startsWith("entries/lash_")) ?? "";
  await page.goto(address("index.html"));
  await page.locator('a.door[href="az.html"]').click();
  await page.locator(`a[href="${entry}"]`).first().click();
  await page.locator(".stated .names a").first().click();
  const row = page.locator(`[id="${page.url().split("#")[1]}"]`);
  await row.locator(".value").waitFor();
  const box = await row.boundingBox();
  assert.ok(box && box.y >= 0 && box.y < PHONE.height, "the row is not in view");
  await context.close();
});

test("a typed serial number marks its build, and a slip marks none", async () => {
  const machine = pages.find((page) => page.startsWith("machines/") && text(page).includes('data-serial="span"'));
  assert.ok(machine, "no machine whose serial numbers decide");
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await page.goto(address(machine));
  const door = page.locator('a.fit[data-serial="span"]').first();
  const { prefix, from, to } = await door.evaluate((one) => ({ .../** @type {HTMLElement} */ (one).dataset }));
  await page.getByLabel("Serial number").fill(`${prefix}${from ?? to}`.toLowerCase());
  assert.equal(await door.getAttribute("data-answer"), "yes");
  assert.match((await door.textContent()) ?? "", /This serial number$/);
  await page.getByLabel("Serial number").fill(`${prefix}${from ?? to}X`);
  assert.equal(await door.getAttribute("data-answer"), null);
  assert.match((await page.locator("output").textContent()) ?? "", /Not complete|not written/);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("the theme is remembered from sheet to sheet, and given back", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  const theme = () => page.evaluate(() => document.documentElement.dataset["theme"] ?? null);
  await page.goto(address("index.html"));
  await page.getByRole("button", { name: "Sun" }).click();
  await page.goto(address("az.html"));
  assert.equal(await theme(), "sun");
  assert.equal(await page.getByRole("button", { name: "Sun" }).getAttribute("aria-pressed"), "true");
  await page.getByRole("button", { name: "Sun" }).click();
  await page.reload();
  assert.equal(await theme(), null);
  assert.deepEqual(complaints, []);
  await context.close();
});

test("where storage is denied the theme still changes and nothing breaks", async () => {
  const { context, page, complaints } = await tab(browser, { viewport: PHONE });
  await context.addInitScript(() => {
    Object.defineProperty(globalThis, "localStorage", {
      get() {
        throw new DOMException("denied", "SecurityError");
      },
    });
  });
  await page.goto(address("index.html"));
  await page.getByRole("button", { name: "Dark" }).click();
  assert.equal(await page.evaluate(() => document.documentElement.dataset["theme"]), "dark");
  assert.deepEqual(complaints, []);
  await context.close();
});

test("a sheet past its age asks for a newer copy, one of its day does not", async () => {
  const [, date = "", stale] = /<body data-date="([^"]+)"(?: data-stale-after="(\d+)")?/.exec(text("index.html")) ?? [];
  const late = Number(stale ?? 3650) + 9;
  for (const days of [0, late]) {
    const { context, page } = await tab(browser, { viewport: PHONE });
    await page.clock.setFixedTime(Date.parse(`${date}T12:00:00Z`) + days * 86_400_000);
    await page.goto(address("index.html"));
    const age = page.locator(".age");
    if (stale !== undefined && days === late) {
      assert.equal(await age.textContent(), `${late} days old: ask for a newer copy`);
    }
    assert.equal(await age.isVisible(), stale !== undefined && days === late);
    await context.close();
  }
});

test("the drawing face loads from disk", async () => {
  const { context, page } = await tab(browser, { viewport: PHONE });
  await page.goto(address("index.html"));
  const faces = await page.evaluate(async () => {
    await document.fonts.ready;
    return [...document.fonts].filter((face) => face.status === "loaded").map((face) => face.family);
  });
  assert.ok(faces.some((family) => family.includes("B612")), faces.join());
  await context.close();
});
