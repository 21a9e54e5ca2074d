// @ts-check
/*
 * Whether a reading lies within what the maker states, by how much it does not, and what would tell.
 *
 * A reading is the closed interval of what may be there: the number, and the gauge's limit of error either
 * side. A leaf that goes and one that stops are [goes, stops). Wholly within the limits it is in spec,
 * wholly without them out of spec, else too close to call (the decision rule of ISO 14253-1). It is judged
 * by the printed form in the reading's own unit where there is one, else by the first, as printed.
 *
 * Invariant: what cannot be judged is said to be so, with the reason; a state not asked for is not assumed.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, Refusal, Value } = compute;
  const { read, alike } = compute.readings;
  const { Span, Bounds } = compute.spans;
  const ZERO = new Rational(0n);
  /** Said of a used part that is better than a new one. */
  const LESS_WORN = "less worn than a new part: measure again, check the part";

  const noLimits = () =>
    new Refusal("there are no limits to judge against", "give a window, or the fit of new parts or a wear limit");

  /**
   * The limits that decide, and which they are.
   * @param {BaybookQuestion} question
   * @returns {{ against: "window" | "new" | "wear_limit", forms: BaybookValue[], onlyWearLimit: boolean }}
   */
  function limits({ window, new: fresh = [], wear_limit: worn = [], fitting }) {
    /** @param {string[]} forms */
    const parsed = (forms) => forms.map((form) => Value.parse(form));
    const onlyWearLimit = window === undefined && fitting === "new" && fresh.length === 0;
    if (window !== undefined) {
      return { against: "window", forms: parsed(window), onlyWearLimit };
    }
    const byNew = worn.length === 0 || (fitting === "new" && fresh.length > 0);
    return { against: byNew ? "new" : "wear_limit", forms: parsed(byNew ? fresh : worn), onlyWearLimit };
  }

  /**
   * @param {string} text
   * @param {BaybookUnit} unit
   */
  function leaf(text, unit) {
    const found = read(text, unit);
    if (found.value.sign() < 0) {
      throw new Refusal(`\`${found.text}\` is less than nothing`, "type the thickness of the leaf");
    }
    return found;
  }

  /**
   * What was measured, as read.
   * @param {BaybookQuestion["reading"]} reading
   * @param {BaybookUnit} unit
   * @returns {BaybookMeasured}
   */
  function seen(reading, unit) {
    if (typeof reading === "string") {
      return { value: read(reading, unit) };
    }
    const goes = reading.goes == null ? undefined : leaf(reading.goes, unit);
    const stops = reading.stops == null ? undefined : leaf(reading.stops, unit);
    if (goes === undefined && stops === undefined) {
      throw new Refusal("no reading is typed", "type a leaf that goes, one that stops, or both");
    }
    if (goes !== undefined && stops !== undefined && exactIn(stops, goes.unit).compare(goes.value) <= 0) {
      const help = "a thinner leaf goes wherever a thicker one does: try both again";
      throw new Refusal(`\`${stops.text}\` stops, but \`${goes.text}\` goes`, help);
    }
    if (goes === undefined && stops?.value.sign() === 0) {
      throw new Refusal(`\`${stops.text}\` is no leaf`, "type the thickness of the leaf");
    }
    return { goes, stops };
  }

  /**
   * @param {BaybookReading} reading
   * @param {BaybookUnit} unit
   */
  const exactIn = (reading, unit) => unit.fromSi(reading.unit.toSi(reading.value));

  /** @param {BaybookMeasured} measured */
  const readings = ({ value, goes, stops }) => [value, goes, stops].filter((one) => one !== undefined);

  /**
   * Why a reading in another sort of unit says nothing.
   * @param {BaybookMeasured} measured
   * @param {BaybookUnit} unit
   */
  function otherSort(measured, unit) {
    const other = readings(measured).find((one) => !one.unit.convertsTo(unit) && alike(one.unit.kind, unit.kind));
    if (other === undefined) {
      return null;
    }
    return `${other.text} is ${other.unit.kindTitle()}, and the limit is ${unit.kindTitle()}`;
  }

  /** @param {BaybookQuestion} question */
  function stateMissing({ state = "unanswered", needs_state: needed = [] }) {
    const words = needed.join(", ");
    if (state === "unmet") {
      return words === "" ? "the limit does not hold in this state" : `the limit holds with ${words}, and it was not so`;
    }
    return state === "unanswered" && words !== "" ? `the limit holds with ${words}: say whether it was so` : null;
  }

  /**
   * Where what was measured may lie.
   * @param {BaybookMeasured} measured
   * @param {BaybookUnit} unit
   * @param {BaybookAccuracy | null} allowance
   */
  function spanOf({ value, goes, stops }, unit, allowance) {
    if (value !== undefined) {
      const at = exactIn(value, unit);
      return allowance === null ? Span.at(at) : Span.around(at, compute.gauges.errorAt(allowance, value, unit));
    }
    const high = stops === undefined ? null : exactIn(stops, unit);
    return new Span(goes === undefined ? ZERO : exactIn(goes, unit), high, false);
  }

  /**
   * @param {"window" | "new" | "wear_limit"} against
   * @param {string} because
   * @returns {BaybookVerdict}
   */
  const cannot = (against, because) => ({
    verdict: "cannot judge",
    as_read: "cannot judge",
    direction: null,
    by: null,
    against,
    left: null,
    settle: null,
    because,
  });

  /**
   * How true the reading is said to be; without a unit, in the one that the maker states first.
   * @param {BaybookQuestion} question
   */
  function accuracyOf({ accuracy, window = [], new: fresh = [], wear_limit: worn = [] }) {
    const [first] = [...window, ...fresh, ...worn];
    return accuracy == null || first === undefined
      ? null
      : compute.gauges.accuracy(accuracy, Value.parse(first).unit);
  }

  /**
   * @param {BaybookQuestion} question
   * @returns {BaybookVerdict}
   */
  function judged(question) {
    const { against, forms, onlyWearLimit } = limits(question);
    const [first] = forms;
    if (first === undefined) {
      throw noLimits();
    }
    const measured = seen(question.reading, first.unit);
    const typed = readings(measured)[0]?.unit;
    const limit = forms.find((form) => form.unit === typed) ?? first;
    const gauge = question.gauge === undefined ? null : compute.gauges.inHand(question.gauge);
    const accuracy = accuracyOf(question);
    const because =
      otherSort(measured, limit.unit) ??
      stateMissing(question) ??
      (gauge && compute.gauges.unfit(gauge, readings(measured), limit.unit));
    if (because !== null) {
      return cannot(against, because);
    }
    const allowance = accuracy ?? gauge?.error ?? null;
    const span = spanOf(measured, limit.unit, allowance);
    const bounds = new Bounds(limit);
    const verdict = bounds.verdict(span);
    if (onlyWearLimit && verdict !== "out of spec") {
      return cannot(against, "the maker states a wear limit, but not the fit of new parts");
    }
    const weighs = weighed(question, against, bounds, span, measured);
    const used = against === "wear_limit" && verdict === "in spec";
    return used ? { ...weighs, because: lessWorn(question, measured, bounds, allowance) } : weighs;
  }

  /**
   * What is said of a used part that lies wholly on the better side of a new one: a slip or another part sooner than good
   * luck, and a gap that small is dangerous.
   * @param {BaybookQuestion} question
   * @param {BaybookMeasured} measured
   * @param {BaybookBounds} limit
   * @param {BaybookAccuracy | null} allowance
   */
  function lessWorn({ new: fresh = [], below }, measured, limit, allowance) {
    const forms = fresh.map((form) => Value.parse(form));
    const form = forms.find(({ unit }) => unit === readings(measured)[0]?.unit) ?? forms[0];
    if (form === undefined) {
      return null;
    }
    const span = spanOf(measured, form.unit, allowance);
    const bounds = new Bounds(form);
    if (limit.min === null && bounds.whollyBelow(span)) {
      const tight = below === "tight" ? "tighter than new it can seize" : "a gap or clearance below new can seize";
      return `${LESS_WORN}; ${tight}, so do not run it like that`;
    }
    return limit.max === null && bounds.whollyAbove(span) ? LESS_WORN : null;
  }

  /**
   * @param {BaybookQuestion} question
   * @param {"window" | "new" | "wear_limit"} against
   * @param {BaybookBounds} bounds
   * @param {BaybookSpan} span
   * @param {BaybookMeasured} measured
   * @returns {BaybookVerdict}
   */
  function weighed(question, against, bounds, span, measured) {
    const { unit } = bounds.limits;
    const verdict = bounds.verdict(span);
    const point = measured.value ?? measured.goes;
    const used = against === "wear_limit" && verdict === "in spec";
    const onlyNew = against === "new" && question.fitting !== "new";
    return {
      verdict,
      as_read: point === undefined ? verdict : bounds.verdict(Span.at(exactIn(point, unit))),
      direction: direction(question, bounds, span),
      by: verdict === "out of spec" ? bounds.beyond(span) : null,
      against,
      left: used ? bounds.left(span) : null,
      settle: verdict === "too close to call" ? compute.settle(bounds, measured) : null,
      because: onlyNew ? "the maker states no wear limit, only the fit of new parts" : null,
    };
  }

  /**
   * The word for the one side that the reading reaches beyond.
   * @param {BaybookQuestion} question
   * @param {BaybookBounds} bounds
   * @param {BaybookSpan} span
   */
  function direction({ below = "low", above = "high" }, bounds, span) {
    const [under, over] = [bounds.crossesMin(span), bounds.crossesMax(span)];
    return under === over ? null : under ? below : above;
  }

  compute.exactIn = exactIn;
  compute.judge = (question) => compute.answered(() => judged(question));
})();
