// @ts-check
/*
 * What was typed for the inputs of a sum, read into what its formulas work with: every number exact and in the unit that
 * the table names; a unit that measures something else is refused, never taken as a bare number.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, Refusal, units, readings, real } = compute;
  const trim = (/** @type {string} */ text) => compute.letters.trim(text);

  /** What keeps a sum from being worked out: the input it hangs on, and how to mend it. */
  class SumError extends Error {
    /**
     * @param {string | null} input
     * @param {string} message
     * @param {string} help
     */
    constructor(input, message, help) {
      super(message);
      this.input = input;
      this.help = help;
    }
  }

  /** @param {BaybookSumInput} input */
  const asExample = (input) => `write it as \`${input.example}\``;

  /**
   * The members of a list: between semicolons, line ends, and commas that part no decimals.
   * @param {string} text
   */
  const members = (text) =>
    text
      .split(/[;\n]|(?<![0-9]),|,(?![0-9])/)
      .map(trim)
      .filter((member) => member !== "");

  /**
   * @template T
   * @param {BaybookSumInput} input
   * @param {() => T} read
   */
  function reading(input, read) {
    try {
      return read();
    } catch (problem) {
      if (problem instanceof Refusal) {
        throw new SumError(input.key, `${input.title}: ${problem.message}`, problem.help);
      }
      throw problem;
    }
  }

  /**
   * @param {BaybookSumInput} input
   * @param {string} text
   * @param {string} unit
   */
  function quantity(input, text, unit) {
    const wanted = units.parse(unit);
    const read = reading(input, () => readings.read(text, wanted));
    if (read.assumed) {
      throw new SumError(input.key, `${input.title}: \`${text}\` has no unit`, asExample(input));
    }
    // `5 °F` of difference are nine to five kelvins of it, whatever the zero of the scale.
    if (wanted.kind === "temperature-difference" && read.unit.kind === "temperature") {
      return { value: read.value.times(read.unit.ratioTo(wanted)), unit: read.unit };
    }
    if (!read.unit.convertsTo(wanted)) {
      reading(input, () => {
        throw readings.otherKind(read.unit, wanted);
      });
    }
    return { value: wanted.fromSi(read.unit.toSi(read.value)), unit: read.unit };
  }

  /**
   * One quantity of whatever kind, in its own unit. What a thumb mends in a reading is mended here too; a number alone is
   * of no kind.
   * @param {BaybookSumInput} input
   * @param {string} text
   */
  function ofAnyKind(input, text) {
    const { value: read, assumed } = anyKind(input, text);
    if (assumed) {
      throw new SumError(input.key, `${input.title}: \`${text}\` has no unit`, asExample(input));
    }
    return quantity(input, text, read.unit.symbol);
  }

  /**
   * @param {BaybookSumInput} input
   * @param {string} text
   */
  function anyKind(input, text) {
    try {
      return { value: compute.Value.parse(text), assumed: false };
    } catch (problem) {
      if (!(problem instanceof Refusal)) {
        throw problem;
      }
      try {
        return readings.value(text, units.parse("mm"));
      } catch {
        throw new SumError(input.key, problem.message, problem.help);
      }
    }
  }

  /**
   * One quantity of the kind of another, in that one's unit, which it may leave out.
   * @param {BaybookSumInput} input
   * @param {string} text
   * @param {BaybookUnit} unit
   */
  function alike(input, text, unit) {
    const read = reading(input, () => readings.read(text, unit));
    if (!read.unit.convertsTo(unit)) {
      reading(input, () => {
        throw readings.otherKind(read.unit, unit);
      });
    }
    return { value: unit.fromSi(read.unit.toSi(read.value)), unit: read.unit };
  }

  class Given {
    constructor() {
      /** @type {BaybookNames} */
      this.names = new Map();
      /** @type {Map<string, BaybookUnit>} */
      this.units = new Map();
      /** @type {Map<string, string[]>} */
      this.members = new Map();
    }

    /**
     * @param {BaybookSumInput} input
     * @param {string} text
     * @returns {BaybookBoundName}
     */
    bound(input, text) {
      switch (input.sort) {
        case "quantity": {
          const { value, unit } = quantity(input, text, input.unit ?? "");
          this.units.set(input.key, unit);
          return real.exact(value);
        }
        case "alike": {
          const first = this.units.get(input.of ?? "");
          const { value, unit } = first === undefined ? ofAnyKind(input, text) : alike(input, text, first);
          this.units.set(input.key, unit);
          return real.exact(value);
        }
        case "quantities": {
          const all = members(text).map((member) => quantity(input, member, input.unit ?? ""));
          const [first] = all;
          if (first !== undefined) {
            this.units.set(input.key, first.unit);
          }
          this.members.set(input.key, members(text));
          return { many: all.map(({ value }) => value) };
        }
        case "points":
          return {
            points: members(text).map((member) => {
              const equals = member.indexOf("=");
              if (equals < 0) {
                throw new SumError(input.key, `\`${member}\` is no point`, asExample(input));
              }
              const at = quantity(input, member.slice(0, equals), input.at ?? "").value;
              return [at, quantity(input, member.slice(equals + 1), input.unit ?? "").value];
            }),
          };
        case "number": {
          const one = units.parse(":1");
          const read = reading(input, () => readings.read(text, one));
          return real.exact(one.fromSi(read.unit.toSi(read.value)));
        }
        default: {
          const words = input.words ?? [];
          if (!words.includes(text)) {
            throw new SumError(input.key, `${input.title} cannot be \`${text}\``, `write ${words.join(", or ")}`);
          }
          words.forEach((word, place) => this.names.set(word, real.exact(new Rational(place))));
          return real.exact(new Rational(words.indexOf(text)));
        }
      }
    }
  }

  /**
   * @param {BaybookSum} sum
   * @param {Record<string, string | undefined>} typed
   */
  function read(sum, typed) {
    const given = new Given();
    for (const [name, points] of sum.tables) {
      const exact = (/** @type {string} */ text) => Rational.parse(text) ?? new Rational(0);
      given.names.set(name, { points: points.map(([at, reads]) => [exact(at), exact(reads)]) });
    }
    for (const input of sum.inputs) {
      const text = trim(typed[input.key] ?? "") || input.unless;
      if (text === undefined) {
        throw new SumError(input.key, `${input.title} is missing`, asExample(input));
      }
      given.names.set(input.key, text === "" ? { nothing: true } : given.bound(input, text));
    }
    return given;
  }

  compute.sumGiven = { SumError, read };
})();
