// @ts-check
/* What a reading was taken with: its span, the sort of thing it shows, and how true it is. */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, Refusal, Value } = compute;
  const { trim } = compute.letters;

  /**
   * Reads a limit of error: `0.005 mm`, `± 0.005`, `1 %`; without a unit it is in `unit`.
   * @param {string} text
   * @param {BaybookUnit} unit
   * @returns {BaybookAccuracy}
   */
  const accuracy = (text, unit) => compute.readings.value(trim(text).replace(/^(?:±|\+\/-|\+-)/, ""), unit).value;

  /**
   * How far `reading` may be off, in `unit`: expanded uncertainty, k = 2 (ISO 14253-1).
   * @param {BaybookAccuracy} error
   * @param {BaybookReading} reading
   * @param {BaybookUnit} unit
   */
  function errorAt(error, reading, unit) {
    const own = error.unit;
    const size = error.max()?.exact ?? new Rational(0n);
    if (size.sign() < 0) {
      const help = "type how far the reading may be off either way";
      throw new Refusal(`an accuracy of \`${error.text()}\` is less than nothing`, help);
    }
    if (own.kind === "percent" && unit.kind !== "percent") {
      return compute.exactIn(reading, unit).size().times(size).times(Rational.tenTo(-2));
    }
    const difference = own.kind === "temperature-difference" && unit.kind === "temperature";
    if (difference || own.convertsTo(unit)) {
      return size.times(own.ratioTo(unit));
    }
    throw compute.readings.otherKind(own, unit);
  }

  /**
   * A gauge as the bundle describes it; its sort is the kind of what it shows.
   * @param {NonNullable<BaybookQuestion["gauge"]>} gauge
   */
  function inHand(gauge) {
    const span = Value.parse(gauge.span);
    const { title = "the gauge", sort = span.unit.kind, error } = gauge;
    return { title, sort, span, error: accuracy(error, span.unit) };
  }

  /**
   * Why nothing can be judged with it; null if it can.
   * @param {BaybookGaugeInHand} gauge
   * @param {BaybookReading[]} readings
   * @param {BaybookUnit} unit
   */
  function unfit({ title, sort, span }, readings, unit) {
    if (sort !== unit.kind) {
      const shows = compute.units.kindTitle(sort);
      return `${title} shows ${shows}, and the limit is ${unit.kindTitle()}`;
    }
    const off = readings.find((reading) => {
      const value = compute.exactIn(reading, span.unit);
      const [min, max] = [span.min(), span.max()];
      return (min !== null && value.compare(min.exact) < 0) || (max !== null && value.compare(max.exact) > 0);
    });
    return off === undefined ? null : `${title} measures ${span.text()}, and ${off.text} lies off it`;
  }

  compute.gauges = { accuracy, errorAt, inHand, unfit };
})();
