// @ts-check
/*
 * The JSON-LD of every procedure sheet: of the types that schema.org's vocabulary has (schema-dts, by the compiler), and
 * the same numbers and codes as the bundle. usage: BAYBOOK_HANDBOOK=public node --test json-ld.test.js
 */
"use strict";
const test = require("node:test");
const assert = require("node:assert/strict");
const fs = require("node:fs");
const os = require("node:os");
const path = require("node:path");
const { execFileSync } = require("node:child_process");

const handbook = process.env.BAYBOOK_HANDBOOK ?? "";
const bundle = path.join(handbook, "bundle");
/** @param {string} name */
const part = (name) => JSON.parse(fs.readFileSync(path.join(bundle, name), "utf8"));
/** @type {{ id: string, title: string, steps: number, minutes: number | null, builds: string[], hazards: string[], body: any[] }[]} */
const procedures = part("procedures.json").procedures;
const engines = fs.readdirSync(path.join(bundle, "engines")).map((name) => part(`engines/${name}`));
/** @type {Map<string, any[]>} */
const specs = new Map(engines.flatMap((engine) => engine.builds.map((/** @type {any} */ build) => [build.id, build.specs])));
const hazards = new Map(part("hazards.json").hazards.map((/** @type {any} */ one) => [one.id, one]));

const sheets = procedures.flatMap((procedure) => procedure.builds.map((build) => ({ procedure, build, ...read(`builds/${build}/${procedure.id}.html`) })));

/** @param {string} page */
function read(page) {
  const html = fs.readFileSync(path.join(handbook, page), "utf8");
  const blocks = [...html.matchAll(/<script type="application\/ld\+json">([\s\S]*?)<\/script>/g)];
  assert.equal(blocks.length, 1, page);
  return { page, data: JSON.parse(blocks[0]?.[1] ?? "") };
}

/** Every step of a HowTo, sections opened. @param {any} data @returns {any[]} */
const steps = (data) => data.step.flatMap((/** @type {any} */ one) => one.itemListElement ?? [one]).filter((/** @type {any} */ one) => one["@type"] === "HowToStep");

test("every procedure sheet has a HowTo, and no engine sheet carries one", () => {
  assert.ok(sheets.length > 50);
  for (const { page, data, procedure } of sheets) {
    assert.deepEqual([data["@context"], data["@type"], data.name], ["https://schema.org", "HowTo", procedure.title], page);
    assert.equal(data.totalTime, procedure.minutes === null ? undefined : `PT${procedure.minutes}M`, page);
    assert.deepEqual(steps(data).map((one) => one.position), Array.from({ length: procedure.steps }, (_, at) => at + 1), page);
    assert.equal(data.disambiguatingDescription, "Invented data: fits no real engine.", page);
  }
  for (const build of specs.keys()) {
    assert.doesNotMatch(fs.readFileSync(path.join(handbook, "builds", build, "engine.html"), "utf8"), /ld\+json/);
  }
});

/** The shape of a value: its keys, and the sorts of what they hold. @param {any} value @returns {string} */
function shape(value) {
  if (Array.isArray(value)) {
    return `[${[...new Set(value.map(shape))].sort().join()}]`;
  }
  return typeof value === "object" ? `{${Object.keys(value).map((key) => `${key}:${key === "@type" ? value[key] : shape(value[key])}`).join()}}` : typeof value;
}

/** One of each shape: the compiler takes minutes for all. @param {any[]} all @returns {any[]} */
const oneOfEach = (all) => [...new Map(all.map(thin).map((one) => [shape(one), one])).values()];

/** @param {any} value @returns {any} */
function thin(value) {
  if (Array.isArray(value)) {
    return oneOfEach(value);
  }
  return typeof value === "object" ? Object.fromEntries(Object.entries(value).map(([key, inner]) => [key, thin(inner)])) : value;
}

test("schema.org has every property and every type of it", () => {
  const folder = fs.mkdtempSync(path.join(os.tmpdir(), "baybook-json-ld-"));
  try {
    // Steps, tips and sections of all sheets under one head, each shape once, and every shape of a head.
    const all = sheets.flatMap(({ data }) => data.step);
    const within = oneOfEach(all.flatMap((one) => one.itemListElement ?? [one]));
    const steps = [...within, ...oneOfEach(all.filter((one) => one.itemListElement).map((one) => ({ ...one, itemListElement: one.itemListElement.slice(0, 1) }))).slice(0, 2)];
    const heads = oneOfEach(sheets.map(({ data }) => ({ ...data, step: [] })));
    const text = [{ ...heads[0], step: steps }, ...heads].map((one) => `  ${JSON.stringify(one)},\n`).join("");
    const file = path.join(folder, "sheets.ts");
    // A literal is held to its type key by key: one that the vocabulary lacks does not compile, as the last line shows.
    const wrong = `// @ts-expect-error no such key\nexport const wrong: QuantitativeValue = { "@type": "QuantitativeValue", unitTexts: "mm" };\n`;
    fs.writeFileSync(file, `import type { HowTo, QuantitativeValue, WithContext } from "schema-dts";\nexport const sheets: WithContext<HowTo>[] = [\n${text}];\n${wrong}`);
    fs.symlinkSync(path.join(__dirname, "node_modules"), path.join(folder, "node_modules"));
    const tsc = path.join(__dirname, "node_modules", ".bin", "tsc");
    execFileSync(tsc, ["--strict", "--noEmit", "--target", "es2022", "--module", "nodenext", "--moduleResolution", "nodenext", "--types", "", file], { cwd: folder, encoding: "utf8", stdio: "pipe" });
  } finally {
    fs.rmSync(folder, { recursive: true });
  }
});

