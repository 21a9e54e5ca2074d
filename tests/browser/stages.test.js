// @ts-check
/*
 * Tightening in stages: what is drawn agrees with what is printed. The numbers are read from the list of
 * stages of the engine sheet; heights and angles from the strokes of the drawing, which knows nothing of it.
 */
"use strict";

const assert = require("node:assert/strict");
const { after, before, test } = require("node:test");
const { address, kindOf, launch, pages, tab, text } = require("./opened.js");

/** @type {import("playwright-core").Browser} */
let browser;
before(async () => {
  browser = await launch();
});
after(() => browser?.close());

/** @param {string} words */
const plain = (words) => words.replace(/<[^>]*>/g, "").replace(/[\s\u00a0]+/g, " ").trim();

/** The first printed form of each stage, by the anchor of its row. @param {string} sheet */
function printed(sheet) {
  const rows = [...text(sheet).matchAll(/<article class="row[^"]*" id="([^"]+)"[\s\S]*?<\/article>/g)];
  return rows.flatMap(([row, anchor = ""]) => {
    const list = /<ol class="stages">([\s\S]*?)<\/ol>/.exec(row)?.[1];
    return list ? [{ anchor, stages: [...list.matchAll(/<li><b>([\s\S]*?)<\/b>/g)].map(([, first = ""]) => plain(first)) }] : [];
  });
}

/** Height and turn of each stage by the strokes of a drawing. @param {string} svg */
function measured(svg) {
  const ground = Number(/class="d-rule" d="M[\d.]+ ([\d.]+)/.exec(svg)?.[1]);
  const treads = [...svg.matchAll(/class="d-part( d-excluded)?" d="M[\d.]+ [\d.-]+V([\d.-]+)H/g)];
  const turns = [...svg.matchAll(/class="d-ext" d="([^"]+)"/g)].map(([, path = ""]) => {
    // From the mark at the top to the mark after the turn, around the centre of the head below the first.
    const [, x = 0, top = 0, endX = 0, endY = 0] = (/M([\d.-]+) [\d.-]+V([\d.-]+)M[\d.-]+ [\d.-]+[LHV]([\d.-]+)(?: ([\d.-]+))?/.exec(path) ?? []).map(Number);
    const centre = Number(top) + 27 + 8;
    return { x, endX, rise: centre - Number(endY) };
  });
  return { ground, treads: treads.map(([, dashed, at]) => ({ dashed: Boolean(dashed), height: ground - Number(at) })), turns };
}

test("every row of stages has its stair, at the true heights of what is printed, with a text equivalent", () => {
  let drawn = 0;
  for (const sheet of pages.filter((page) => kindOf(page) === "engine sheet")) {
    const all = text(sheet.replace("engine.html", "drawings.html")).split("<li>");
    for (const { anchor, stages } of printed(sheet)) {
      const item = all.find((one) => one.includes(`engine.html#${anchor}"`) && one.includes("stages-drawn")) ?? "";
      assert.ok(item, `${sheet}#${anchor} is not drawn`);
      const label = plain(/aria-label="([^"]+)"/.exec(item)?.[1] ?? "");
      const lettered = [...item.matchAll(/<text x=[^>]*>([^<]*)<\/text>/g)].map(([, one = ""]) => plain(one));
      assert.deepEqual(lettered, stages.map((one) => one.replace(/ \(.*\)$/, "")), `${sheet}#${anchor}`);
      for (const one of stages) {
        assert.ok(label.includes(one.replace("+", "a further ")), `${label} does not say ${one}`);
      }
      const { treads } = measured(item);
      assert.deepEqual(treads.map(({ dashed }) => dashed), stages.map((one) => one.startsWith("+")));
      const torques = stages.filter((one) => !one.startsWith("+")).map(parseFloat);
      const heights = treads.filter(({ dashed }) => !dashed).map(({ height }) => height);
      const last = heights.length - 1;
      torques.forEach((torque, at) => {
        const share = torque / Number(torques[last]);
        assert.ok(Math.abs(Number(heights[at]) / Number(heights[last]) - share) < 0.01, `${sheet}#${anchor}: ${torques} as ${heights}`);
      });
      drawn += 1;
    }
  }
  assert.ok(drawn > 10, `${drawn} drawn`);
});

test("a turn is swept by its own angle, clockwise", () => {
  let swept = 0;
  for (const page of pages.filter((one) => kindOf(one) === "drawings sheet")) {
    for (const [svg] of text(page).matchAll(/<svg class="drawing stages-drawn[\s\S]*?<\/svg>/g)) {
      const angles = [...svg.matchAll(/>\+([\d.]+)°</g)].map(([, angle]) => Number(angle));
      const { turns } = measured(svg);
      assert.equal(turns.length, angles.length, page);
      turns.forEach(({ x, endX, rise }, at) => {
        // An upright or level mark is written without its own coordinate; the angles here are neither.
        const angle = (Math.atan2(Number(endX) - Number(x), rise) * 180) / Math.PI;
        if (Number(angles[at]) % 90 !== 0) {
          assert.ok(Math.abs(((angle + 360) % 360) - Number(angles[at])) < 1, `${page}: ${angles[at]}° drawn as ${angle}°`);
          swept += 1;
        }
      });
    }
  }
  assert.ok(swept > 0);
});

test("stages and bolts stand one below the other in their row, and at the step that tightens them", async () => {
  const sheet = pages.find((page) => kindOf(page) === "engine sheet" && text(page).includes("<ol class=\"stages\">") && text(page).includes("bolts, numbered")) ?? "";
  const work = pages.find((page) => kindOf(page) === "procedure sheet" && text(page).includes("stages-drawn")) ?? "";
  assert.ok(sheet && work);
  for (const width of [360, 1280]) {
    const { context, page, complaints } = await tab(browser, { viewport: { width, height: 900 } });
    for (const [name, place] of [[sheet, ".row:has(.stages):has(.bolts)"], [work, ".tightening:has(.bolts)"]]) {
      await page.goto(address(String(name)));
      const row = page.locator(String(place)).first();
      await row.scrollIntoViewIfNeeded();
      const boxes = await Promise.all([".stages-drawn", ".bolts"].map(async (one) => {
        await row.locator(one).waitFor();
        return row.locator(one).boundingBox();
      }));
      const [stages, bolts] = boxes;
      assert.ok(stages && bolts && stages.width > 150 && stages.x + stages.width <= width, `${name} at ${width}`);
      const apart = stages.y + stages.height <= bolts.y || stages.x + stages.width <= bolts.x;
      assert.ok(apart, `${name} at ${width}: ${JSON.stringify(boxes)}`);
    }
    assert.deepEqual(complaints, []);
    await context.close();
  }
});
