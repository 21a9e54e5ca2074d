// @ts-check
/*
 * Things joined with the builds that state them: the rows that may answer, and the lines they make.
 */
(() => {
  "use strict";
  const [THINGS, SPREAD, LAST, BUILDS, PART] = [60, 6, 200, 4, 24];

  /** The part of the index that a row stands in. @param {BaybookFindHead} head @param {number} thing @param {number} row */
  function partOf(head, thing, row) {
    const named = head.things[thing]?.named ?? 0;
    const scopes = head.scopes[named] ?? 1;
    const listed = Math.min(12, Math.max(4, Math.floor(24 / scopes)));
    return row < listed ? `t-${named}` : `t-${named}-${Math.floor((row - listed) / Math.ceil(PART / scopes))}`;
  }

  /** The things that are joined with builds. @param {[number, number][]} things */
  const topOf = (things) => things.slice(0, THINGS).map(([thing]) => thing);

  /** The things that are listed for all builds: those of the best names. @param {BaybookFindHead} head @param {[number, number][]} things */
  function listed(head, things) {
    const top = topOf(things);
    const names = new Set([...new Set(top.map((thing) => head.things[thing]?.named))].slice(0, SPREAD));
    return top.filter((thing) => names.has(head.things[thing]?.named));
  }

  /** The parts that tell of them. @param {BaybookFindHead} head @param {[number, number][]} things */
  const spread = (head, things) => [...new Set(listed(head, things).map((thing) => partOf(head, thing, 0)))];

  /** A build, and what it states. @param {BaybookLoad} load @param {number} build @returns {Promise<BaybookStated>} */
  const stated = async (load, build) => (await load(`b-${Math.floor(build / BUILDS)}`))[build % BUILDS];

  /**
   * Every row that may answer, by `thing row`, with its score and the build it is shown for: null is the first of
   * those that state it.
   * @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookJoin} join
   */
  async function rows(load, head, { things, builds, byName, held, last }) {
    const ofThing = new Map(things);
    const ofBuild = new Map(builds);
    /** @type {Map<string, number>} */
    const numbers = new Map();
    for (const [row, counts] of held.flatMap((one) => [...one])) {
      numbers.set(row, (numbers.get(row) ?? 0) + counts);
    }
    /** @type {Map<string, { score: number, build: number | null }>} */
    const all = new Map();
    const add = (/** @type {string} */ row, /** @type {number | null} */ build) => {
      const own = (ofThing.get(Number(row.split(" ")[0])) ?? 0) + (numbers.get(row) ?? 0);
      if (own > 0) {
        const more = build === null ? 0 : (ofBuild.get(build) ?? 0) + (!byName && last === build ? LAST : 0);
        const best = all.get(row);
        // The first of those that state it comes before any other.
        const before = build === null || (best && best.build !== null && build < best.build);
        if (!best || own + more > best.score || (own + more === best.score && before)) {
          all.set(row, { score: own + more, build });
        }
      }
    };
    const isTop = new Set(topOf(things).map(String));
    const near = [...builds.map(([build]) => build), ...(last === null ? [] : [last])];
    const listing = byName ? [] : Promise.all(spread(head, things).map(load));
    for (const [at, [, text]] of (await Promise.all(near.map((build) => stated(load, build)))).entries()) {
      for (const row of globalThis.baybookFindNumbers.rows(text)) {
        if (numbers.has(row) || isTop.has(row.split(" ")[0] ?? "")) {
          add(row, near[at] ?? 0);
        }
      }
    }
    const each = listed(head, things);
    for (const [, part] of await listing) {
      for (const thing of each) {
        for (const [row, [, , first]] of Object.entries(part[thing] ?? {})) {
          add(`${thing} ${row}`, first);
        }
      }
    }
    for (const row of numbers.keys()) {
      add(row, null);
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

  /** Id and title of a build. @param {string} told @returns {[string, string]} */
  const titled = (told) => {
    const id = told.split(" ", 1)[0] ?? "";
    return [id, `${told.slice(id.length + 1)} · ${id}`];
  };

  /** @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookRows} found @param {BaybookRank} rank @returns {Promise<BaybookFound>} */
  async function told(load, head, found, { score, kind, at, row, build }) {
    const none = { where: {}, when: {}, open: false, score };
    if (kind === 0) {
      const thing = /** @type {BaybookThing} */ (head.things[at]);
      const [names, rowsOf] = await load(partOf(head, at, row));
      const [text, open, first, builds] = rowsOf[at][row];
      const [id, machine] = titled(names[build ?? first] ?? (await stated(load, build ?? first))[0]);
      const { of, title, where, when } = thing;
      return { kind: thing.kind, build: id, builds, machine, of, title, where, when, text, open: open === 1, score, href: href(id, thing) };
    }
    if (kind === 1) {
      const one = /** @type {BaybookFitted} */ (found.fitted.get(at));
      const [id, machine] = titled((await stated(load, one[2]))[0]);
      return { ...none, kind: "machine", build: id, builds: 1, machine: null, of: one[0], title: one[1], text: machine, href: `machines/${one[0]}.html` };
    }
    const [sort, of, title, text, sheet] = /** @type {BaybookFixed} */ (found.fixed.get(at));
    const page = sort === "source" ? `sources/${sheet}.html` : `codes/${sheet}.html${sort === "code" ? `#code-${of}` : ""}`;
    return { ...none, kind: sort, build: null, builds: 0, machine: null, of, title, text, href: page };
  }

  globalThis.baybookFindPairs = { rows, spread, stated, told };
})();
