// @ts-check
/*
 * How long the find takes on a base of sixty thousand statements, from a memory stick, beside its floor (one script of
 * the index alone) and a peer (MiniSearch, a general-purpose search library, on the same lines), in the same run.
 *
 *     cargo test --test find                              writes target/find-large.json
 *     BAYBOOK_HANDBOOK=public node benches/find.js        public is a compiled handbook
 *
 * It is never a test: times are of the machine they were taken on. The bytes are held by tests/browser/find.test.js.
 */
"use strict";

const fs = require("node:fs");
const path = require("node:path");
const vm = require("node:vm");
const { pathToFileURL, fileURLToPath } = require("node:url");
const here = path.join(__dirname, "..");
const { root, launch } = require("../tests/browser/opened.js");
vm.runInThisContext(["words", "places", "stated"].map((name) => fs.readFileSync(path.join(here, `site/find/${name}.js`), "utf8")).join(""));
const peerScript = path.join(here, "tests/outside/node_modules/minisearch/dist/umd/index.js");

const large = JSON.parse(fs.readFileSync(path.join(here, "target/find-large.json"), "utf8"));
const out = path.join(here, "target/find-bench");
/** Milliseconds that the home sheet is open before the first key, and between two keys of a thumb. */
const [OPEN, BETWEEN] = [2_500, 150];

