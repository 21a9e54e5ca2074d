// @ts-check
/*
 * What of a query fits: a number only where the first statement prints it, a word only where some line has it; as
 * the compiler's `find/said.rs`.
 */
(() => {
  "use strict";
  const { best, bestWhole, wordsOf, wordsOfFitted } = globalThis.baybookFindMatching;
  const { yearOf } = globalThis.baybookFindWords;
  const { placeOf } = globalThis.baybookFindPlaces;

  /** Whether a piece of what was typed fits. @param {BaybookSought} sought @param {number} at */
  function fits(sought, at) {
    const piece = sought.asked.pieces[at]?.[1];
    if (!piece || piece.refused !== null) {
      return false;
    }
    const has = isHeld(sought, at) || isMade(sought, piece) || hasSerial(sought, piece);
    return has || typedOf(sought, piece).some((typed) => covers(sought, typed));
  }

  /** Numbers of the typed words that a piece holds. @param {BaybookSought} sought @param {BaybookPiece} piece */
  const typedOf = (sought, piece) => sought.typed.flatMap((one, at) => (piece.words.some((word) => one.word.includes(word)) ? [at] : []));

  /** True if the first statement prints the number, for a build that is meant if one is. @param {BaybookSought} sought @param {number} at */
  function isHeld({ ranks, head, held, builds, byName }, at) {
    const first = ranks.find((rank) => rank.kind === 0 && head.things[rank.at]?.kind === "statement");
    if (!first || !held[at]?.has(placeOf(first.at, first.row))) {
      return false;
    }
    return !byName || meantBuilds(builds).includes(first.build ?? -1);
  }

  /** Builds that are named, and not only in part. @param {[number, number][]} builds */
  function meantBuilds(builds) {
    const most = builds[0]?.[1] ?? 0;
    return builds.filter(([, score]) => score >= most - Math.floor(most / 4)).map(([build]) => build);
  }

  /** What a serial number counts for a machine that has it. @param {BaybookFitted} one @param {BaybookPiece} asked */
  function serial(one, asked) {
    const has = one[6].filter((span) => span[2]).some(([, , prefix, from, to]) =>
      asked.serials.some((text) => {
        const digits = text.startsWith(prefix) ? text.slice(prefix.length) : "";
        return /^[0-9]+$/.test(digits) && from <= Number(digits) && Number(digits) <= to;
      }),
    );
    return has ? 2000 : 0;
  }

  /** Numbers that name a machine or its year. @param {BaybookAsked} asked @param {BaybookRows} found @param {boolean} named @param {Set<number>} years */
  function namesOf(asked, found, named, years) {
    const words = new Set(named ? [...found.fitted.values()].flatMap((one) => one[3].split(" ")) : []);
    return new Set(asked.bare.filter((number) => words.has(number) || years.has(yearOf(number)?.[0] ?? 0)));
  }

  /** @param {BaybookSought} sought @param {BaybookPiece} piece */
  const isMade = (sought, piece) => piece.years.some(([year]) => sought.made.has(year));

  /** @param {BaybookSought} sought @param {BaybookPiece} piece */
  const hasSerial = (sought, piece) => piece.serials.length > 0 && [...sought.found.fitted.values()].some((one) => serial(one, piece) > 0);

  /** True if a typed word is in some line; in a code or a manual only if that has every word. @param {BaybookSought} sought @param {number} typed */
  function covers(sought, typed) {
    const known = sought.typed.flatMap((one, at) => (one.known ? [at] : []));
    return sought.ranks.some(({ kind, at }) => inLine(sought, kind, at, typed) && (kind < 2 || known.every((one) => inLine(sought, kind, at, one))));
  }

  /** @param {BaybookSought} sought @param {number} kind @param {number} at @param {number} typed */
  function inLine({ head, names, found, typed: all }, kind, at, typed) {
    const word = /** @type {BaybookTyped} */ (all[typed]);
    if (kind === 0) {
      const thing = head.things[at];
      return Boolean(thing) && ((names[thing?.named ?? 0]?.[1][typed] ?? 0) > 0 || best(word, thing?.beside ?? []) > 0);
    }
    const [fitted, fixed] = [found.fitted.get(at), found.fixed.get(at)];
    return kind === 1 ? Boolean(fitted && bestWhole(word, wordsOfFitted(fitted)) > 0) : Boolean(fixed && bestWhole(word, wordsOf(fixed)) > 0);
  }

  globalThis.baybookFindFits = { fits, typedOf, isHeld, hasSerial, inLine, meantBuilds, serial, namesOf };
})();
