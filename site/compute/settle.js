// @ts-check
/* What would settle a close call: a truer gauge, or a further leaf. */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational } = compute;
  const { Span } = compute.spans;

  /** The most decimals of a distance that is shown as it is. */
  const MOST_DECIMALS = 6;

  /**
   * @param {BaybookBounds} bounds
   * @param {BaybookMeasured} measured
   */
  function settle(bounds, { value, goes, stops }) {
    const { unit } = bounds.limits;
    if (value !== undefined) {
      return truerGauge(bounds, compute.exactIn(value, unit));
    }
    if (goes === undefined) {
      return "try thinner leaves until one goes";
    }
    if (stops === undefined) {
      return "try thicker leaves until one stops";
    }
    const span = new Span(compute.exactIn(goes, unit), compute.exactIn(stops, unit), false);
    const crossed = [bounds.crossesMin(span) ? bounds.min : null, bounds.crossesMax(span) ? bounds.max : null];
    const limits = crossed.flatMap((limit) => (limit === null ? [] : [unit.after(limit.text)]));
    return `try the leaves between ${goes.text} and ${stops.text}: the limit is ${limits.join(" or ")}`;
  }

  /**
   * How true a gauge would have to be.
   * @param {BaybookBounds} bounds
   * @param {BaybookRational} value
   */
  function truerGauge(bounds, value) {
    const distances = [bounds.min, bounds.max].flatMap((limit) =>
      limit === null ? [] : [value.minus(limit.exact).size()],
    );
    const least = distances.reduce((a, b) => (b.compare(a) < 0 ? b : a));
    if (least.sign() === 0) {
      return "measure again: the reading lies on the limit itself";
    }
    const distance = bounds.limits.unit.after(shown(least));
    return bounds.verdict(Span.at(value)) === "in spec"
      ? `measure again with a gauge true to ${distance} or better`
      : `measure again with a gauge true to better than ${distance}`;
  }

  /**
   * A distance with digits to be read, never above the real one.
   * @param {BaybookRational} distance
   */
  function shown(distance) {
    if (distance.roundedTo(Rational.tenTo(-MOST_DECIMALS), "down").equals(distance)) {
      return distance.text();
    }
    const step = Math.min(0, distance.exponentNotAbove() - 1);
    return distance.roundedTo(Rational.tenTo(step), "down").text();
  }

  compute.settle = settle;
})();
