// @ts-check
/*
 * The search: what was typed, joined from things, machines and numbers, best first, as the compiler's
 * `find/search.rs`. Parts of the index come from `load`, which knows where they lie.
 */
(() => {
  "use strict";
  const { words, fit, key, ask, mayBeSlip, needsNumbers, unshared } = globalThis.baybookFindWords;
  const { near, joined, fits, named, thing, machine, fixed, leads, titled, bestWhole, wordsOf, wordsOfFitted } = globalThis.baybookFindMatching;
  const { serial, namesOf, fits: pieceFits } = globalThis.baybookFindFits;
  const pairs = globalThis.baybookFindPairs;
  const { headOf, isRead, leadsOf, isLed } = globalThis.baybookFindHead;
  const [THINGS, LINES, NEAR, BEGUN, BY_NAME, USES] = [60, 12, 6, 4, 800, 9];

  /** @param {BaybookLoad} load @param {BaybookFindHead} head @param {Iterable<string>} all @param {BaybookRows} rows */
  async function take(load, head, all, rows) {
    const names = [...new Set([...all].filter((word) => isLed(head.leads, word)).map(key))];
    for (const [fittedRows, fixedRows] of await Promise.all(names.map((name) => load(`w-${name}`)))) {
      for (const [at, row] of Object.entries(fittedRows)) {
        rows.fitted.set(Number(at), row);
      }
      for (const [at, row] of Object.entries(fixedRows)) {
        rows.fixed.set(Number(at), titled(row));
      }
    }
  }

  /** @param {BaybookRows} rows */
  const wordsOfRows = (rows) => [
    ...[...rows.fitted.values()].flatMap(wordsOfFitted),
    ...[...rows.fixed.values()].flatMap(wordsOf),
  ];

  /** The typed words with what each may stand for, and the names and things they score; their machines and codes go into `rows`. @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookAsked} asked @param {BaybookRows} rows @param {number} limit */
  async function typed(load, head, asked, rows, limit) {
    const all = joined(asked.words, head.known);
    const sure = all.map((word) => ofCatalogue(head, word));
    const taking = take(load, head, [...all, ...sure.flatMap((one) => [...(one?.meant.keys() ?? [])]), ...asked.serials], rows);
    const whole = sure.every((one) => one !== null) ? scoredBy(head, sure) : null;
    if (whole) {
      // Whatever machine it is for, the catalogue knows every word: its lines need not wait for the machines.
      ahead(load, pairs.spread(head, pairs.listed(head, whole.things, limit), limit));
    }
    await taking;
    if (whole) {
      return whole;
    }
    const others = new Set(wordsOfRows(rows));
    const found = await Promise.all(all.map(async (word, at) => sure[at] ?? ofMachines(load, head, word, others)));
    await take(load, head, found.flatMap((one) => [...one.meant.keys()]), rows);
    return scoredBy(head, found);
  }

  /** A typed word that the catalogue or the trade knows; null for any other. @param {BaybookFindHead} head @param {string} word @returns {BaybookTyped | null} */
  function ofCatalogue(head, word) {
    const meant = new Map((head.short.get(word) ?? []).map((long) => /** @type {[string, number]} */ ([long, 95])));
    const begins = head.pairs.has(word) || [...head.known].some((one) => fit(word, one) > 0);
    return begins || meant.size > 0 ? { word, meant, known: true } : null;
  }

  /** Any other word: one of a machine, a code or a manual, or a slip. @param {BaybookLoad} load @param {BaybookFindHead} head @param {string} word @param {Set<string>} others @returns {Promise<BaybookTyped>} */
  async function ofMachines(load, head, word, others) {
    const begins = [...others].some((one) => fit(word, one) > 0);
    const meant = begins || !mayBeSlip(word) ? new Map() : near(word, [...head.known, ...unshared((await load("words")).split(" "))]);
    return { word, meant, known: begins || meant.size > 0 };
  }

  /** Parts that will be asked for: whoever then waits for one hears what is wrong with it. @param {BaybookLoad} load @param {string[]} names */
  const ahead = (load, names) => names.forEach((name) => load(name).catch(() => undefined));

  /** Names and things by the typed words. @param {BaybookFindHead} head @param {BaybookTyped[]} typed */
  function scoredBy(head, typed) {
    const fitting = [...head.known].filter((word) => typed.some((one) => fits(one, word) > 0)).map((word) => head.having.get(word));
    // Two words typed as one fit a name that has both of them side by side.
    const inNames = typed.some((one) => head.pairs.has(one.word)) ? head.names.keys() : fitting.flatMap((one) => one?.names ?? []);
    const none = /** @type {[number, number[]]} */ ([0, typed.map(() => 0)]);
    const names = head.names.map(() => none);
    for (const at of new Set(inNames)) {
      names[at] = named(head.names[at] ?? [], typed);
    }
    return { typed, names, things: things(head, names, new Set(fitting.flatMap((one) => one?.things ?? [])), typed) };
  }

  /** @param {[number, number][]} all score by number, the best first */
  const sorted = (all) => all.sort((one, other) => other[1] - one[1] || one[0] - other[0]);

  /** @param {BaybookFindHead} head @param {[number, number[]][]} names @param {Set<number>} beside things that have a word that fits @param {BaybookTyped[]} typedWords */
  function things(head, names, beside, typedWords) {
    const own = head.things.map((one, at) => {
      const name = names[one.named] ?? [0, []];
      return name[0] > 0 || beside.has(at) || name[1].some((fits) => fits > 0) ? thing(name, one.beside, typedWords) : 0;
    });
    /** @type {number[]} */
    const ofNames = [];
    head.things.forEach(({ named: name }, at) => {
      ofNames[name] = Math.max(ofNames[name] ?? 0, own[at] ?? 0);
    });
    // A procedure stands beside what it uses, and after it.
    const used = (/** @type {number} */ at) => Math.max(0, ...(head.uses.get(at) ?? []).map((name) => Math.floor(((ofNames[name] ?? 0) * USES) / 10)));
    const all = own.map((score, at) => /** @type {[number, number]} */ ([at, Math.max(score, used(at))]));
    return sorted(all.filter(([, score]) => score > 0));
  }

  /** @param {BaybookFitted} one @param {BaybookAsked} asked */
  function years(one, asked) {
    const of = (/** @type {[number, boolean]} */ [year, full]) => (one[6].some(([from, to]) => from <= year && year <= to) ? 300 : full ? -300 : 0);
    return asked.years.reduce((total, year) => total + of(year), 0);
  }

  /** Builds whose machine is named, machines, and the years one of them was made in. @param {BaybookRows} rows @param {BaybookTyped[]} typedWords @param {BaybookAsked} asked */
  function machines(rows, typedWords, asked) {
    /** @type {Map<number, number>} */
    const builds = new Map();
    /** @type {Map<string, [number, number]>} */
    const best = new Map();
    /** @type {Set<number>} */
    const made = new Set();
    for (const [at, one] of [...rows.fitted].sort((a, b) => a[0] - b[0])) {
      const own = serial(one, asked);
      if (own === 0 && !leads(one[3], one[5], typedWords)) {
        continue;
      }
      const { byName, whole } = machine(one, typedWords);
      for (const [year] of asked.years.filter(([year]) => one[6].some(([from, to]) => from <= year && year <= to))) {
        made.add(year);
      }
      const withYears = (/** @type {number} */ score) => Math.max(0, score + own + years(one, asked));
      builds.set(one[2], Math.max(builds.get(one[2]) ?? 0, withYears(byName)));
      if (withYears(whole) > (best.get(one[0])?.[1] ?? 0)) {
        best.set(one[0], [at, withYears(whole)]);
      }
    }
    const scored = sorted([...builds].filter(([, score]) => score > 0));
    const most = scored[0]?.[1] ?? 0;
    const meant = scored.filter(([, score]) => score * 3 >= most * 2);
    return { builds: meant.slice(0, most < BY_NAME ? BEGUN : NEAR), made, machines: sorted([...best.values()].filter(([, score]) => score > 0)) };
  }

  /** Codes, manuals and bench sums by score; a manual that has not every word counts half where a machine is named, a sum that fits less than two thirds as well as the first line not at all. @param {BaybookRows} rows @param {BaybookTyped[]} typedWords @param {boolean} byName @param {number} most what the first line scores of its own @returns {[number, number][]} */
  function records(rows, typedWords, byName, most) {
    return [...rows.fixed].flatMap(([at, one]) => {
      const score = leads(one[5], one[7], typedWords) ? fixed(one, typedWords) : 0;
      const lacks = byName && one[0] === "source" && typedWords.some((word) => bestWhole(word, wordsOf(one)) === 0);
      return score > 0 && (one[0] !== "sum" || score * 3 >= most * 2) ? [[at, lacks ? Math.floor(score / 2) : score]] : [];
    });
  }

  /** The units a bare number is tried in: those of the best things, or all where no word says which. @param {BaybookFindHead} head @param {[number, number][]} scored @param {boolean} byWords */
  function units(head, scored, byWords) {
    const own = scored.slice(0, THINGS).flatMap(([at]) => head.units[head.things[at]?.named ?? 0] ?? []);
    return [...new Set(byWords ? own : head.units.flat())];
  }

  /** The number of a build and what it is called; null for one that is not there. @param {BaybookLoad} load @param {string} build @returns {Promise<[number, string] | null>} */
  const place = (load, build) => load(`i-${key(build)}`).then((rows) => rows[build] ?? null, () => null);

  /** What each piece may mean as a value, and the rows that print it. @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookAsked} asked @param {Set<string>} own numbers that name a machine or its year @param {string[]} symbols @param {number} enough */
  async function numbers(load, head, asked, own, symbols, enough) {
    if (asked.quantities.length === 0 && asked.bare.every((number) => own.has(number))) {
      return { tried: asked.pieces.map(() => []), holding: asked.pieces.map(() => new Map()) };
    }
    await Promise.all([load("numbers"), load("held")]);
    const { values, held } = globalThis.baybookFindHeld;
    const tried = asked.pieces.map(([, piece]) => values(piece, own, symbols));
    return { tried, holding: await Promise.all(tried.map((one) => held(load, head, one, enough))) };
  }

  /** A query as it is understood, and what it leads to. @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookAsked} asked @param {string | null} last @param {number} limit @returns {Promise<BaybookSought>} */
  async function seek(load, head, asked, last, limit) {
    /** @type {BaybookRows} */
    const found = { fitted: new Map(), fixed: new Map(), last: null };
    const placing = last ? place(load, last) : null;
    if (asked.quantities.length > 0) {
      await load("held");
      ahead(load, asked.quantities.flatMap((value) => globalThis.baybookFindHeld.parts(value, head.values)));
    }
    const { typed: typedWords, names, things: scored } = await typed(load, head, asked, found, limit);
    const { builds, made, machines: ofMachines } = machines(found, typedWords, asked);
    const byName = (builds[0]?.[1] ?? 0) >= BY_NAME;
    ahead(load, pairs.likely(head, found, builds, scored, limit));
    const byWords = scored.length > 0 && typedWords.some((one) => !/^[0-9]+$/.test(one.word));
    found.last = await placing;
    const own = namesOf(asked, found, builds.length > 0, made);
    // A number alone counts more where it is the very number than anything else that prints it.
    const isAlone = asked.pieces.length === 1 && scored.length === 0 && builds.length === 0 && !found.last;
    const enough = isAlone ? Math.max(limit, LINES) : Infinity;
    const { tried, holding } = await numbers(load, head, asked, own, units(head, scored, byWords), enough);
    const ranks = await pairs.rows(load, head, { things: scored, builds, byName, held: holding, found }, limit);
    const alone = (/** @type {number} */ kind) => (/** @type {[number, number]} */ [at, score]) => ({ score, own: score, kind, waits: false, at, row: 0, build: null, isNear: false });
    ranks.push(...ofMachines.map(alone(1)), ...records(found, typedWords, byName, ranks[0]?.own ?? 0).map(alone(2)));
    ranks.sort(pairs.before);
    return { load, head, asked, found, typed: typedWords, names, things: scored, builds, byName, byWords, made, machines: ofMachines, tried, held: holding, ranks };
  }

  /** @param {BaybookSought} sought @param {number} limit @returns {Promise<BaybookAnswer>} */
  async function answer(sought, limit) {
    const { load, head, found, ranks } = sought;
    const lines = await Promise.all(ranks.slice(0, limit).map((rank) => pairs.told(load, head, found, rank)));
    const leftOut = sought.asked.pieces.flatMap(([text], at) => (pieceFits(sought, at) ? [] : [text]));
    if (leftOut.length > 0) {
      await load("said");
    }
    return { lines, leftOut, notes: leftOut.length > 0 ? await globalThis.baybookFindSaid.notes(sought) : [], sought };
  }

  /**
   * What answers, best first; what was typed and fits nothing: the lines are those of the rest; and notes on both.
   * `last` is the id of the build looked at last.
   * @param {BaybookLoad} load @param {string} text @param {string | null} last @param {number} limit
   */
  async function search(load, text, last, limit) {
    const reads = needsNumbers(text);
    ahead(load, reads ? ["numbers"] : []);
    const raw = await load("things");
    if (!isRead(raw)) {
      // To read the head takes a while: what the words lead to is asked for before.
      const leading = leadsOf(raw);
      ahead(load, words(text).filter((word) => isLed(leading, word)).map((word) => `w-${key(word)}`));
    }
    const head = headOf(raw);
    if (reads) {
      await load("numbers");
    }
    const sought = await seek(load, head, ask(text, false), last, limit);
    const own = await answer(sought, limit);
    // Inches that stand apart from their number may be the intake: `887 in lash`.
    const mayBeWords = sought.asked.pieces.some(([typedText, piece]) => piece.quantities.length > 0 && typedText.endsWith(" in"));
    if (own.leftOut.length === 0 || !mayBeWords) {
      return own;
    }
    const asWords = await answer(await seek(load, head, ask(text, true), last, limit), limit);
    return asWords.leftOut.length < own.leftOut.length ? asWords : own;
  }

  /** Reads the head of the index, which takes a while, before anything is typed. @param {BaybookLoad} load @returns {Promise<BaybookFindHead>} */
  const prepare = async (load) => headOf(await load("things"));

  globalThis.baybookFindSearch = { search, prepare };
})();
