// @ts-check
/*
 * What is said beside the lines: what was typed and fits nothing, what is near it, how the rest was understood;
 * as the compiler's `find/said.rs`. A number fits only where the first statement prints it.
 */
(() => {
  "use strict";
  const { apart } = globalThis.baybookFindWords;
  const { best, bestWhole, wordsOf } = globalThis.baybookFindMatching;
  const OFFERED = 3;

  /** What is left out, and the notes. @param {BaybookSought} sought */
  async function said(sought) {
    /** @type {{ leftOut: string[], notes: string[] }} */
    const { leftOut, notes } = { leftOut: [], notes: [] };
    /** @type {[string, string][]} */
    const fitting = [];
    for (const [at, [text, piece]] of sought.asked.pieces.entries()) {
      const reason = await why(sought, at, text, piece);
      const [quantity] = piece.quantities;
      const means = reason === null ? meaning(sought, at, piece) : quantity ? quantity.unit.kindTitle() : null;
      if (reason !== null) {
        leftOut.push(text);
        notes.push(reason);
      }
      if (means !== null) {
        fitting.push([text, means]);
      }
    }
    if (leftOut.length > 0 && fitting.length > 0) {
      notes.push(understood(fitting));
    }
    return { leftOut, notes };
  }

  /** @param {[string, string][]} fitting text and meaning of each piece */
  function understood(fitting) {
    /** @type {Map<string, string[]>} */
    const meanings = new Map();
    fitting.forEach(([text, means]) => meanings.set(means, [...(meanings.get(means) ?? []), text]));
    return `understood: ${[...meanings].map(([means, texts]) => `\`${texts.join(" ")}\` as ${means}`).join(", ")}`;
  }

  /** Numbers of the typed words that a piece holds. @param {BaybookSought} sought @param {BaybookPiece} piece */
  const typedOf = (sought, piece) => sought.typed.flatMap((one, at) => (piece.words.some((word) => one.word.includes(word)) ? [at] : []));

  /** Why a piece is left out; null if it fits. @param {BaybookSought} sought @param {number} at @param {string} text @param {BaybookPiece} piece */
  async function why(sought, at, text, piece) {
    if (piece.refused) {
      return `\`${text}\` is not taken: ${piece.refused}`;
    }
    const own = typedOf(sought, piece);
    if (isHeld(sought, at) || isMade(sought, piece) || hasSerial(sought, piece) || own.some((typed) => covers(sought, typed))) {
      return null;
    }
    if (isLikeSerial(sought, piece)) {
      return `\`${text}\` lies in no span of serial numbers, and narrows nothing`;
    }
    const made = piece.years[0]?.[1] ? years(sought) : null;
    if (made !== null) {
      return `nothing found was made in \`${text}\`; ${made}`;
    }
    if (own.some((typed) => sought.typed[typed]?.known)) {
      return `\`${text}\` is known, but not with the rest`;
    }
    return piece.words.length === 0 ? number(sought, at, text) : word(sought, text, piece);
  }

  /** True if the first statement prints the number, for a build that is meant if one is. @param {BaybookSought} sought @param {number} at */
  function isHeld({ ranks, head, held, builds, byName }, at) {
    const first = ranks.find((rank) => rank.kind === 0 && head.things[rank.at]?.kind === "statement");
    if (!first || !held[at]?.has(`${first.at} ${first.row}`)) {
      return false;
    }
    return !byName || meantBuilds(builds).includes(first.build ?? -1);
  }

  /** Builds that are named, and not only in part. @param {[number, number][]} builds */
  function meantBuilds(builds) {
    const most = builds[0]?.[1] ?? 0;
    return builds.filter(([, score]) => score >= most - Math.floor(most / 4)).map(([build]) => build);
  }

  /** @param {BaybookSought} sought @param {BaybookPiece} piece */
  const isMade = (sought, piece) => piece.years.some(([year]) => sought.made.has(year));

  /** @param {BaybookSought} sought @param {BaybookPiece} piece */
  const hasSerial = (sought, piece) => piece.serials.length > 0 && [...sought.found.fitted.values()].some((one) => sought.serial(one, piece) > 0);

  /** True if it begins as the serial numbers of some machine do, and goes on in figures. @param {BaybookSought} sought @param {BaybookPiece} piece */
  const isLikeSerial = (sought, piece) =>
    [...sought.found.fitted.values()].some((one) =>
      one[6].some(([, , prefix]) => prefix !== "" && piece.serials.some((serial) => serial.startsWith(prefix) && /^[0-9]+$/.test(serial.slice(prefix.length)))),
    );

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
    return kind === 1 ? Boolean(fitted && bestWhole(word, `${fitted[3]} ${fitted[4]}`.split(" ")) > 0) : Boolean(fixed && bestWhole(word, wordsOf(fixed)) > 0);
  }

  /** When the machine was made that fits best. @param {BaybookSought} sought */
  function years({ machines, found }) {
    const one = found.fitted.get(machines[0]?.[0] ?? -1);
    return one ? `${one[1]}: ${Math.min(...one[6].map(([from]) => from))}–${Math.max(...one[6].map(([, to]) => to))}` : null;
  }

  /** What a piece that fits was taken for. @param {BaybookSought} sought @param {number} at @param {BaybookPiece} piece */
  function meaning(sought, at, piece) {
    const [quantity] = piece.quantities;
    if (quantity) {
      return quantity.unit.kindTitle();
    }
    const own = typedOf(sought, piece);
    const has = (/** @type {number} */ kind, /** @type {number} */ line) => own.some((typed) => inLine(sought, kind, line, typed));
    const [first, machine] = [sought.ranks[0], sought.machines[0]];
    if (first && has(first.kind, first.at)) {
      return title(sought, first.kind, first.at);
    }
    if (machine && has(1, machine[0])) {
      return title(sought, 1, machine[0]);
    }
    if (hasSerial(sought, piece)) {
      return "a serial number";
    }
    const year = piece.years.find(([one]) => sought.made.has(one));
    return year ? `the year ${year[0]}` : isHeld(sought, at) ? "a number" : null;
  }

  /** @param {BaybookSought} sought @param {number} kind @param {number} at */
  const title = ({ head, found }, kind, at) => (kind === 0 ? head.things[at]?.title : kind === 1 ? found.fitted.get(at)?.[1] : found.fixed.get(at)?.[2]) ?? null;

  /** A word that nothing has, and those near it. @param {BaybookSought} sought @param {string} text @param {BaybookPiece} piece */
  async function word({ load, head }, text, piece) {
    const all = new Set([...head.known, ...(await load("words")).split(" ")]);
    /** @type {Map<string, number>} */
    const found = new Map();
    for (const one of all) {
      const least = Math.min(...piece.words.map((typed) => apart(typed, one) ?? Infinity));
      if (least < Infinity) {
        found.set(one, least);
      }
    }
    const order = (/** @type {string} */ a, /** @type {string} */ b) => (a < b ? -1 : a > b ? 1 : 0);
    const near = [...found].sort((a, b) => a[1] - b[1] || order(a[0], b[0])).slice(0, OFFERED);
    return `nothing fits \`${text}\`${near.length > 0 ? `; near it: ${near.map(([one]) => `\`${one}\``).join(", ")}` : ""}`;
  }

  /** A number that is not printed, or not with the rest, and the nearest one that is. @param {BaybookSought} sought @param {number} at @param {string} text */
  async function number(sought, at, text) {
    const all = [];
    for (const [value] of sought.tried[at] ?? []) {
      all.push(await nearest(sought, value));
    }
    const [near] = all.flatMap((one) => (one ? [one] : [])).sort(nearer);
    if ((sought.held[at]?.size ?? 0) === 0) {
      return `nothing prints \`${text}\`${near ? `; nearest: \`${near.number}\`, ${near.title}` : ""}`;
    }
    if (near?.apart.sign() === 0) {
      return `\`${text}\` is printed under ${near.title}, but not with the rest`;
    }
    return `\`${text}\` is printed, but not with the rest${near ? `; nearest: \`${near.number}\`, ${near.title}` : ""}`;
  }

  /** @param {BaybookNear} one @param {BaybookNear} other */
  const nearer = (one, other) => one.apart.compare(other.apart) || (one.number < other.number ? -1 : one.number > other.number ? 1 : one.title < other.title ? -1 : 1);

  /** The nearest printed number of what is meant, half the number itself away at most. @param {BaybookSought} sought @param {BaybookValue} typed @returns {Promise<BaybookNear | null>} */
  async function nearest(sought, typed) {
    const { load, head } = sought;
    const { Value, Rational, units } = globalThis.baybookCompute;
    const limit = typed.min();
    if (!limit) {
      return null;
    }
    const exact = typed.unit.toSi(limit.exact);
    const isMeant = await meant(sought);
    /** @type {BaybookNear[]} */
    const all = [];
    for (const bucket of await Promise.all(around(head.values, typed).map((name) => load(`v-${name}`)))) {
      for (const [symbol, numbers] of Object.entries(/** @type {BaybookBucket} */ (bucket))) {
        const unit = units.parse(symbol);
        for (const [text, printing] of Object.entries(numbers)) {
          const row = printing.flatMap(globalThis.baybookFindNumbers.rows).find(isMeant);
          const value = row === undefined ? null : Value.parse(unit.after(text)).min();
          if (row !== undefined && value) {
            const title = head.things[Number(row.split(" ")[0])]?.title ?? "";
            all.push({ apart: unit.toSi(value.exact).minus(exact).size(), number: unit.after(text), title });
          }
        }
      }
    }
    const [first] = all.sort(nearer);
    return first && first.apart.times(new Rational(2)).compare(exact.size()) <= 0 ? first : null;
  }

  /** Whether a row is of what is meant: of a thing that fits half as well as the best, in a build that is named. @param {BaybookSought} sought */
  async function meant({ load, things, builds, byName }) {
    const least = Math.ceil((things[0]?.[1] ?? 0) / 2);
    const fits = new Set(things.filter(([, score]) => score >= least).map(([thing]) => String(thing)));
    const texts = byName ? await Promise.all(meantBuilds(builds).map((build) => load(`b-${build}`))) : [];
    const stated = new Set(texts.flatMap(globalThis.baybookFindNumbers.rows));
    return (/** @type {string} */ row) => (least === 0 || fits.has(row.split(" ")[0] ?? "")) && (!byName || stated.has(row));
  }

  /** The buckets of a value, and the next that there are on both sides. @param {string[]} names @param {BaybookValue} typed */
  function around(names, typed) {
    const { kind } = typed.unit;
    const place = (/** @type {string} */ name) => {
      const found = name.startsWith(kind) ? /^([1-9])e(-?[0-9]+)$/.exec(name.slice(kind.length)) : null;
      return found ? Number(found[2]) * 10 + Number(found[1]) : null;
    };
    const own = (globalThis.baybookFindNumbers.buckets(typed) ?? []).flatMap((name) => place(name) ?? []);
    const steps = names.flatMap((name) => (place(name) === null ? [] : [{ name, at: /** @type {number} */ (place(name)) }])).sort((a, b) => a.at - b.at);
    const [from, to] = [own[0], own.at(-1)];
    if (from === undefined || to === undefined) {
      return [];
    }
    const [below, above] = [steps.filter(({ at }) => at < from).at(-1), steps.find(({ at }) => at > to)];
    return [below, ...steps.filter(({ at }) => own.includes(at)), above].flatMap((one) => (one ? [one.name] : []));
  }

  globalThis.baybookFindSaid = { said };
})();
