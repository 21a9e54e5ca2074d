// @ts-check
/*
 * Numbers in what was typed, held against the printed ones: in the parts of the index that hold their
 * kind and size, and agreeing strictly in either direction, as the compiler's `find/values.rs` and `find/held.rs`.
 */
(() => {
  "use strict";
  const { rows, thingOf } = globalThis.baybookFindPlaces;
  const [WITH_UNIT, BARE, AIMED, SAME, EXACT] = [400, 250, 60, 50, 70];
  /** Units that a number without one is looked up in by each of them, where that takes fewer parts. */
  const FEW = 6;

  /** Power of ten and first digits of a positive number that is rounded to two figures; half a step is the one's below where it ends. @param {BaybookRational} value @param {number} digits @param {boolean} [ends] @returns {[number, number]} */
  function step(value, digits, ends = false) {
    const { Rational } = globalThis.baybookCompute;
    const [exponent, half] = [value.exponentNotAbove(), new Rational(1, 2)];
    const exact = value.over(Rational.tenTo(exponent - 1));
    const figures = Number(ends ? exact.minus(half).ceil() : exact.plus(half).floor());
    const [power, two] = figures < 100 ? [exponent, figures] : [exponent + 1, 10];
    return [power, digits === 1 ? Math.floor(two / 10) : two];
  }

  /** What a value may be: half of its last digit's step either way, in its own unit. @param {BaybookValue} value */
  function ends(value) {
    const exact = value.min()?.exact;
    const half = value.ulp().over(new globalThis.baybookCompute.Rational(2));
    return exact ? [exact.minus(half), exact.plus(half)] : [];
  }

  /**
   * Buckets by the first one or two digits of two figures; null where it may be zero.
   * @param {string} kind @param {BaybookRational[]} ends @param {number} digits @returns {string[] | null}
   */
  function between(kind, [low, high], digits) {
    if (!low || !high || (low.sign() <= 0 && high.sign() >= 0)) {
      return null;
    }
    const positive = low.sign() > 0;
    let [exponent, first] = step(positive ? low : high.size(), digits);
    const last = positive ? step(high, digits, true) : step(low.size(), digits);
    const least = 10 ** (digits - 1);
    const all = [];
    while (exponent < last[0] || (exponent === last[0] && first <= last[1])) {
      all.push(`${kind}${positive ? "" : "-"}${first}e${exponent}`);
      [exponent, first] = first === 10 * least - 1 ? [exponent + 1, least] : [exponent, first + 1];
    }
    return all;
  }

  /** The buckets of a value in SI. @param {BaybookValue} value @param {number} digits */
  const buckets = (value, digits) => between(value.unit.kind, ends(value).map((end) => value.unit.toSi(end)), digits);

  /** Whether one, rounded to the other's digits, is the other. @param {BaybookValue} one @param {BaybookValue} other */
  function strict(one, other) {
    if (!one.unit.convertsTo(other.unit) || one.shape.form !== other.shape.form) {
      return false;
    }
    const [from, to] = [one.min() ?? one.max(), other.min() ?? other.max()];
    const expected = from && other.unit.fromSi(one.unit.toSi(from.exact));
    return Boolean(expected && to && expected.roundedTo(other.ulp(), "half-even").equals(to.exact));
  }

  /** How near to the middle between two steps, or to each other, numbers are told apart exactly. */
  const EDGE = 1e-6;

  /** Whether either, rounded to the other's digits, is the other. @param {BaybookPrinted} typed @param {BaybookPrinted} printed */
  function agree(typed, printed) {
    const apart = Math.abs(typed.at - printed.at) / Math.max(typed.ulp, printed.ulp);
    if (apart > 0.5 + EDGE || typed.form !== printed.form || !typed.unit.convertsTo(printed.unit)) {
      return false;
    }
    return apart < 0.5 - EDGE || strict(typed.value(), printed.value()) || strict(printed.value(), typed.value());
  }

  /** @param {BaybookPrinted} one @param {BaybookPrinted} other */
  const isExact = (one, other) => Math.abs(one.at - other.at) / Math.min(one.ulp, other.ulp) < EDGE && one.exact().equals(other.exact());

  /** Those of the parts that there are: a heavy one is split by the second digit. @param {(digits: number) => string[] | null} of @param {Set<string>} names */
  function present(of, names) {
    const own = of(1) ?? [];
    const whole = own.filter((name) => names.has(name));
    return whole.length === own.length ? whole : [...whole, ...(of(2) ?? []).filter((name) => names.has(name))];
  }

  /** Names of the parts by figures alone that a value without a unit is looked up in. @param {BaybookValue} value @param {Set<string>} names */
  function bareParts(value, names) {
    const figures = (/** @type {number} */ digits) => between("", ends(value), digits);
    const exact = value.min()?.exact;
    // One of one figure lies in many parts, or in one that was made for it.
    const alone = exact && exact.sign() > 0 && (figures(2)?.length ?? 0) > 2 ? step(exact, 1) : [];
    const rounded = `r${alone[1]}e${alone[0]}`;
    return names.has(rounded) ? [`d-${rounded}`] : present(figures, names).map((name) => `d-${name}`);
  }

  /** Names of those with the very number. @param {BaybookValue} value @param {Set<string>} names */
  function exactParts(value, names) {
    const exact = value.min()?.exact;
    return exact ? present((digits) => between("", [exact, exact], digits), names).map((name) => `d-${name}`) : [];
  }

  /** Names of the parts that a value is looked up in by its unit. @param {BaybookValue} value @param {Set<string>} names */
  function parts(value, names) {
    const { kind } = value.unit;
    const all = buckets(value, 1)
      ? present((digits) => buckets(value, digits), names)
      : [...names].filter((name) => name.startsWith(kind) && /^[-0-9]/.test(name.slice(kind.length)));
    return all.map((name) => `v-${name}`);
  }

  /** Takes in who prints what agrees, of a number without a unit only who prints the unit too. @param {BaybookFindHead} head @param {BaybookPrinted} own @param {boolean} bare @param {BaybookBucket} bucket @param {Map<number, number>} all by row of a thing */
  function hold(head, own, bare, bucket, all) {
    const { unit } = own;
    const printing = head.printing(unit.symbol);
    const prints = (/** @type {number} */ place) => printing.has(head.things[thingOf(place)]?.named ?? 0);
    for (const one of printed(bucket).get(unit.kind) ?? []) {
      if (!agree(own, one) || (bare && mayBeZero(one, unit))) {
        continue;
      }
      const counts = (bare ? BARE : WITH_UNIT) + (one.unit.symbol === unit.symbol ? SAME : 0) + (isExact(own, one) ? EXACT : 0);
      const take = (/** @type {number[]} */ of, /** @type {number} */ score) =>
        of.forEach((place) => (!bare || prints(place)) && all.set(place, Math.max(all.get(place) ?? 0, score)));
      const [aimed, limits] = (one.rows ??= (one.printing ?? []).map(rows));
      take(aimed ?? [], counts + AIMED);
      take(limits ?? [], counts);
    }
  }

  /** Whether a printed number may be nought in a unit: then it has no figures there. @param {BaybookPrinted} one @param {BaybookUnit} unit */
  function mayBeZero(one, unit) {
    if (one.unit.offset.sign() === 0 && unit.offset.sign() === 0 && one.ulp < Math.abs(one.at)) {
      return false;
    }
    const [low, high] = ends(one.value()).map((end) => unit.fromSi(one.unit.toSi(end)));
    return !low || !high || (low.sign() <= 0 && high.sign() >= 0);
  }

  /** @type {WeakMap<BaybookBucket, Map<string, BaybookPrinted[]>>} */
  const read = new WeakMap();

  /** What a part prints, by kind, read once. @param {BaybookBucket} bucket */
  function printed(bucket) {
    const { Value, units } = globalThis.baybookCompute;
    const known = read.get(bucket);
    if (known) {
      return known;
    }
    /** @type {Map<string, BaybookPrinted[]>} */
    const all = new Map();
    for (const [symbol, numbers] of Object.entries(bucket)) {
      const unit = units.parse(symbol);
      const plain = Value.parse(unit.after("1")).shape.form;
      const own = Object.entries(numbers).map(([number, printing]) => {
        const isPlain = /^[0-9]+([.][0-9]+)?$/.test(number);
        const value = isPlain ? number : Value.parse(unit.after(number));
        return sized(value, unit, typeof value === "string" ? plain : value.shape.form, printing);
      });
      all.set(unit.kind, [...(all.get(unit.kind) ?? []), ...own]);
    }
    read.set(bucket, all);
    return all;
  }

  const rough = (/** @type {BaybookRational} */ { numer, denom }) => Number(numer) / Number(denom);

  /**
   * A number with where it lies in SI and how large a step of its last digit is there, roughly, so that few are held
   * against each other exactly.
   * @param {BaybookValue | string} told or a plain decimal number @param {BaybookUnit} unit @param {string} form @param {[string, string] | null} printing who prints it @returns {BaybookPrinted}
   */
  function sized(told, unit, form, printing) {
    const { Rational, Value } = globalThis.baybookCompute;
    /** @type {BaybookValue | null} */
    let read = typeof told === "string" ? null : told;
    const value = () => (read ??= Value.parse(unit.after(String(told))));
    const exact = () => unit.toSi((value().min() ?? value().max())?.exact ?? value().ulp());
    const factor = rough(unit.factor);
    const decimals = typeof told === "string" ? told.length - 1 - told.indexOf(".") : 0;
    const [at, ulp] =
      typeof told === "string"
        ? [rough(unit.toSi(new Rational(0))) + Number(told) * factor, (told.includes(".") ? 10 ** -decimals : 1) * factor]
        : [rough(exact()), rough(told.ulp()) * factor];
    return { unit, form, at, ulp, value, exact, printing, rows: null };
  }

  /** The values that a piece may mean, each with whether it has no unit. @param {BaybookPiece} piece @param {Set<string>} names @param {string[]} symbols @returns {BaybookTried[]} */
  function values(piece, names, symbols) {
    /** @type {BaybookTried[]} */
    const all = piece.quantities.map((value) => [value, false]);
    // A number that has no figure but noughts is still being typed.
    for (const number of piece.bare.filter((one) => !names.has(one) && /[1-9]/.test(one))) {
      for (const symbol of symbols) {
        try {
          const { Value, units } = globalThis.baybookCompute;
          all.push([Value.parse(units.parse(symbol).after(number)), true]);
        } catch {
          // No number of that unit, as a fraction of turns.
        }
      }
    }
    return all;
  }

  /** The rows that print one of the values, as the parts of these names tell. @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookTried[]} tried @param {string[][]} names */
  async function heldIn(load, head, tried, names) {
    /** @type {Map<number, number>} */
    const all = new Map();
    const found = new Map(await Promise.all([...new Set(names.flat())].map(async (name) => /** @type {const} */ ([name, await load(name)]))));
    for (const [at, [value, bare]] of tried.entries()) {
      const own = sized(value, value.unit, value.shape.form, null);
      names[at]?.forEach((name) => hold(head, own, bare, found.get(name), all));
    }
    return all;
  }

  /**
   * The rows that print what a piece asks, which is a quantity or a number in each unit that it may be meant in; where
   * it is a number alone, and enough rows have the very number, these.
   * @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookTried[]} tried @param {number} enough
   */
  async function held(load, head, tried, enough) {
    const names = head.values;
    const [first] = tried;
    const isBare = first !== undefined && tried.every(([, bare]) => bare);
    // Units do not matter to the figures of a number without one.
    const same = (/** @type {string[]} */ of) => heldIn(load, head, tried, tried.map(() => of));
    if (isBare && enough < Infinity) {
      const exact = await same(exactParts(first[0], names));
      if ([...exact.values()].filter((score) => score >= BARE + SAME + EXACT).length >= enough) {
        return exact;
      }
    }
    const byFigures = isBare ? bareParts(first[0], names) : [];
    if (isBare && tried.length > FEW) {
      return same(byFigures);
    }
    const byUnit = tried.map(([value]) => parts(value, names));
    const missing = (/** @type {string[]} */ of) => [...new Set(of)].filter((name) => !load.has?.(name)).length;
    return isBare && missing(byFigures) <= missing(byUnit.flat()) ? same(byFigures) : heldIn(load, head, tried, byUnit);
  }

  globalThis.baybookFindHeld = { buckets, parts, bareParts, exactParts, values, held };
})();
