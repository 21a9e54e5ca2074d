// @ts-check
/*
 * Numbers in what was typed, held against the printed ones: in the parts of the index that hold their
 * kind and size, and agreeing strictly in either direction, as the compiler's `find/values.rs` and `find/held.rs`.
 */
(() => {
  "use strict";
  const { yearOf } = globalThis.baybookFindWords;
  const [WITH_UNIT, BARE, AIMED, SAME] = [400, 250, 60, 50];

  /** @param {BaybookRational} value @returns {[number, number]} power of ten and first digit */
  function step(value) {
    const exponent = value.exponentNotAbove();
    return [exponent, Number(value.over(globalThis.baybookCompute.Rational.tenTo(exponent)).floor())];
  }

  /** The buckets of a value; null where it may be zero. @param {BaybookValue} value @returns {string[] | null} */
  function buckets(value) {
    const { Rational } = globalThis.baybookCompute;
    const exact = value.min()?.exact;
    if (!exact) {
      return null;
    }
    const half = value.ulp().over(new Rational(2));
    const [low, high] = [value.unit.toSi(exact.minus(half)), value.unit.toSi(exact.plus(half))];
    if (low.sign() <= 0 && high.sign() >= 0) {
      return null;
    }
    const positive = low.sign() > 0;
    let [exponent, first] = step(positive ? low : high.size());
    const last = step(positive ? high : low.size());
    const all = [];
    while (exponent < last[0] || (exponent === last[0] && first <= last[1])) {
      all.push(`${value.unit.kind}${positive ? "" : "-"}${first}e${exponent}`);
      [exponent, first] = first === 9 ? [exponent + 1, 1] : [exponent, first + 1];
    }
    return all;
  }

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

  /** Names of the parts a value is looked up in. @param {BaybookValue} value @param {string[]} names */
  function parts(value, names) {
    const own = buckets(value);
    if (own) {
      return names.filter((name) => own.includes(name));
    }
    const { kind } = value.unit;
    return names.filter((name) => name.startsWith(kind) && /^[-0-9]/.test(name.slice(kind.length)));
  }

  /** Keys `thing row` of a text `3:0 2,8:1`. @param {string} text */
  const rows = (text) =>
    text.split(",").filter(Boolean).flatMap((one) => {
      const [thing, of = ""] = one.split(":");
      return of.split(" ").map((row) => `${thing} ${row}`);
    });

  /** Takes in who prints what agrees. @param {BaybookValue} typed @param {BaybookBucket} bucket @param {number} counts @param {Map<string, number>} all by `thing row` */
  function hold(typed, bucket, counts, all) {
    const { Value, units } = globalThis.baybookCompute;
    const take = (/** @type {string} */ text, /** @type {number} */ score) =>
      rows(text).forEach((row) => all.set(row, Math.max(all.get(row) ?? 0, score)));
    for (const [symbol, numbers] of Object.entries(bucket)) {
      const unit = units.parse(symbol);
      const same = unit.symbol === typed.unit.symbol ? SAME : 0;
      for (const [number, [aimed, limits]] of Object.entries(numbers)) {
        if (agree(typed, Value.parse(unit.after(number)))) {
          take(aimed, counts + same + AIMED);
          take(limits, counts + same);
        }
      }
    }
  }

  /** The values that a piece may mean, and what each counts. @param {BaybookPiece} piece @param {Set<string>} names @param {string[]} symbols @returns {[BaybookValue, number][]} */
  function values(piece, names, symbols) {
    /** @type {[BaybookValue, number][]} */
    const all = piece.quantities.map((value) => [value, WITH_UNIT]);
    for (const number of piece.bare.filter((one) => !names.has(one))) {
      for (const symbol of symbols) {
        try {
          const { Value, units } = globalThis.baybookCompute;
          all.push([Value.parse(units.parse(symbol).after(number)), BARE]);
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

  /** The rows that print what a piece asks. @param {BaybookLoad} load @param {BaybookFindHead} head @param {[BaybookValue, number][]} asked */
  async function held(load, head, asked) {
    /** @type {Map<string, number>} */
    const all = new Map();
    for (const [value, counts] of asked) {
      for (const bucket of await Promise.all(parts(value, head.values).map((name) => load(`v-${name}`)))) {
        hold(value, bucket, counts, all);
      }
    }
    return all;
  }

  globalThis.baybookFindNumbers = { buckets, rows, values, names, held };
})();
