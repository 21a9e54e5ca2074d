// @ts-check
/*
 * Exact numbers in the browser: rationals of big integers, as the compiler has them. Nothing measured,
 * judged or shown goes through a float, so that both give the same digits.
 *
 * Invariant: the denominator is positive, and numerator and denominator have no common divisor.
 */
(() => {
  "use strict";

  /** The longest text taken for an exact number. */
  const LONGEST = 400;

  /** @param {bigint} value */
  const size = (value) => (value < 0n ? -value : value);

  /**
   * @param {bigint} first
   * @param {bigint} second
   */
  function commonDivisor(first, second) {
    let [a, b] = [size(first), size(second)];
    while (b !== 0n) {
      [a, b] = [b, a % b];
    }
    return a;
  }

  /** @param {string} text */
  function whole(text) {
    return /^[0-9]+$/.test(text) ? BigInt(text) : null;
  }

  class Rational {
    /**
     * @param {bigint | number} numer a number must be a whole one
     * @param {bigint | number} denom not 0
     */
    constructor(numer, denom = 1n) {
      const [above, below] = [BigInt(numer), BigInt(denom)];
      if (below === 0n) {
        throw new RangeError("a fraction of zero parts");
      }
      const divisor = commonDivisor(above, below) * (below < 0n ? -1n : 1n);
      /** @readonly */
      this.numer = above / divisor;
      /** @readonly */
      this.denom = below / divisor;
    }

    /** @param {number} exponent */
    static tenTo(exponent) {
      const power = 10n ** BigInt(Math.abs(exponent));
      return exponent < 0 ? new Rational(1n, power) : new Rational(power);
    }

    /**
     * Reads what `text` writes: `0.25`, `-1/3`. Null for anything else.
     * @param {string} text
     * @returns {Rational | null}
     */
    static parse(text) {
      if (text.length > LONGEST) {
        return null;
      }
      if (text.startsWith("-")) {
        return Rational.#unsigned(text.slice(1))?.negated() ?? null;
      }
      return Rational.#unsigned(text);
    }

    /** @param {string} text */
    static #unsigned(text) {
      const bar = text.indexOf("/");
      if (bar >= 0) {
        const [above, below] = [whole(text.slice(0, bar)), whole(text.slice(bar + 1))];
        return above === null || below === null || below === 0n ? null : new Rational(above, below);
      }
      const [digits = "", part, ...more] = text.split(".");
      const value = whole(digits + (part ?? ""));
      const formed = whole(digits) !== null && (part === undefined || whole(part) !== null);
      if (value === null || !formed || more.length > 0) {
        return null;
      }
      return new Rational(value, 10n ** BigInt(part?.length ?? 0));
    }

    /** @param {Rational} other */
    plus(other) {
      return new Rational(this.numer * other.denom + other.numer * this.denom, this.denom * other.denom);
    }

    /** @param {Rational} other */
    minus(other) {
      return new Rational(this.numer * other.denom - other.numer * this.denom, this.denom * other.denom);
    }

    /** @param {Rational} other */
    times(other) {
      return new Rational(this.numer * other.numer, this.denom * other.denom);
    }

    /** @param {Rational} other not 0 */
    over(other) {
      return new Rational(this.numer * other.denom, this.denom * other.numer);
    }

    negated() {
      return new Rational(-this.numer, this.denom);
    }

    size() {
      return this.numer < 0n ? this.negated() : this;
    }

    /** -1, 0 or 1. */
    sign() {
      return this.numer === 0n ? 0 : this.numer < 0n ? -1 : 1;
    }

    /**
     * Below 0 if this is the smaller, 0 if both are equal, above 0 if this is the larger.
     * @param {Rational} other
     */
    compare(other) {
      const difference = this.numer * other.denom - other.numer * this.denom;
      return difference === 0n ? 0 : difference < 0n ? -1 : 1;
    }

    /** @param {Rational} other */
    equals(other) {
      return this.numer === other.numer && this.denom === other.denom;
    }

    /** The whole number not above. */
    floor() {
      const towardsZero = this.numer / this.denom;
      return this.numer < 0n && this.numer % this.denom !== 0n ? towardsZero - 1n : towardsZero;
    }

    /** The whole number not below. */
    ceil() {
      return -this.negated().floor();
    }

    /** The nearer whole number; half-way the even one (ASME A112.18.1/CSA B125.1 Annex A). */
    halfEven() {
      const below = this.floor();
      const twice = this.minus(new Rational(below)).compare(new Rational(1n, 2n));
      return twice < 0 || (twice === 0 && below % 2n === 0n) ? below : below + 1n;
    }

    /**
     * A multiple of `step`, in one step: a minimum goes `up`, a maximum `down`, so that a shown limit
     * stays inside the real one. A step of 0 leaves it as it is.
     * @param {Rational} step
     * @param {"half-even" | "up" | "down"} way
     */
    roundedTo(step, way) {
      if (step.numer === 0n) {
        return this;
      }
      const steps = this.over(step);
      const rounded = way === "up" ? steps.ceil() : way === "down" ? steps.floor() : steps.halfEven();
      return new Rational(rounded).times(step);
    }

    /** The largest exponent whose power of ten is not above; 0 unless positive. */
    exponentNotAbove() {
      if (this.numer <= 0n) {
        return 0;
      }
      let exponent = String(this.numer).length - String(this.denom).length;
      if (Rational.tenTo(exponent).compare(this) > 0) {
        exponent -= 1;
      }
      return exponent;
    }

    /**
     * How many decimals write it exactly; null where no number of them does.
     * @returns {number | null}
     */
    terminatingDecimals() {
      let [rest, twos, fives] = [this.denom, 0, 0];
      for (; rest % 2n === 0n; twos += 1) {
        rest /= 2n;
      }
      for (; rest % 5n === 0n; fives += 1) {
        rest /= 5n;
      }
      return rest === 1n ? Math.max(twos, fives) : null;
    }

    /**
     * Rounded half to even and written with exactly so many decimals.
     * @param {number} decimals
     */
    decimalText(decimals) {
      const scaled = this.times(Rational.tenTo(decimals)).halfEven();
      const digits = String(size(scaled)).padStart(decimals + 1, "0");
      const point = digits.length - decimals;
      const part = decimals > 0 ? `.${digits.slice(point)}` : "";
      return `${scaled < 0n ? "-" : ""}${digits.slice(0, point)}${part}`;
    }

    /** A terminating decimal with no needless zeros, else a fraction `n/d`: every computed number in JSON. */
    text() {
      const decimals = this.terminatingDecimals();
      return decimals === null ? `${this.numer}/${this.denom}` : this.decimalText(decimals);
    }

    /**
     * Exact, with at least so many decimals; a fraction where none suffice.
     * @param {number} decimals
     */
    textAtLeast(decimals) {
      const needed = this.terminatingDecimals();
      return needed === null ? this.text() : this.decimalText(Math.max(needed, decimals));
    }

    toString() {
      return this.text();
    }
  }

  /** @type {BaybookCompute} */
  const compute = (globalThis.baybookCompute ??= /** @type {any} */ ({}));
  compute.Rational = Rational;
})();
