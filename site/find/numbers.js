// @ts-check
/*
 * Numbers in what was typed, held against the printed ones: in the parts of the index that hold their
 * kind and size, and agreeing strictly in either direction, as the compiler's `find/values.rs` and `find/held.rs`.
 */
(() => {
  "use strict";
  const { yearOf } = globalThis.baybookFindWords;
  const [WITH_UNIT, BARE, AIMED, SAME, EXACT] = [400, 250, 60, 50, 70];

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

  /** @param {BaybookValue} typed @param {BaybookValue} printed */
  const agree = (typed, printed) => strict(typed, printed) || strict(printed, typed);

  /** Those of the parts that there are: a heavy one is split by the second digit. @param {(digits: number) => string[] | null} of @param {Set<string>} names */
  function present(of, names) {
    const own = of(1) ?? [];
    const whole = own.filter((name) => names.has(name));
    return whole.length === own.length ? whole : [...whole, ...(of(2) ?? []).filter((name) => names.has(name))];
  }

  /** Names of the parts that a value is looked up in; one without a unit, by its figures alone. @param {BaybookValue} value @param {boolean} bare @param {Set<string>} names */
  function parts(value, bare, names) {
    if (bare) {
      const figures = (/** @type {number} */ digits) => between("", ends(value), digits);
      const exact = value.min()?.exact;
      // One of one figure lies in many parts, or in one that was made for it.
      const alone = exact && exact.sign() > 0 && (figures(2)?.length ?? 0) > 2 ? step(exact, 1) : [];
      const rounded = `r${alone[1]}e${alone[0]}`;
      return names.has(rounded) ? [`d-${rounded}`] : present(figures, names).map((name) => `d-${name}`);
    }
    const { kind } = value.unit;
    const all = buckets(value, 1)
      ? present((digits) => buckets(value, digits), names)
      : [...names].filter((name) => name.startsWith(kind) && /^[-0-9]/.test(name.slice(kind.length)));
    return all.map((name) => `v-${name}`);
  }

  /** Keys `thing row` of a text as `by_thing` of the compiler writes it. @param {string} text */
  function rows(text) {
    let thing = 0;
    return text.split(",").filter(Boolean).flatMap((one) => {
      const [step, of = "0"] = one.split(":");
      thing += Number(step);
      let row = 0;
      return of.split(" ").map((more) => `${thing} ${(row += Number(more))}`);
    });
  }

  /** Takes in who prints what agrees, of a number without a unit only who prints the unit too. @param {BaybookFindHead} head @param {BaybookValue} typed @param {boolean} bare @param {BaybookBucket} bucket @param {Map<string, number>} all by `thing row` */
  function hold(head, typed, bare, bucket, all) {
    const prints = (/** @type {string} */ row) => head.units[head.things[parseInt(row, 10)]?.named ?? 0]?.includes(typed.unit.symbol);
    const take = (/** @type {string} */ text, /** @type {number} */ score) =>
      rows(text).forEach((row) => (!bare || prints(row)) && all.set(row, Math.max(all.get(row) ?? 0, score)));
    const own = about(typed);
    for (const { value, size: { at, step, exact }, aimed, limits } of printed(bucket)) {
      if (value.unit.kind === typed.unit.kind && !(Math.abs(at - own.at) > step + own.step) && agree(typed, value)) {
        const counts = (bare ? BARE : WITH_UNIT) + (value.unit.symbol === typed.unit.symbol ? SAME : 0) + (own.exact.equals(exact) ? EXACT : 0);
        take(aimed, counts + AIMED);
        take(limits, counts);
      }
    }
  }

  /** @type {WeakMap<BaybookBucket, BaybookPrinted[]>} */
  const read = new WeakMap();

  /** What a part prints, read once. @param {BaybookBucket} bucket */
  function printed(bucket) {
    const { Value, units } = globalThis.baybookCompute;
    const all =
      read.get(bucket) ??
      Object.entries(bucket).flatMap(([symbol, numbers]) => {
        const unit = units.parse(symbol);
        return Object.entries(numbers).map(([number, [aimed, limits]]) => {
          const value = Value.parse(unit.after(number));
          return { value, size: about(value), aimed, limits };
        });
      });
    read.set(bucket, all);
    return all;
  }

  /** Where a value lies and how far what agrees with it may, roughly, so that few are held against each other exactly. @param {BaybookValue} value */
  function about(value) {
    const { unit } = value;
    const [at, last] = [unit.toSi((value.min() ?? value.max())?.exact ?? value.ulp()), value.ulp().times(unit.factor)];
    const rough = (/** @type {BaybookRational} */ { numer, denom }) => Number(numer) / Number(denom);
    return { at: rough(at), step: 2 * rough(last), exact: at };
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

  /** Numbers that name a machine or its year. @param {BaybookAsked} asked @param {BaybookRows} found @param {boolean} named @param {Set<number>} years */
  function names(asked, found, named, years) {
    const words = new Set(named ? [...found.fitted.values()].flatMap((one) => one[3].split(" ")) : []);
    return new Set(asked.bare.filter((number) => words.has(number) || years.has(yearOf(number)?.[0] ?? 0)));
  }

  /** The rows that print what a piece asks. @param {BaybookLoad} load @param {BaybookFindHead} head @param {BaybookTried[]} tried */
  async function held(load, head, tried) {
    /** @type {Map<string, number>} */
    const all = new Map();
    const sought = tried.map(([value, bare]) => parts(value, bare, head.values));
    const found = new Map(await Promise.all([...new Set(sought.flat())].map(async (name) => /** @type {const} */ ([name, await load(name)]))));
    tried.forEach(([value, bare], at) => sought[at]?.forEach((name) => hold(head, value, bare, found.get(name), all)));
    return all;
  }

  globalThis.baybookFindNumbers = { buckets, parts, rows, values, names, held };
})();
