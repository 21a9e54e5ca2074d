// @ts-check
/*
 * A value given in another unit, so that a shown window never reaches past the real one.
 *
 * The step is the largest power of ten not above one unit of the finest printed digit, taken in the
 * target unit. A minimum rounds up, a maximum down, a single value half to even.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, Refusal, Value, units } = compute;

  /** How many steps finer a window is rounded before it counts as too narrow to be shown. */
  const FINEST = 12;

  /**
   * A rounded number with the decimals of its step.
   * @param {BaybookRational} exact
   * @param {number} step
   */
  const shown = (exact, step) => exact.textAtLeast(Math.max(-step, 0));

  /**
   * Both limits rounded inward, on a finer step where they would cross.
   * @param {BaybookRational | null} min
   * @param {BaybookRational | null} max
   * @param {number} coarsest
   */
  function inward(min, max, coarsest) {
    for (let step = coarsest; step >= coarsest - FINEST; step -= 1) {
      const low = min?.roundedTo(Rational.tenTo(step), "up") ?? null;
      const high = max?.roundedTo(Rational.tenTo(step), "down") ?? null;
      if (low === null || high === null || low.compare(high) <= 0) {
        return { min: low && shown(low, step), max: high && shown(high, step) };
      }
    }
    return null;
  }

  /**
   * @param {BaybookShape["form"]} form
   * @param {string | null} min
   * @param {string | null} max
   * @param {BaybookUnit} to
   */
  function textOf(form, min, max, to) {
    if (min !== null && (form === "single" || form === "turn")) {
      return `${form === "turn" ? "+" : ""}${to.after(min)}`;
    }
    if (min !== null && max !== null) {
      return to.after(`${min}..${max}`);
    }
    if (min !== null) {
      return `${form === "over" ? "over" : "min"} ${to.after(min)}`;
    }
    return `${form === "under" ? "under" : "max"} ${to.after(max ?? "")}`;
  }

  /**
   * `value` in the unit `to`; throws a `Refusal`.
   * @param {BaybookValue} value
   * @param {BaybookUnit} to
   * @returns {BaybookConverted}
   */
  function converted(value, to) {
    const from = value.unit;
    if (!from.convertsTo(to)) {
      throw new Refusal(
        `\`${from.symbol}\` does not convert into \`${to.symbol}\``,
        `${from.symbol} is a unit of ${from.kindTitle()}, ${to.symbol} is a unit of ${to.kindTitle()}`,
      );
    }
    const ends = [value.min(), value.max()].map((limit) => limit && to.fromSi(from.toSi(limit.exact)));
    const [min = null, max = null] = ends;
    const step = value.ulp().times(from.ratioTo(to)).exponentNotAbove();
    const { form } = value.shape;
    const single = form === "single" || form === "turn";
    const nearest = single && min !== null ? shown(min.roundedTo(Rational.tenTo(step), "half-even"), step) : null;
    const ranged = single ? { min: nearest, max: nearest } : inward(min, max, step);
    if (ranged === null) {
      const message = `no rounded value in \`${to.symbol}\` lies within \`${value.text()}\``;
      throw new Refusal(message, "judge in the unit it is printed in");
    }
    const text = textOf(form, ranged.min, ranged.max, to);
    return { text, ...ranged, unit: to.symbol, exact: { min: min?.text() ?? null, max: max?.text() ?? null } };
  }

  /**
   * Runs what may refuse; a refusal becomes the JSON of one.
   * @template T
   * @param {() => T} answer
   * @returns {T | BaybookFailed}
   */
  compute.answered = (answer) => {
    try {
      return answer();
    } catch (problem) {
      if (problem instanceof Refusal) {
        return { error: { message: problem.message, help: problem.help } };
      }
      throw problem;
    }
  };

  compute.converted = converted;
  compute.convert = (text, unit) => compute.answered(() => converted(Value.parse(text), units.parse(unit)));
})();
