// @ts-check
/*
 * A reading as a gloved thumb types it: `.35`, `0,35`, `0.35mm`, `14 thou`, `56psi`, `1/64 in`.
 *
 * Wider than the grammar of a spec base in three things, each of which has one meaning only: a decimal
 * comma, a number without a unit, which is in the unit of what it is judged against, and a bare `C` or
 * `F` where a temperature is asked for. What could mean two things is refused.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Refusal, Value, units } = compute;
  const { SPACE, trim } = compute.letters;

  /** How often the text is mended and read again: its number, then its unit. */
  const MENDS = 3;
  const IN_NUMBER = new RegExp(`^[0-9.,'’${SPACE}]*$`, "u");

  /** Kinds that a shop takes for one another, each of which says something else. */
  const ALIKE = [
    ["voltage", "ac-voltage", "peak-voltage"],
    ["pressure", "absolute-pressure"],
    ["current", "cold-cranking-current", "cranking-current", "marine-cranking-current"],
    ["temperature", "temperature-difference"],
  ];

  /**
   * Whether a shop takes one kind for the other.
   * @param {string} one
   * @param {string} other
   */
  const alike = (one, other) => ALIKE.some((kinds) => kinds.includes(one) && kinds.includes(other));

  /**
   * What is said of a unit that measures something else.
   * @param {BaybookUnit} found
   * @param {BaybookUnit} wanted
   */
  function otherKind(found, wanted) {
    const help = `type it in ${wanted.symbol} or another unit of ${wanted.kindTitle()}`;
    const message =
      found.kind === wanted.kind
        ? `\`${found.symbol}\` are not \`${wanted.symbol}\``
        : `\`${found.symbol}\` is a unit of ${found.kindTitle()}, not of ${wanted.kindTitle()}`;
    return new Refusal(message, help);
  }

  /**
   * The text with what is wrong put right; null where it could mean two things, or nothing.
   * @param {string} text
   * @param {BaybookRefusal} problem
   * @param {BaybookUnit} unit
   */
  function mended(text, problem, unit) {
    const { found = "", offers = [], meanings = [], at = 0 } = problem;
    /** @param {string} part */
    const put = (part) => text.slice(0, at) + part + text.slice(at + found.length);
    if (problem.sort === "no-unit") {
      return unit.after(trim(text));
    }
    if (problem.sort === "malformed") {
      return offers.length === 1 && IN_NUMBER.test(found) ? put(offers[0] ?? "") : null;
    }
    if (problem.sort === "ambiguous" && unit.kind === "temperature") {
      const meant = meanings.filter((write) => units.known(write)?.kind === unit.kind);
      return meant.length === 1 ? put(meant[0] ?? "") : null;
    }
    return null;
  }

  /**
   * @param {string} text
   * @param {BaybookRefusal} problem
   */
  function refused(text, problem) {
    if (problem.sort === "empty") {
      return new Refusal("no reading is typed", "type what the gauge shows, such as `0.35`");
    }
    if (/^[<>≤≥]/.test(trim(text))) {
      const help = "type one number; for a leaf that goes or stops, type that leaf";
      return new Refusal(problem.message, help);
    }
    return problem;
  }

  /**
   * The text as a value of the grammar, mended where it can mean one thing only; throws a `Refusal`.
   * @param {string} typed
   * @param {BaybookUnit} unit
   * @returns {{ value: BaybookValue, assumed: boolean }}
   */
  function value(typed, unit) {
    let [text, assumed] = [typed, false];
    for (let mends = 0; ; mends += 1) {
      try {
        return { value: Value.parse(text), assumed };
      } catch (problem) {
        if (!(problem instanceof Refusal)) {
          throw problem;
        }
        const better = mends < MENDS ? mended(text, problem, unit) : null;
        if (better === null) {
          throw mends < MENDS ? refused(text, problem) : problem;
        }
        assumed ||= problem.sort === "no-unit";
        text = better;
      }
    }
  }

  /**
   * Reads one number; without a unit of its own it is taken in `unit`. Throws a `Refusal`.
   *
   * The unit may be of a kind that a shop takes for that of `unit`, such as plain volts for peak volts:
   * that is no error of the reading, but nothing can be judged by it.
   * @param {string} text
   * @param {BaybookUnit} unit
   * @returns {BaybookReading}
   */
  function read(text, unit) {
    const { value: found, assumed } = value(text, unit);
    const { shape } = found;
    if (shape.form !== "single" && shape.form !== "turn") {
      const help = "type the one number that the gauge shows";
      throw new Refusal(`\`${found.text()}\` is more than one number`, help);
    }
    if (!found.unit.convertsTo(unit) && !alike(found.unit.kind, unit.kind)) {
      throw otherKind(found.unit, unit);
    }
    return { value: shape.number.exact, unit: found.unit, text: found.text(), assumed };
  }

  compute.readings = { read, value, alike, otherKind };
  compute.reading = (text, unit) => {
    try {
      const { value: exact, unit: found, text: taken, assumed } = read(text, units.parse(unit));
      return { ok: true, value: exact, unit: found.symbol, text: taken, assumed };
    } catch (problem) {
      if (problem instanceof Refusal) {
        return { ok: false, because: problem.message, help: problem.help };
      }
      throw problem;
    }
  };
})();
