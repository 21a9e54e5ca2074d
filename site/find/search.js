// @ts-check
/*
 * The search: what was typed, joined from things, machines and numbers, best first, as the compiler's
 * `find/search.rs`. Parts of the index come from `load`, which knows where they lie.
 */
(() => {
  "use strict";
  const { words, fit, key, ask, yearOf, needsNumbers } = globalThis.baybookFindWords;
  const { near, joined, named, thing, machine, fixed } = globalThis.baybookFindMatching;
  const [THINGS, NEAR, BY_NAME, LAST] = [60, 8, 800, 200];

  /** @type {WeakMap<object, BaybookFindHead>} */
  const heads = new WeakMap();

  /** The head of the index as it is searched. @param {BaybookThings} raw @returns {BaybookFindHead} */
  function headOf(raw) {
    const made = heads.get(raw);
    if (made) {
      return made;
    }
    const names = raw.named.map((one) => one[3].map((name) => name.split(" ").filter(Boolean)));
    /** @type {BaybookThing[]} */
    const things = raw.named.flatMap(([kind, of, title, , , scopes], at) =>
      scopes.map(([where, when]) => ({ kind, of, title, where, when, named: at, beside: beside(kind, of, where, when) })),
    );
    const known = new Set([...names.flat(2), ...things.flatMap((one) => one.beside)]);
    const pairs = new Set(names.flat().flatMap((name) => name.slice(1).map((word, at) => `${name[at]}${word}`)));
    const head = { raw, names, things, known, pairs, short: new Map(raw.short), shards: new Set(raw.words) };
    heads.set(raw, head);
    return head;
  }

  /** @param {string} kind @param {string} of @param {Record<string, string>} where @param {Record<string, string>} when */
  function beside(kind, of, where, when) {
    if (kind === "procedure") {
      return ["procedure", "how", "do"];
    }
    if (kind === "complaint") {
      return ["complaint"];
    }
    const spelt = [where, when].flatMap((all) => Object.entries(all).map(([name, word]) => `${name} ${word} `));
    return [...new Set(words(spelt.join("") + of))];
  }

  /** @param {BaybookLoad} load @param {BaybookFindHead} head @param {Iterable<string>} all @param {BaybookRows} rows */
  async function take(load, head, all, rows) {
    const names = [...new Set([...all].map(key))].filter((name) => head.shards.has(name));
    for (const [fittedRows, fixedRows] of await Promise.all(names.map((name) => load(`w-${name}`)))) {
      for (const [at, row] of Object.entries(fittedRows)) {
        rows.fitted.set(Number(at), row);
      }
      for (const [at, row] of Object.entries(fixedRows)) {
        rows.fixed.set(Number(at), row);
      }
    }
  }

  /** @param {BaybookRows} rows */
  const wordsOf = (rows) => [
    ...[...rows.fitted.values()].flatMap((one) => `${one[3]} ${one[4]}`.split(" ")),
    ...[...rows.fixed.values()].flatMap((one) => one[5].split(" ")),
  ];

  /** The typed words with what each may stand for; their machines and codes go into `rows`. */
  async function typed(/** @type {BaybookLoad} */ load, /** @type {BaybookFindHead} */ head, /** @type {BaybookAsked} */ asked, /** @type {BaybookRows} */ rows) {
    const all = joined(asked.words, head.known);
    await take(load, head, [...all, ...asked.serials], rows);
    const whole = new Set(wordsOf(rows));
    /** @type {BaybookTyped[]} */
    const found = [];
    for (const word of all) {
      /** @type {Map<string, number>} */
      let meant = new Map((head.short.get(word) ?? []).map((long) => [long, 95]));
      const begins = head.pairs.has(word) || [...head.known, ...whole].some((one) => fit(word, one) > 0);
      if (meant.size === 0 && !begins) {
        meant = near(word, [...head.known, ...(await load("words"))]);
      }
      found.push({ word, meant, known: begins || meant.size > 0 });
    }
    await take(load, head, found.flatMap((one) => [...one.meant.keys()]), rows);
    return found;
  }

  /** @param {[number, number][]} all score by number, the best first */
  const sorted = (all) => all.sort((one, other) => other[1] - one[1] || one[0] - other[0]);

  /** @param {BaybookFindHead} head @param {BaybookTyped[]} typedWords */
  function things(head, typedWords) {
    const names = head.names.map((one) => named(one, typedWords));
    /** @type {[number, number][]} */
    const all = head.things.map((one, at) => [at, thing(names[one.named] ?? [0, []], one.beside, typedWords)]);
    return sorted(all.filter(([, score]) => score > 0));
  }

  /** @param {BaybookFitted} one @param {BaybookPiece} asked */
  function serial(one, asked) {
    const has = one[5].filter((span) => span[2]).some(([, , prefix, from, to]) =>
      asked.serials.some((text) => {
        const digits = text.startsWith(prefix) ? text.slice(prefix.length) : "";
        return /^[0-9]+$/.test(digits) && from <= Number(digits) && Number(digits) <= to;
      }),
    );
    return has ? 2000 : 0;
  }

  /** @param {BaybookFitted} one @param {BaybookAsked} asked */
  function years(one, asked) {
    const of = (/** @type {[number, boolean]} */ [year, full]) => (one[5].some(([from, to]) => from <= year && year <= to) ? 300 : full ? -300 : 0);
    return asked.years.reduce((total, year) => total + of(year), 0);
  }

  /** @param {BaybookRows} rows @param {BaybookTyped[]} typedWords @param {BaybookAsked} asked */
  function machines(rows, typedWords, asked) {
    /** @type {Map<number, number>} */
    const builds = new Map();
    /** @type {Map<string, [number, number]>} */
    const best = new Map();
    /** @type {Set<number>} */
    const made = new Set();
    for (const [at, one] of [...rows.fitted].sort((a, b) => a[0] - b[0])) {
      const { byName, whole } = machine(one, typedWords);
      const own = serial(one, asked);
      if (whole === 0 && own === 0) {
        continue;
      }
      for (const [year] of asked.years.filter(([year]) => one[5].some(([from, to]) => from <= year && year <= to))) {
        made.add(year);
      }
      const withYears = (/** @type {number} */ score) => Math.max(0, score + own + years(one, asked));
      builds.set(one[2], Math.max(builds.get(one[2]) ?? 0, withYears(byName)));
      if (withYears(whole) > (best.get(one[0])?.[1] ?? 0)) {
        best.set(one[0], [at, withYears(whole)]);
      }
    }
    const scored = sorted([...builds].filter(([, score]) => score > 0));
    const least = Math.floor((scored[0]?.[1] ?? 0) / 2);
    const near = scored.filter(([, score]) => score >= least).slice(0, NEAR);
    return { builds: near, made, machines: [...best.values()].filter(([, score]) => score > 0) };
  }

  /** What the printed numbers count, by `build thing`. */
  async function numbers(/** @type {BaybookLoad} */ load, /** @type {BaybookFindHead} */ head, /** @type {BaybookPiece} */ asked, /** @type {[number, number][]} */ top, /** @type {Set<string>} */ machineWords, /** @type {number} */ typedCount) {
    /** @type {Map<string, number>} */
    const all = new Map();
    /** @type {[BaybookValue, number][]} */
    const values = asked.quantities.map((value) => [value, 400]);
    const own = top.slice(0, THINGS).flatMap(([at]) => head.raw.named[head.things[at]?.named ?? 0]?.[4] ?? []);
    const narrowed = typedCount > 1 && top.length > 0;
    const symbols = new Set(narrowed ? own : head.raw.named.flatMap((one) => one[4]));
    for (const number of asked.bare.filter((one) => !machineWords.has(one))) {
      for (const symbol of symbols) {
        try {
          const { Value, units } = globalThis.baybookCompute;
          values.push([Value.parse(units.parse(symbol).after(number)), 250]);
        } catch {
          // No number of that unit, as a fraction of turns.
        }
      }
    }
    for (const [value, counts] of values) {
      const parts = globalThis.baybookFindNumbers.parts(value, head.raw.values);
      for (const bucket of await Promise.all(parts.map((name) => load(`v-${name}`)))) {
        globalThis.baybookFindNumbers.hold(value, bucket, counts, all);
      }
    }
    return all;
  }

  /**
   * What answers, best first, and what was typed and fits nothing: the lines are those of the rest.
   * `last` is the id of the build looked at last.
   */
  async function search(/** @type {BaybookLoad} */ load, /** @type {string} */ text, /** @type {string | null} */ last, /** @type {number} */ limit) {
    const head = headOf(await load("things"));
    if (needsNumbers(text)) {
      await load("numbers");
    }
    const asked = ask(text);
    /** @type {BaybookRows} */
    const rows = { fitted: new Map(), fixed: new Map() };
    const typedWords = await typed(load, head, asked, rows);
    const scoredThings = things(head, typedWords);
    const found = machines(rows, typedWords, asked);
    // `22` beside a machine that was made in 2022 is its year.
    const ofYears = asked.bare.filter((number) => found.made.has(yearOf(number)?.[0] ?? 0));
    const machineWords = new Set(found.builds.length > 0 ? [...rows.fitted.values()].flatMap((one) => one[3].split(" ")) : []);
    ofYears.forEach((number) => machineWords.add(number));
    const counted = await numbers(load, head, asked, scoredThings, machineWords, typedWords.length);
    const lastAt = last ? (await load(`i-${key(last)}`).catch(() => ({})))[last] : undefined;
    const pairs = await globalThis.baybookFindPairs.join({ load, head, things: scoredThings, builds: found.builds, counted, last: lastAt ?? null, THINGS, BY_NAME, LAST });
    /** @type {[number, number, number, number][]} */
    const ranks = [...pairs].map(([at, score]) => {
      const [build = 0, one = 0] = at.split(" ").map(Number);
      return [-score, 0, one, build];
    });
    ranks.push(...found.machines.map(([at, score]) => /** @type {[number, number, number, number]} */ ([-score, 1, at, 0])));
    for (const [at, one] of rows.fixed) {
      const score = fixed(one, typedWords);
      if (score > 0) {
        ranks.push([-score, 2, at, 0]);
      }
    }
    ranks.sort((a, b) => a[0] - b[0] || a[1] - b[1] || a[2] - b[2] || a[3] - b[3]);
    const lines = await Promise.all(ranks.slice(0, limit).map((rank) => globalThis.baybookFindPairs.told(load, head, rows, rank)));
    const leftOut = [];
    for (const [typedText, piece] of asked.pieces) {
      const fits =
        piece.words.some((word) => typedWords.some((one) => one.known && one.word.includes(word))) ||
        piece.years.some(([year]) => found.made.has(year)) ||
        [...rows.fitted.values()].some((one) => serial(one, piece) > 0) ||
        (await numbers(load, head, piece, scoredThings, machineWords, typedWords.length)).size > 0;
      if (!fits) {
        leftOut.push(typedText);
      }
    }
    return { lines, leftOut };
  }

  globalThis.baybookFindSearch = { search };
})();
