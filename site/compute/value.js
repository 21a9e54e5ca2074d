// @ts-check
/*
 * One printed value: `0.20 ± 0.05 mm`, `min 9.6 V`, `1/4 in`.
 *
 * Invariant: a value exists only as read from a text, with its digits; `text()` writes it one way, and
 * reading that again gives the same value.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational } = compute;

  class Value {
    /**
     * @param {BaybookShape} shape
     * @param {BaybookUnit} unit
     */
    constructor(shape, unit) {
      this.shape = shape;
      this.unit = unit;
    }

    /**
     * Reads a value in any accepted spelling; throws a `Refusal`.
     * @param {string} text
     */
    static parse(text) {
      const { shape, unit } = compute.grammar.read(text);
      return new Value(shape, unit);
    }

    /** The value written our one way. */
    text() {
      const { shape, unit } = this;
      switch (shape.form) {
        case "single":
          return unit.after(shape.number.text);
        case "turn":
          return `+${unit.after(shape.number.text)}`;
        case "tolerance": {
          const { nominal, plus, minus } = shape;
          const even = plus.text === minus.text && plus.exact.equals(minus.exact);
          const tolerance = even ? `± ${plus.text}` : `+${plus.text}/-${minus.text}`;
          return unit.after(`${nominal.text} ${tolerance}`);
        }
        case "percent-tolerance":
          return `${unit.after(shape.nominal.text)} ± ${shape.percent.text} %`;
        case "range":
          return unit.after(`${shape.min.text}..${shape.max.text}`);
        default:
          return `${shape.form} ${unit.after(shape.number.text)}`;
      }
    }

    /**
     * The least it allows; a single value allows itself alone.
     * @returns {BaybookLimit | null}
     */
    min() {
      const { shape } = this;
      switch (shape.form) {
        case "range":
          return this.#limit(shape.min.exact, true);
        case "tolerance":
          return this.#limit(shape.nominal.exact.minus(shape.minus.exact), true);
        case "percent-tolerance":
          return this.#limit(shape.nominal.exact.minus(share(shape.nominal, shape.percent)), true);
        case "max":
        case "under":
          return null;
        default:
          return this.#limit(shape.number.exact, shape.form !== "over");
      }
    }

    /**
     * The most it allows; a single value allows itself alone.
     * @returns {BaybookLimit | null}
     */
    max() {
      const { shape } = this;
      switch (shape.form) {
        case "range":
          return this.#limit(shape.max.exact, true);
        case "tolerance":
          return this.#limit(shape.nominal.exact.plus(shape.plus.exact), true);
        case "percent-tolerance":
          return this.#limit(shape.nominal.exact.plus(share(shape.nominal, shape.percent)), true);
        case "min":
        case "over":
          return null;
        default:
          return this.#limit(shape.number.exact, shape.form !== "under");
      }
    }

    /** The value aimed at: of a single value itself, of a tolerance its middle number. */
    nominal() {
      const { shape } = this;
      if (shape.form === "single" || shape.form === "turn") {
        return shape.number.exact;
      }
      return shape.form === "tolerance" || shape.form === "percent-tolerance" ? shape.nominal.exact : null;
    }

    /** The printed numbers that are in the value's unit: all but a percentage. */
    numbersInUnit() {
      const { shape } = this;
      switch (shape.form) {
        case "range":
          return [shape.min, shape.max];
        case "tolerance":
          return [shape.nominal, shape.plus, shape.minus];
        case "percent-tolerance":
          return [shape.nominal];
        default:
          return [shape.number];
      }
    }

    /** One unit of the finest digit printed in the value's unit. */
    ulp() {
      const [first = Rational.tenTo(0), ...more] = this.numbersInUnit().map((number) => number.ulp);
      return more.reduce((least, ulp) => (ulp.compare(least) < 0 ? ulp : least), first);
    }

    /** The most decimals printed in the value's unit. */
    decimals() {
      return Math.max(0, ...this.numbersInUnit().map((number) => number.decimals));
    }

    /**
     * @param {BaybookRational} exact
     * @param {boolean} inclusive
     * @returns {BaybookLimit}
     */
    #limit(exact, inclusive) {
      // A fraction asks for no decimals of its own.
      const decimal = this.numbersInUnit().filter((number) => !number.fraction);
      const decimals = Math.max(0, ...decimal.map((number) => number.decimals));
      return { exact, inclusive, text: exact.textAtLeast(decimals) };
    }
  }

  /**
   * `percent` of `nominal`, as a distance.
   * @param {BaybookNumber} nominal
   * @param {BaybookNumber} percent
   */
  function share(nominal, percent) {
    return nominal.exact.times(percent.exact).times(Rational.tenTo(-2)).size();
  }

  compute.Value = Value;
})();
