// @ts-check
/*
 * Things joined with the builds that state them, and the lines they make.
 */
(() => {
  "use strict";
  /** Builds shown of one thing where no machine is named are those the index lists. */

  /** Score by `build thing`. @param {BaybookJoin} join @returns {Promise<Map<string, number>>} */
  async function join({ load, head, things, builds, counted, last, THINGS, BY_NAME, LAST }) {
    const ofThing = new Map(things);
    const ofBuild = new Map(builds);
    const byName = (builds[0]?.[1] ?? 0) >= BY_NAME;
    /** @type {Map<string, number>} */
    const all = new Map();
    const add = (/** @type {number} */ build, /** @type {number} */ thing) => {
      const own = (ofThing.get(thing) ?? 0) + (counted.get(`${build} ${thing}`) ?? 0);
      if (own > 0) {
        all.set(`${build} ${thing}`, own + (ofBuild.get(build) ?? 0) + (!byName && last === build ? LAST : 0));
      }
    };
    const top = new Set(things.slice(0, THINGS).map(([thing]) => thing));
    const near = [...builds.map(([build]) => build), ...(last === null ? [] : [last])];
    if (top.size > 0) {
      for (const [at, stated] of (await Promise.all(near.map((build) => load(`b-${build}`)))).entries()) {
        for (const [thing] of stated[2]) {
          if (top.has(thing)) {
            add(near[at] ?? 0, thing);
          }
        }
      }
    }
    if (!byName) {
      const named = [...new Set([...top].map((thing) => head.things[thing]?.named ?? 0))];
      for (const stating of await Promise.all(named.map((one) => load(`t-${one}`)))) {
        for (const [thing, list] of Object.entries(stating)) {
          if (top.has(Number(thing))) {
            list.forEach((/** @type {number} */ build) => add(build, Number(thing)));
          }
        }
      }
    }
    for (const pair of counted.keys()) {
      const [build = 0, thing = 0] = pair.split(" ").map(Number);
      add(build, thing);
    }
    return all;
  }

  /** Place of a text in an id of HTML, as the sheets have it. @param {string} text */
  const plain = (text) => text.replace(/[A-Z]/g, (c) => c.toLowerCase()).split(/[^a-z0-9]+/).filter(Boolean).join("-");

  /** The line on its sheet. @param {string} build @param {BaybookThing} thing */
  function href(build, thing) {
    if (thing.kind !== "statement") {
      return `builds/${build}/${thing.kind === "complaint" ? "complaint-" : ""}${thing.of}.html`;
    }
    const entry = thing.of.replaceAll(".", "_");
    const words = [...Object.entries(thing.where), ...Object.entries(thing.when)];
    const scope = words.map(([name, word]) => `--${plain(name)}_${plain(word)}`).join("");
    return `builds/${build}/engine.html#${/^[0-9]/.test(entry) ? "n" : ""}${entry}${scope}`;
  }

  /** @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookRows} rows @param {[number, number, number, number]} rank @returns {Promise<BaybookFound>} */
  async function told(load, head, rows, [score, kind, at, build]) {
    const none = { where: {}, when: {}, open: false, score: -score };
    if (kind === 0) {
      const [id, machine, lines] = await load(`b-${build}`);
      const thing = /** @type {BaybookThing} */ (head.things[at]);
      const line = lines.find((/** @type {number[]} */ one) => one[0] === at);
      const { of, title, where, when } = thing;
      return { kind: thing.kind, build: id, machine, of, title, where, when, text: line[1], open: line[2] === 1, score: -score, href: href(id, thing) };
    }
    if (kind === 1) {
      const one = /** @type {BaybookFitted} */ (rows.fitted.get(at));
      const [id, machine] = await load(`b-${one[2]}`);
      return { ...none, kind: "machine", build: id, machine: null, of: one[0], title: one[1], text: machine, href: `machines/${one[0]}.html` };
    }
    const [sort, of, title, text, sheet] = /** @type {BaybookFixed} */ (rows.fixed.get(at));
    const page = sort === "source" ? `sources/${sheet}.html` : `codes/${sheet}.html${sort === "code" ? `#code-${of}` : ""}`;
    return { ...none, kind: sort, build: null, machine: null, of, title, text, href: page };
  }

  globalThis.baybookFindPairs = { join, told };
})();