/** The handbook with the large index in the place of its own. */
function lay() {
  fs.rmSync(out, { recursive: true, force: true });
  fs.cpSync(path.join(root, "assets"), path.join(out, "assets"), { recursive: true });
  fs.mkdirSync(path.join(out, "assets/find-large"));
  for (const [name, rows] of Object.entries(large.parts)) {
    fs.writeFileSync(path.join(out, `assets/find-large/${name}.js`), `baybookFind.take("${name}",${JSON.stringify(rows)});\n`);
  }
  const page = fs.readFileSync(path.join(root, "index.html"), "utf8");
  fs.writeFileSync(path.join(out, "index.html"), page.replace(/data-index="[^"]*"/, 'data-index="assets/find-large/"'));
  fs.copyFileSync(peerScript, path.join(out, "peer.js"));
  fs.writeFileSync(path.join(out, "peer-records.js"), `globalThis.records = ${JSON.stringify(records())};\n`);
  fs.writeFileSync(path.join(out, "peer.html"), "<!doctype html><title>peer</title>");
}

/** Every line of every build as a record of its words: what the index holds, laid out flat. */
function records() {
  const { parts } = large;
  const { named } = parts.things;
  const places = baybookFindWords.unshared(parts.things.scopes);
  /** @type {{ title: string, aka: string, scope: string }[]} */
  const things = [];
  for (let at = 0; at < named.length; at += 5) {
    for (const scope of String(named[at + 4]).split(" ").filter(Boolean)) {
      things.push({ title: named[at + 1], aka: baybookFindWords.unshared(String(named[at + 2]).split(",")).join(","), scope: places[Number(scope)] ?? "" });
    }
  }
  const rows = new Map();
  for (const [name, part] of Object.entries(parts).filter(([name]) => /^[ftr]-/.test(name))) {
    for (const [thing, of] of Object.entries(/** @type {Record<string, any>} */ (part[1]))) {
      Object.entries(of).forEach(([row, told]) => rows.set(`${thing} ${row}`, told[0]));
    }
  }
  const builds = Object.entries(parts).filter(([name]) => name.startsWith("i-"));
  const called = new Map(builds.flatMap(([, all]) => Object.values(/** @type {Record<string, [number, string]>} */ (all))));
  return Object.entries(parts).filter(([name]) => name.startsWith("b-")).flatMap(([, part]) =>
    Object.keys(part[2]).map(Number).flatMap((build) =>
      [...baybookFindStated.rowsOf(part, build)].map((place) => {
        const [thing, row] = [baybookFindPlaces.thingOf(place), baybookFindPlaces.rowOf(place)];
        return { id: `${build} ${place}`, ...things[thing], machine: called.get(build), text: rows.get(`${thing} ${row}`) };
      }),
    ),
  );
}

/** @param {number[]} times @param {number} share */
const quantile = (times, share) => [...times].sort((a, b) => a - b)[Math.min(times.length - 1, Math.floor(times.length * share))] ?? 0;
/** @param {string} name @param {number[]} times */
const row = (name, times) => console.log(`| ${name} | ${times.length} | ${quantile(times, 0.5).toFixed(1)} | ${quantile(times, 0.95).toFixed(1)} | ${Math.max(...times).toFixed(1)} |`);

/** Runs in the page: types, and waits for the list or the word that stands for it. @param {string} text @returns {Promise<number>} */
const types = (text) =>
  new Promise((done) => {
    const field = /** @type {HTMLInputElement} */ (document.querySelector("[data-find]"));
    const said = /** @type {HTMLElement} */ (document.querySelector(".find-said"));
    const begun = performance.now();
    // The first touch brings what works the field: it is part of the wait for a first answer.
    field.focus();
    field.value = text;
    field.dispatchEvent(new Event("input"));
    if (said.textContent) {
      done(performance.now() - begun);
      return;
    }
    const watch = new MutationObserver(() => {
      if (said.textContent) {
        watch.disconnect();
        done(performance.now() - begun);
      }
    });
    watch.observe(said, { childList: true });
  });

async function main() {
  lay();
  const browser = await launch();
  /** @type {Record<"first" | "keys" | "ready" | "paced" | "floor", number[]>} */
  const { first, keys, ready, paced, floor } = { first: [], keys: [], ready: [], paced: [], floor: [] };
  /** @type {[number, string][]} */
  const bytes = [];
  let memory = 0;
  for (const { query } of [...large.answers, ...large.answers, ...large.answers]) {
    // Each first query in a private window of its own.
    const context = await browser.newContext();
    const page = await context.newPage();
    await page.goto(pathToFileURL(path.join(out, "index.html")).href, { waitUntil: "load" });
    let loaded = 0;
    page.on("requestfinished", (request) => {
      loaded += fs.statSync(fileURLToPath(request.url())).size;
    });
    first.push(await page.evaluate(types, query));
    bytes.push([loaded, query]);
    for (let end = 1; end <= query.length; end += 1) {
      keys.push(await page.evaluate(types, query.slice(0, end)));
    }
    await context.close();
    // As a thumb types: on a sheet that has been open for a while, with a pause before each key.
    const thumb = await browser.newContext();
    const sheet = await thumb.newPage();
    await sheet.goto(pathToFileURL(path.join(out, "index.html")).href, { waitUntil: "load" });
    await sheet.waitForTimeout(OPEN);
    ready.push(await sheet.evaluate(types, query));
    for (let end = 1; end <= query.length; end += 1) {
      await sheet.waitForTimeout(BETWEEN);
      paced.push(await sheet.evaluate(types, query.slice(0, end)));
    }
    memory = Math.max(memory, await sheet.evaluate("performance.memory.usedJSHeapSize"));
    await thumb.close();
    const bare = await (await browser.newContext()).newPage();
    await bare.goto(pathToFileURL(path.join(out, "peer.html")).href);
    floor.push(
      await bare.evaluate(async (src) => {
        const begun = performance.now();
        Object.assign(globalThis, { baybookFind: { take() {} } });
        await new Promise((done) => document.head.append(Object.assign(document.createElement("script"), { src, onload: done })));
        return performance.now() - begun;
      }, "assets/find-large/things.js"),
    );
    await bare.context().close();
  }
  const peer = await peerIn(browser);
  await browser.close();
  const total = Object.entries(large.parts).reduce((sum, [name, rows]) => sum + Buffer.byteLength(JSON.stringify(rows)) + name.length + 22, 0);
  console.log(`${large.statements} statements, ${Object.keys(large.parts).length} parts, ${total} bytes of index: ${(total / large.statements).toFixed(1)} a statement`);
  const [most, heaviest] = bytes.reduce((a, b) => (b[0] > a[0] ? b : a));
  console.log(`a first query loads ${quantile(bytes.map(([one]) => one), 0.5)} bytes at the median, ${most} at most (\`${heaviest}\`)`);
  console.log(`memory of the page after all keys: ${(memory / 1e6).toFixed(1)} MB at most\n`);
  console.log("| what | times | median, ms | p95, ms | most, ms |\n|---|---:|---:|---:|---:|");
  row("floor: one script of the index", floor);
  row("first answer, nothing loaded", first);
  row("each key, without a pause", keys);
  row(`first answer, home open for ${OPEN / 1000} s`, ready);
  row(`each key, ${BETWEEN} ms after the one before`, paced);
  row("peer: a query, all in memory", peer.times);
  console.log(`\npeer: MiniSearch reads ${peer.bytes} bytes of records and is ready after ${peer.ready.toFixed(0)} ms, with ${(peer.memory / 1e6).toFixed(0)} MB`);
  const wanted = wantedFirst();
  console.log(`of ${wanted.all} queries whose wanted line was written by hand, on the demo base: first by Baybook ${wanted.own}, by the peer ${wanted.peer}`);
}

/** One line of the demo base as the queries want it. @typedef {{ kind: string, of: string, build: string, where: Record<string, string>, title: string }} Told */

/** How often each leads with the line that `tests/vectors/find.json` wants, which was written before either was tuned. */
function wantedFirst() {
  const index = JSON.parse(fs.readFileSync(path.join(root, "bundle/find.json"), "utf8"));
  const queries = JSON.parse(fs.readFileSync(path.join(here, "tests/vectors/find.json"), "utf8")).queries;
  const answers = new Map(JSON.parse(fs.readFileSync(path.join(here, "target/find-answers.json"), "utf8")).map((/** @type {any} */ one) => [`${one.query} ${one.last ?? ""}`, one.found]));
  const { things, named } = index.things;
  const words = (/** @type {Record<string, string>} */ scope) => Object.entries(scope).flat().join(" ");
  /** @type {(Told & { id: number, names: string, scope: string, machine: string })[]} */
  const lines = [];
  for (const build of index.builds) {
    for (const { thing } of build.lines) {
      const one = things[thing];
      lines.push({ id: lines.length, kind: one.kind, of: one.of, build: build.id, where: one.where, title: one.title, names: named[one.named].flat().join(" "), scope: `${words(one.where)} ${words(one.when)}`, machine: build.title });
    }
  }
  const alone = { where: {}, scope: "" };
  for (const one of index.fitted) {
    lines.push({ ...alone, id: lines.length, kind: "machine", of: one.machine, build: index.builds[one.build].id, title: one.name, names: one.sort.join(" "), machine: one.words.join(" ") });
  }
  for (const one of index.fixed) {
    lines.push({ ...alone, id: lines.length, kind: one.kind, of: one.of, build: "", title: one.title, names: [...one.words, ...one.sort].join(" "), machine: one.text });
  }
  const machines = new Map(index.fitted.map((/** @type {any} */ one) => [`${one.machine} ${index.builds[one.build].id}`, true]));
  /** @param {Told | undefined} line @param {any} wanted */
  const is = (line, wanted) =>
    line !== undefined &&
    (!wanted.engine || line.build === wanted.engine || line.build.startsWith(`${wanted.engine}~`)) &&
    (!wanted.machine || machines.has(`${wanted.machine} ${line.build}`)) &&
    Object.entries(wanted.where ?? {}).every(([axis, word]) => line.where[axis] === word) &&
    (!wanted.of || wanted.of.includes(line.of)) &&
    (!wanted.kind || wanted.kind === line.kind) &&
    (!wanted.title || wanted.title === line.title);
  const MiniSearch = require(path.join(here, "tests/outside/node_modules/minisearch/dist/cjs/index.cjs"));
  const peer = new MiniSearch({ fields: ["title", "names", "scope", "machine"] });
  peer.addAll(lines);
  const count = { all: queries.length, own: 0, peer: 0 };
  for (const { query, last, wanted } of queries) {
    const [first] = answers.get(`${query} ${last ?? ""}`) ?? [];
    count.own += Number(is(first && { kind: first[0], of: first[1], build: first[2] ?? "", where: first[4], title: first[6] }, wanted));
    const [hit] = peer.search(query, { prefix: true, fuzzy: 0.2, combineWith: "AND" });
    count.peer += Number(is(hit && lines[hit.id], wanted));
  }
  return count;
}

/** The peer in a page of its own: the same lines, prefix and slips as it offers them. @param {Awaited<ReturnType<typeof launch>>} browser */
async function peerIn(browser) {
  const page = await (await browser.newContext()).newPage();
  await page.goto(pathToFileURL(path.join(out, "peer.html")).href);
  const ready = await page.evaluate(async () => {
    const begun = performance.now();
    for (const src of ["peer.js", "peer-records.js"]) {
      await new Promise((done) => document.head.append(Object.assign(document.createElement("script"), { src, onload: done })));
    }
    const all = /** @type {any} */ (globalThis);
    all.index = new all.MiniSearch({ fields: ["title", "aka", "scope", "machine", "text"], storeFields: ["title", "text"] });
    all.index.addAll(all.records);
    return performance.now() - begun;
  });
  /** @type {number[]} */
  const times = [];
  for (const { query } of large.answers) {
    const took = await page.evaluate((/** @type {string} */ typed) => {
      const begun = performance.now();
      /** @type {any} */ (globalThis).index.search(typed, { prefix: true, fuzzy: 0.2, combineWith: "AND" });
      return performance.now() - begun;
    }, query);
    times.push(took);
  }
  const memory = Number(await page.evaluate("performance.memory.usedJSHeapSize"));
  return { ready, times, memory, bytes: fs.statSync(path.join(out, "peer-records.js")).size };
}

main();