/** The statements that a part means in a build. @param {string} build @param {any} part @returns {any[]} */
function meant(build, { of, narrow = {} }) {
  const own = (specs.get(build) ?? []).filter((spec) => spec.of === of);
  const within = own.filter((spec) => spec.absent === undefined && Object.entries(narrow).every(([name, word]) => ({ ...spec.when, ...spec.where })[name] === undefined || { ...spec.when, ...spec.where }[name] === word));
  return within.length > 0 ? within : own;
}

/** A number as a fraction of whole numbers. @param {string} text @returns {[bigint, bigint]} */
function exact(text) {
  const [whole = "", below = "1"] = text.split("/");
  const [left = "", right = ""] = whole.split(".");
  return [BigInt(left + right), BigInt(below) * 10n ** BigInt(right.length)];
}

/** @param {string} one @param {string} other */
const same = (one, other) => {
  const [[top, bottom], [over, under]] = [exact(one), exact(other)];
  return top * under === over * bottom;
};

test("the numbers and codes of each step are those of the bundle, and its cautions come first", () => {
  let held = 0;
  let named = 0;
  for (const { page, data, procedure, build } of sheets) {
    for (const step of steps(data)) {
      const parts = procedure.body.filter((block) => block.step === step.position).flatMap((block) => block.parts);
      const ranges = parts.filter((one) => ["spec", "reading"].includes(one.sort)).flatMap((one) => meant(build, one)).flatMap((spec) => [spec.window, spec.set_to, spec.new, spec.wear_limit, spec.setting, ...(spec.stages ?? [])].filter(Boolean));
      const forms = ranges.flatMap((range) => range.printed);
      const stated = step.about ?? [];
      assert.deepEqual(stated.map((/** @type {any} */ one) => one.description), forms.map((form) => form.text), `${page}: step ${step.position}`);
      for (const [at, one] of stated.entries()) {
        const { min, max } = forms[at];
        assert.equal(one["@type"], "QuantitativeValue");
        assert.deepEqual([one.unitCode ?? null, one.unitText], [(min ?? max).unece, (min ?? max).unit]);
        for (const [limit, said] of [[min, one.value ?? one.minValue], [max, one.value ?? one.maxValue]]) {
          assert.equal(limit === null, said === undefined, `${page}: ${one.description}`);
          // A limit is printed as a decimal but for a fraction of an inch.
          assert.ok(limit === null || same(said, limit.text), `${page}: ${said} is not ${limit?.text}`);
          held += 1;
        }
      }
      const cautions = parts.filter((one) => one.sort === "hazard").map((one) => hazards.get(one.hazard));
      for (const { signal, hazard } of cautions) {
        assert.ok(step.text.includes(`${signal}: ${hazard}`), `${page}: step ${step.position} lacks ${hazard}`);
      }
      if (cautions.length > 0) {
        assert.match(step.text, /^(DANGER|WARNING|CAUTION|NOTICE): /);
      }
      // What can hurt in another procedure is named, not told: its own sheet does.
      const leads = parts.filter((one) => one.sort === "procedure").map((one) => procedures.find(({ id }) => id === one.procedure)).filter((one) => one?.builds.includes(build));
      const there = leads.flatMap((one) => one?.hazards ?? []).filter((id) => !procedure.hazards.includes(id)).map((id) => hazards.get(id));
      assert.equal(/\bThere: /.test(step.text), there.length > 0, `${page}: step ${step.position}`);
      for (const { signal, hazard, avoid } of there) {
        assert.ok(step.text.split("There: ")[1]?.includes(`${signal} ${hazard}.`), `${page}: step ${step.position} leads to ${hazard}`);
        assert.ok(!step.text.includes(avoid));
        named += 1;
      }
    }
  }
  assert.ok(held > 500, `${held} limits`);
  assert.ok(named > 50, `${named} hazards of other procedures`);
});
