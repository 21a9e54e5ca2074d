// @ts-check
/*
 * Things joined with the builds that state them: the rows that may answer, and the lines they make.
 */
(() => {
  "use strict";
  const { placeOf, thingOf, rowOf } = globalThis.baybookFindPlaces;
  const { partOf: statedIn, engineOf, rowsOf: statedBy, lineOf } = globalThis.baybookFindStated;
  const [THINGS, SPREAD, LINES, FIRST, LAST, PART, TOGETHER] = [60, 6, 12, 2, 200, 24, 6];

  /** How many rows of each thing of a name are listed. @param {number} scopes */
  const listedOf = (scopes) => Math.min(12, Math.max(4, Math.floor(24 / scopes)));

  /** The part that holds the first rows of a name. @param {BaybookFindHead} head @param {number} name */
  const firstOf = (head, name) => `f-${head.packs.filter((first) => first <= name).length - 1}`;

  /** The part of the index that a row stands in. @param {BaybookFindHead} head @param {number} thing @param {number} row */
  function partOf(head, thing, row) {
    const name = head.things[thing]?.named ?? 0;
    const listed = listedOf(head.scopes[name] ?? 1);
    if (row < FIRST) {
      return firstOf(head, name);
    }
    return row < listed ? `t-${name}` : `r-${thing}-${Math.floor((row - listed) / PART)}`;
  }

  /** The part with the next rows of a thing, if it has more than the first. @param {BaybookFindHead} head @param {number} thing */
  const nextPart = (head, thing) => (rowsOf(head, thing) > FIRST ? partOf(head, thing, FIRST) : null);

  /** How many rows of a thing are listed. @param {BaybookFindHead} head @param {number} thing */
  const rowsOf = (head, thing) => Math.min(listedOf(head.scopes[head.things[thing]?.named ?? 0] ?? 1), parseInt(head.rows[thing] ?? "0", 16));

  /** The things that are listed for all builds: those of the best names, as many as fill so many lines. @param {BaybookFindHead} head @param {[number, number][]} things @param {number} limit @returns {[number, number][]} */
  function listed(head, things, limit) {
    const top = things.slice(0, THINGS);
    const names = new Set();
    let [lines, least] = [0, Infinity];
    for (const [thing, score] of top) {
      const name = head.things[thing]?.named;
      if (!names.has(name)) {
        if (names.size === SPREAD || (lines >= most(limit) && score < least)) {
          continue;
        }
        names.add(name);
      }
      lines += rowsOf(head, thing);
      least = score;
    }
    return top.filter(([thing]) => names.has(head.things[thing]?.named));
  }

  /** Those that fit two thirds as well as the best, the best first: what does not lacks a word that this has. @param {BaybookRank[]} all */
  function worth(all) {
    const ranked = all.sort(before);
    return ranked.filter(({ own }) => own * 3 >= (ranked[0]?.own ?? 0) * 2);
  }

  /** The parts that tell of them. @param {BaybookFindHead} head @param {[number, number][]} each @param {number} limit */
  function spread(head, each, limit) {
    const firsts = each.map(([thing]) => partOf(head, thing, 0));
    return [...new Set([...firsts, ...waiting(head, each, worth(firstRows(head, each)), limit)])];
  }

  /** The first rows of things, as they are ranked. @param {BaybookFindHead} head @param {[number, number][]} each */
  const firstRows = (head, each) =>
    each.flatMap(([at, score]) => Array.from({ length: Math.min(FIRST, rowsOf(head, at)) }, (_, row) => rank(score, at, row)));

  /** A row as it is ranked. @param {number} score @param {number} at @param {number} row @param {boolean} [waits] @returns {BaybookRank} */
  const rank = (score, at, row, waits = false) => ({ score, own: score, kind: 0, waits, at, row, build: null, isNear: false });

  /** The parts with the rows that wait, as far as so many lines may need them beside what is known. @param {BaybookFindHead} head @param {[number, number][]} each @param {BaybookRank[]} known @param {number} limit */
  function waiting(head, each, known, limit) {
    let more = 0;
    const needed = each.filter(([thing, score]) => {
      const rows = rowsOf(head, thing);
      const place = rank(score, thing, FIRST, true);
      const isNeeded = rows > FIRST && known.filter((one) => before(one, place) < 0).length + more < limit;
      more += isNeeded ? rows - FIRST - known.filter((one) => one.at === thing && one.row >= FIRST).length : 0;
      return isNeeded;
    });
    return [...new Set(needed.map(([thing]) => partOf(head, thing, FIRST)))];
  }

  /** What a build is called that was named or looked at last. @param {BaybookRows} found @param {number} build */
  const calledOf = (found, build) => [...found.fitted.values()].find((one) => one[2] === build)?.[7] ?? (found.last?.[0] === build ? found.last[1] : "");

  /** What builds may state of things, each with what a line of it scores at most; the best first. @param {BaybookFindHead} head @param {BaybookRows} found @param {[number, number][]} builds @param {[number, number][]} things @returns {BaybookPair[]} */
  function pairs(head, found, builds, things) {
    const each = builds.map(([build, more]) => ({ build, more, engine: engineOf(calledOf(found, build)) }));
    const all = each.flatMap(({ build, more, engine }) => things.map(([thing, own]) => ({ build, name: statedIn(head, engine, thing), own, most: more + own })));
    return all.sort((one, other) => other.most - one.most);
  }

  /** The parts that so many lines need at least, and beside them a few that they are likely to need. @param {BaybookPair[]} all @param {number} limit */
  function firstParts(all, limit) {
    const names = new Set(all.slice(0, limit).map((one) => one.name));
    for (const { name } of all.filter(({ own }) => own * 3 >= (all[0]?.own ?? 0) * 2)) {
      if (names.size >= TOGETHER) {
        break;
      }
      names.add(name);
    }
    return names;
  }

  /** The parts with what named builds state, which words alone lead to. @param {BaybookFindHead} head @param {BaybookRows} found @param {[number, number][]} builds @param {[number, number][]} things @param {number} limit */
  const likely = (head, found, builds, things, limit) => [...firstParts(pairs(head, found, builds, things.slice(0, THINGS)), limit)];

  /** The best first; among equals, who waits comes after all others of its kind. @param {BaybookRank} a @param {BaybookRank} b */
  const before = (a, b) => b.score - a.score || a.kind - b.kind || Number(a.waits) - Number(b.waits) || a.at - b.at || a.row - b.row;

  /**
   * The parts that may still hold a line among so many of the best: one that fits two thirds as well as the first.
   * @param {BaybookPair[]} all @param {Set<string>} joined @param {BaybookRank[]} known @param {number} limit
   */
  function lacking(all, joined, known, limit) {
    const ranked = worth(known);
    const [first, least = 0] = [ranked[0], ranked[limit - 1]?.score];
    const may = (/** @type {BaybookPair} */ { name, own, most }) => !joined.has(name) && most >= least && (!first || most >= first.score || own * 3 >= first.own * 2);
    return new Set(all.filter(may).map((one) => one.name));
  }

  /** How many rows are told: what is said of a query is said of them, however few are asked for. @param {number} limit */
  const most = (limit) => Math.max(limit, LINES);

  /** The best of the rows that print a number, for whichever build. @param {Map<number, number>} numbers @param {Map<number, number>} ofThing @param {number} count */
  const firstOfAll = (numbers, ofThing, count) =>
    [...numbers]
      .map(([row, counts]) => /** @type {const} */ ([row, (ofThing.get(thingOf(row)) ?? 0) + counts]))
      .sort((one, other) => other[1] - one[1] || one[0] - other[0])
      .slice(0, count);

  /**
   * The rows that answer, the best first. Of the things that are listed for all builds the first rows are among them, and of
   * the rest what `limit` lines may need.
   * @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookJoin} join @param {number} limit
   */
  async function rows(load, head, { things, builds, byName, held, found }, limit) {
    const last = found.last?.[0] ?? null;
    const ofThing = new Map(things);
    const ofBuild = new Map(builds);
    /** @type {Map<number, number>} */
    const numbers = new Map();
    for (const [row, counts] of held.flatMap((one) => [...one])) {
      numbers.set(row, (numbers.get(row) ?? 0) + counts);
    }
    const countsMore = (/** @type {number} */ build) => (ofBuild.get(build) ?? 0) + (!byName && last === build ? LAST : 0);
    /** @type {Map<number, BaybookRank>} */
    const all = new Map();
    /** @param {number} place @param {number | null} build the first of those that state it where null @param {boolean} isNear whether it is joined for its own sake @param {boolean} waits */
    const add = (place, build, isNear, waits) => {
      const [at, row] = [thingOf(place), rowOf(place)];
      const own = (ofThing.get(at) ?? 0) + (numbers.get(place) ?? 0);
      if (own > 0) {
        const more = build === null ? 0 : countsMore(build);
        const best = all.get(place);
        // The first of those that state it comes before any other.
        const isFirst = build === null || (best && best.build !== null && build < best.build);
        if (!best || own + more > best.score || (own + more === best.score && isFirst)) {
          all.set(place, { score: own + more, own, kind: 0, waits, at, row, build, isNear });
        }
      }
    };
    const isTop = new Set(things.slice(0, THINGS).map(([thing]) => thing));
    const near = last === null ? builds : [...builds.filter(([build]) => build !== last), /** @type {[number, number]} */ ([last, countsMore(last)])];
    const each = byName ? [] : listed(head, things, limit);
    const alone = numbers.size === 0 && near.length === 0;
    const listing = Promise.all((alone ? spread(head, each, limit) : [...new Set(each.map(([thing]) => partOf(head, thing, 0)))]).map(load));
    // What a row of each thing scores at most.
    const mostOf = new Map(things.slice(0, THINGS));
    for (const [row, counts] of numbers) {
      const thing = thingOf(row);
      mostOf.set(thing, Math.max(mostOf.get(thing) ?? 0, (ofThing.get(thing) ?? 0) + counts));
    }
    const wanted = pairs(head, found, near, [...mostOf]);
    /** @type {Set<string>} */
    const joined = new Set();
    for (let next = firstParts(wanted, limit); next.size > 0; next = lacking(wanted, joined, [...all.values()], limit)) {
      const parts = new Map(await Promise.all([...next].map(async (name) => /** @type {[string, BaybookStated]} */ ([name, await load(name)]))));
      const pairsOf = new Map(wanted.filter(({ name }) => next.has(name)).map((one) => [`${one.name} ${one.build}`, one]));
      for (const { name, build } of pairsOf.values()) {
        for (const row of statedBy(/** @type {BaybookStated} */ (parts.get(name)), build)) {
          if (numbers.has(row) || isTop.has(thingOf(row))) {
            add(row, build, true, false);
          }
        }
      }
      next.forEach((name) => joined.add(name));
    }
    /** @param {BaybookPart[]} parts */
    const take = (parts) => {
      for (const [[thing], [, part]] of each.flatMap((one) => parts.map((part) => /** @type {const} */ ([one, part])))) {
        for (const [row, [, first]] of Object.entries(part[thing] ?? {})) {
          const place = placeOf(thing, Number(row));
          add(place, first, false, Number(row) >= FIRST && !numbers.has(place));
        }
      }
    };
    take(await listing);
    for (const [row] of firstOfAll(numbers, ofThing, most(limit))) {
      add(row, null, false, false);
    }
    take(await Promise.all(waiting(head, each, worth([...all.values()]), limit).map(load)));
    return worth([...all.values()]).slice(0, most(limit));
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

  /** A line of such a build. @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookRows} found @param {number} build @param {number} thing @param {number} row @returns {Promise<[string, string, number, number]>} what the build is called first */
  async function ownLine(load, head, found, build, thing, row) {
    const called = calledOf(found, build);
    const [text, builds, open] = lineOf(await load(statedIn(head, engineOf(called), thing)), placeOf(thing, row));
    return [called, text, open, builds];
  }

  /** The same of the first build that states it. @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookRank} rank @returns {Promise<[string, string, number, number]>} */
  async function sharedLine(load, head, { at, row }) {
    const [names, rowsOf] = await load(partOf(head, at, row));
    const [text, first, builds = 1, open = 0] = rowsOf[at][row];
    return [names[first], text, open, builds];
  }

  /** @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookRows} found @param {BaybookRank} rank @returns {Promise<BaybookFound>} */
  async function told(load, head, found, rank) {
    const { score, kind, at, row, build, isNear } = rank;
    const none = { where: {}, when: {}, open: false, score };
    if (kind === 0) {
      const thing = /** @type {BaybookThing} */ (head.things[at]);
      const line = isNear && build !== null ? ownLine(load, head, found, build, at, row) : sharedLine(load, head, rank);
      const [called, text, open, builds] = await line;
      const [id, machine] = titled(called);
      const { of, title, where, when } = thing;
      return { kind: thing.kind, build: id, builds, machine, of, title, where, when, text, open: open === 1, score, href: href(id, thing) };
    }
    if (kind === 1) {
      const one = /** @type {BaybookFitted} */ (found.fitted.get(at));
      const [id, machine] = titled(one[7]);
      return { ...none, kind: "machine", build: id, builds: 1, machine: null, of: one[0], title: one[1], text: machine, href: `machines/${one[0]}.html` };
    }
    const [sort, of, title, text, sheet] = /** @type {BaybookFixed} */ (found.fixed.get(at));
    const pages = { source: `sources/${sheet}.html`, codes: `codes/${sheet}.html`, code: `codes/${sheet}.html#code-${of}`, sum: `${sheet}.html#sum-${of}` };
    const page = pages[/** @type {keyof typeof pages} */ (sort)];
    return { ...none, kind: sort, build: null, builds: 0, machine: null, of, title, text, href: page };
  }

  globalThis.baybookFindPairs = { rows, before, listed, spread, likely, nextPart, calledOf, told };
})();
