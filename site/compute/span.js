// @ts-check
/* Where a measured thing may lie, and where it is allowed to lie: intervals with open or closed ends. */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;

  /** In the unit of the limits; the lower end always belongs to it, and no upper end is none. */
  class Span {
    /**
     * @param {BaybookRational} low
     * @param {BaybookRational | null} high
     * @param {boolean} closed whether the upper end belongs to it
     */
    constructor(low, high, closed) {
      this.low = low;
      this.high = high;
      this.closed = closed;
    }

    /** @param {BaybookRational} value */
    static at(value) {
      return new Span(value, value, true);
    }

    /**
     * @param {BaybookRational} value
     * @param {BaybookRational} error
     */
    static around(value, error) {
      return new Span(value.minus(error), value.plus(error), true);
    }
  }

  /** Where it is allowed to lie. */
  class Bounds {
    /** @param {BaybookValue} limits */
    constructor(limits) {
      this.limits = limits;
      this.min = limits.min();
      this.max = limits.max();
    }

    /**
     * @param {BaybookSpan} span
     * @returns {"out of spec" | "too close to call" | "in spec"}
     */
    verdict(span) {
      if (this.whollyBelow(span) || this.whollyAbove(span)) {
        return "out of spec";
      }
      return this.crossesMin(span) || this.crossesMax(span) ? "too close to call" : "in spec";
    }

    /**
     * Whether all of the span lies below the lower limit.
     * @param {BaybookSpan} span
     */
    whollyBelow({ high, closed }) {
      if (this.min === null || high === null) {
        return false;
      }
      const side = high.compare(this.min.exact);
      return side < 0 || (side === 0 && !(closed && this.min.inclusive));
    }

    /**
     * Whether all of the span lies above the upper limit.
     * @param {BaybookSpan} span
     */
    whollyAbove({ low }) {
      const side = this.max === null ? -1 : low.compare(this.max.exact);
      return side > 0 || (side === 0 && this.max?.inclusive === false);
    }

    /**
     * Whether some of the span lies below the lower limit.
     * @param {BaybookSpan} span
     */
    crossesMin({ low }) {
      const side = this.min === null ? 1 : low.compare(this.min.exact);
      return side < 0 || (side === 0 && this.min?.inclusive === false);
    }

    /**
     * Whether some of the span lies above the upper limit.
     * @param {BaybookSpan} span
     */
    crossesMax({ high, closed }) {
      if (this.max === null || high === null) {
        return this.max !== null;
      }
      const side = high.compare(this.max.exact);
      return side > 0 || (side === 0 && closed && !this.max.inclusive);
    }

    /**
     * How far a span that is wholly outside lies beyond the limit.
     * @param {BaybookSpan} span
     */
    beyond(span) {
      const limit = this.whollyAbove(span) ? this.max : this.min;
      return this.#written(limit === this.max ? over(span, limit) : under(span, limit));
    }

    /**
     * How far a span that is wholly inside lies from the nearer limit.
     * @param {BaybookSpan} span
     */
    left(span) {
      const sides = [under(span, this.max), over(span, this.min)];
      return this.#written({
        min: least(sides.map((side) => side.min)),
        max: least(sides.map((side) => side.max)),
      });
    }

    /** @param {{ min: BaybookRational | null, max: BaybookRational | null }} distance */
    #written({ min, max }) {
      return { min: min?.text() ?? null, max: max?.text() ?? null, unit: this.limits.unit.symbol };
    }
  }

  /** @param {(BaybookRational | null)[]} distances */
  function least(distances) {
    const known = distances.filter((one) => one !== null);
    return known.reduce((/** @type {BaybookRational | null} */ a, b) => (a === null || b.compare(a) < 0 ? b : a), null);
  }

  /**
   * How far the span lies above a limit.
   * @param {BaybookSpan} span
   * @param {BaybookLimit | null} limit
   */
  function over({ low, high }, limit) {
    return limit === null
      ? { min: null, max: null }
      : { min: low.minus(limit.exact), max: high?.minus(limit.exact) ?? null };
  }

  /**
   * How far the span lies below a limit.
   * @param {BaybookSpan} span
   * @param {BaybookLimit | null} limit
   */
  function under({ low, high }, limit) {
    return limit === null
      ? { min: null, max: null }
      : { min: high === null ? null : limit.exact.minus(high), max: limit.exact.minus(low) };
  }

  compute.spans = { Span, Bounds };
})();
