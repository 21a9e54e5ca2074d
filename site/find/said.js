// @ts-check
/*
 * What is said beside the lines: why something is left out, what is near it, how the rest was understood; as the
 * compiler's `find/said.rs`. Loaded only where something is left out.
 */
(() => {
  "use strict";
  const { apart, unshared } = globalThis.baybookFindWords;
  const { typedOf, fits, isHeld, hasSerial, inLine, meantBuilds } = globalThis.baybookFindFits;
  const { all: statedRows, engineOf } = globalThis.baybookFindStated;
  const { calledOf } = globalThis.baybookFindPairs;
  const { rows: rowsIn, thingOf } = globalThis.baybookFindPlaces;
  const OFFERED = 3;
  /** Parts that are loaded together. */
  const TOGETHER = 4;

  /** A note on each piece that is left out, and one on the rest. @param {BaybookSought} sought */
  async function notes(sought) {
    /** @type {string[]} */
    const all = [];
    /** @type {[string, string][]} */
    const fitting = [];
    for (const [at, [text, piece]] of sought.asked.pieces.entries()) {
      const [quantity] = piece.quantities;
      const does = fits(sought, at);
      const means = does ? meaning(sought, at, piece) : quantity ? quantity.unit.kindTitle() : null;
      if (!does) {
        all.push(await why(sought, at, text, piece));
      }
      if (means !== null) {
        fitting.push([text, means]);
      }
    }
    return fitting.length > 0 ? [...all, understood(fitting)] : all;
  }

  /** @param {[string, string][]} fitting text and meaning of each piece */
  function understood(fitting) {
    /** @type {Map<string, string[]>} */
    const meanings = new Map();
    fitting.forEach(([text, means]) => meanings.set(means, [...(meanings.get(means) ?? []), text]));
    return `understood: ${[...meanings].map(([means, texts]) => `\`${texts.join(" ")}\` as ${means}`).join(", ")}`;
  }

  /** Why a piece is left out. @param {BaybookSought} sought @param {number} at @param {string} text @param {BaybookPiece} piece */
  async function why(sought, at, text, piece) {
    if (piece.refused) {
      return `\`${text}\` is not taken: ${piece.refused}`;
    }
    const own = typedOf(sought, piece);
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

  /** True if it begins as the serial numbers of some machine do, and goes on in figures. @param {BaybookSought} sought @param {BaybookPiece} piece */
  const isLikeSerial = (sought, piece) =>
    [...sought.found.fitted.values()].some((one) =>
      one[6].some(([, , prefix]) => prefix !== "" && piece.serials.some((serial) => serial.startsWith(prefix) && /^[0-9]+$/.test(serial.slice(prefix.length)))),
    );

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
    const all = new Set([...head.known, ...unshared((await load("words")).split(" "))]);
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
    // In units of everything each number is near some other.
    const meant = (sought.tried[at] ?? []).filter(([, bare]) => !bare || sought.byWords);
    const all = await Promise.all(meant.map(([value]) => nearest(sought, value)));
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
    const { Rational } = globalThis.baybookCompute;
    const limit = typed.min();
    if (!limit) {
      return null;
    }
    const exact = typed.unit.toSi(limit.exact);
    const isMeant = await meant(sought);
    const parts = around(head.values, typed).map((name) => ({ name, apart: gap(name.slice(typed.unit.kind.length), exact) }));
    parts.sort((a, b) => a.apart.compare(b.apart));
    /** @type {BaybookNear[]} */
    const all = [];
    // From the nearest on, until what is found is nearer than what the next may print.
    while (parts[0] && !(all[0] && all[0].apart.compare(parts[0].apart) < 0)) {
      const next = await Promise.all(parts.splice(0, TOGETHER).map(({ name }) => load(`v-${name}`)));
      all.push(...next.flatMap((bucket) => near(bucket, exact, isMeant, head)));
      all.sort(nearer);
    }
    const [first] = all;
    return first && first.apart.times(new Rational(2)).compare(exact.size()) <= 0 ? first : null;
  }

  /** How far from a number what a part prints lies at least. @param {string} figures @param {BaybookRational} exact */
  function gap(figures, exact) {
    const { Rational } = globalThis.baybookCompute;
    const [digits = "", power = ""] = figures.split("e");
    const [from, to] = digits.length === 1 ? [`${digits}0`, `${digits}9`] : [digits, digits];
    const half = new Rational(1, 2);
    const end = (/** @type {BaybookRational} */ two) => two.times(Rational.tenTo(Number(power) - 1));
    const [low, high] = [end(new Rational(Number(from)).minus(half)), end(new Rational(Number(to)).plus(half))];
    return exact.compare(low) < 0 ? low.minus(exact) : exact.compare(high) > 0 ? exact.minus(high) : new Rational(0);
  }

  /** What a part prints of what is meant, each with how far it is from a number. @param {BaybookBucket} bucket @param {BaybookRational} exact @param {(row: number) => boolean} isMeant @param {BaybookFindHead} head */
  function near(bucket, exact, isMeant, head) {
    const { Value, units } = globalThis.baybookCompute;
    /** @type {BaybookNear[]} */
    const all = [];
    for (const [symbol, numbers] of Object.entries(bucket)) {
      const unit = units.parse(symbol);
      for (const [text, printing] of Object.entries(numbers)) {
        const row = printing.flatMap(rowsIn).find(isMeant);
        const value = row === undefined ? null : Value.parse(unit.after(text)).min();
        if (row !== undefined && value) {
          const title = head.things[thingOf(row)]?.title ?? "";
          all.push({ apart: unit.toSi(value.exact).minus(exact).size(), number: unit.after(text), title });
        }
      }
    }
    return all;
  }

  /** Whether a row is of what is meant: of a thing that fits half as well as the best, in a build that is named. @param {BaybookSought} sought */
  async function meant({ load, head, found, things, builds, byName }) {
    const least = Math.ceil((things[0]?.[1] ?? 0) / 2);
    const fits = new Set(things.filter(([, score]) => score >= least).map(([thing]) => thing));
    const rows = byName ? await Promise.all(meantBuilds(builds).map((build) => statedRows(load, head, engineOf(calledOf(found, build)), build))) : [];
    const stated = new Set(rows.flat());
    return (/** @type {number} */ row) => (least === 0 || fits.has(thingOf(row))) && (!byName || stated.has(row));
  }

  /** The buckets of a value, and the next that there are on both sides, by the first digit. @param {Set<string>} names @param {BaybookValue} typed */
  function around(names, typed) {
    const { kind } = typed.unit;
    const place = (/** @type {string} */ name) => {
      const found = name.startsWith(kind) ? /^([1-9])[0-9]?e(-?[0-9]+)$/.exec(name.slice(kind.length)) : null;
      return found ? Number(found[2]) * 10 + Number(found[1]) : null;
    };
    const own = (globalThis.baybookFindHeld.buckets(typed, 1) ?? []).flatMap((name) => place(name) ?? []);
    if (own.length === 0) {
      return [];
    }
    const places = [...names].map((name) => ({ name, at: place(name) }));
    const steps = places.flatMap(({ at }) => at ?? []);
    const below = Math.max(...steps.filter((at) => at < Math.min(...own)));
    const above = Math.min(...steps.filter((at) => at > Math.max(...own)));
    return places.filter(({ at }) => at !== null && (at === below || at === above || own.includes(at))).map(({ name }) => name);
  }

  globalThis.baybookFindSaid = { notes };
})();
