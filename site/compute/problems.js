// @ts-check
/* What can be wrong with the text of a value, and how to write it: the compiler's own words. */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Refusal } = compute;

  const TOLERANCES =
    "write `20 ± 2 mm` or `20 +2/-1 mm`; where both limits lie on one side, write the range";

  /** What stands where a number is due, and the word that says it. */
  const BOUNDS = new Map([
    ["≤", "max"],
    ["<=", "max"],
    ["=<", "max"],
    ["≥", "min"],
    [">=", "min"],
    ["=>", "min"],
    ["<", "under"],
    ["below", "under"],
    ["less", "under"],
    [">", "over"],
    ["above", "over"],
    ["more", "over"],
    ["up", "max"],
  ]);

  /**
   * A refusal that a reader of readings can mend, with what it needs for that.
   * @param {string} sort
   * @param {string} message
   * @param {string} help
   * @param {Partial<BaybookRefusal>} facts
   */
  const sorted = (sort, message, help, facts = {}) =>
    Object.assign(new Refusal(message, help), { sort, ...facts });

  compute.problems = {
    empty: () => sorted("empty", "the value is empty", "write a number and its unit, such as `0.20 mm`"),

    noNumber(found) {
      const message = found === "" ? "a number is missing" : `\`${found}\` stands where a number is due`;
      const sign = found.toLowerCase().replace(/[0-9.]+$/, "");
      const word = BOUNDS.get(sign);
      if (["±", "+/-", "+-"].includes(sign)) {
        const help = "write the nominal value before the tolerance, such as `0.20 ± 0.05 mm`";
        return new Refusal(message, help);
      }
      return word === undefined
        ? new Refusal(message, "begin with a number, or with min, max, under or over")
        : new Refusal(message, `write \`${word}\` instead, such as \`${word} 0.10 mm\``);
    },

    malformed(found, offers, at) {
      const [first, ...rest] = offers;
      const message = `\`${found}\` is not a number`;
      const refusal = (/** @type {string} */ help) => sorted("malformed", message, help, { found, offers, at });
      if (first === undefined) {
        const help = /[eE]/.test(found)
          ? "write the digits out, without an exponent"
          : "write digits with at most one point, or a fraction such as 1/4 or 2 1/2";
        return refusal(help);
      }
      return rest.length === 0
        ? refusal(`write \`${first}\``)
        : refusal(`write \`${first}\` or \`${rest.join("` or `")}\`, whichever is meant`);
    },

    tooManyDigits(found, most) {
      const help = `a number has at most ${most} digits; write it as the manual prints it`;
      return new Refusal(`\`${found}\` has too many digits`, help);
    },

    noUnit: (number) =>
      sorted("no-unit", `\`${number}\` has no unit`, `write the unit after the number, such as \`${number} mm\``),

    unitTwice(offer) {
      const way = offer === null ? ", such as `0.15..0.25 mm`" : `: \`${offer}\``;
      return new Refusal("the unit stands more than once", `write the unit once, at the end${way}`);
    },

    rangeReversed: (min, max) =>
      new Refusal(
        `the range runs backwards: \`${min}\` is above \`${max}\``,
        `write the smaller end first: \`${max}..${min}\``,
      ),

    negativeTolerance: (found) => new Refusal(`\`${found}\` is a tolerance of the wrong sign`, TOLERANCES),

    percentTooLarge: (found) =>
      new Refusal(
        `a tolerance of \`${found}\` per cent is the whole value or more`,
        "a tolerance in per cent is below 100; check the digits",
      ),

    percentOfPercent: (nominal, tolerance) =>
      new Refusal(
        `\`${nominal} % ± ${tolerance} %\` could mean percentage points or a part of ${nominal} %`,
        `write \`${nominal} ± ${tolerance} %\` for percentage points, or the range itself`,
      ),

    tooLong: (bytes, most) =>
      new Refusal(`the value is ${bytes} bytes long`, `a value has at most ${most} bytes`),

    trailing: (found, offer) =>
      new Refusal(
        `\`${found}\` stands after the value`,
        offer === null ? "end the value with its unit; write notes elsewhere" : `write \`${offer}\``,
      ),
  };
})();
