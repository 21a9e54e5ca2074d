// @ts-check
/*
 * Numbers in what was typed, held against the printed ones: in the parts of the index that hold their
 * kind and size, and agreeing strictly in either direction, as the compiler's `find/values.rs`.
 */
(() => {
  "use strict";

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

  /**
   * Build and thing of each statement that prints it.
   * @param {BaybookValue} typed
   * @param {BaybookBucket} bucket
   * @param {number} counts
   * @param {Map<string, number>} all by `build thing`
   */
  function hold(typed, bucket, counts, all) {
    const { Value, units } = globalThis.baybookCompute;
    for (const [symbol, numbers] of Object.entries(bucket)) {
      const unit = units.parse(symbol);
      const same = unit.symbol === typed.unit.symbol ? 50 : 0;
      for (const [number, pairs] of Object.entries(numbers)) {
        if (agree(typed, Value.parse(unit.after(number)))) {
          for (const [build, thing] of pairs) {
            const key = `${build} ${thing}`;
            all.set(key, Math.max(all.get(key) ?? 0, counts + same));
          }
        }
      }
    }
  }

  globalThis.baybookFindNumbers = { parts, hold };
})();
