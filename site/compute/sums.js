// @ts-check
/*
 * The bench sums as the compiler reckons them, from its own table: what is typed in any unit, exact answers,
 * one rounding for people, and what to say.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, Refusal, units, readings, formula, real } = compute;
  const { NoValue } = compute.curve;

  const DECIMALS = 12;
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
    if (!read.unit.convertsTo(wanted)) {
      reading(input, () => {
        throw readings.otherKind(read.unit, wanted);
      });
    }
    return { value: wanted.fromSi(read.unit.toSi(read.value)), unit: read.unit };
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

  /**
   * @param {string} text
   * @param {Given} given
   */
  function value(text, given) {
    try {
      return formula.value(formula.parse(text), given.names);
    } catch (problem) {
      if (problem instanceof NoValue) {
        throw new SumError(null, problem.message, problem.help);
      }
      throw problem;
    }
  }

  /**
   * @param {string} condition
   * @param {Given} given
   */
  const holds = (condition, given) => value(condition, given).value.sign() !== 0;

  /**
   * A number with so many digits, half to even; a whole number keeps all of its own.
   * @param {BaybookRational} number
   * @param {number} digits
   */
  function shown(number, digits) {
    if (number.sign() === 0) {
      return "0";
    }
    const step = Math.min(number.size().exponentNotAbove() + 1 - digits, 0);
    return number.roundedTo(Rational.tenTo(step), "half-even").decimalText(-step);
  }

  /**
   * @param {BaybookSumAnswer} answer
   * @param {string | null} of
   * @param {Given} given
   * @returns {BaybookSumResult}
   */
  function one(answer, of, given) {
    const found = value(answer.formula, given);
    const own = answer.unit === "" ? null : units.parse(answer.unit);
    const like = given.units.get(answer.like ?? "");
    const unit = own !== null && like !== undefined && own.convertsTo(like) ? like : own;
    const number = own !== null && unit !== null ? unit.fromSi(own.toSi(found.value)) : found.value;
    const text = shown(number, answer.digits);
    const exact = found.rough ? number.roundedTo(Rational.tenTo(-DECIMALS), "half-even") : number;
    return {
      key: answer.key,
      title: answer.title,
      of,
      value: exact.text(),
      unit: unit?.symbol ?? null,
      text: unit === null ? text : unit.after(text),
      word: answer.words.find(([condition]) => holds(condition, given))?.[1] ?? null,
    };
  }

  /**
   * @param {BaybookSumAnswer} answer
   * @param {Given} given
   */
  function ofAnswer(answer, given) {
    const list = answer.each === undefined ? undefined : given.names.get(answer.each);
    if (list === undefined || !("many" in list)) {
      return [one(answer, null, given)];
    }
    const typed = given.members.get(answer.each ?? "") ?? [];
    return list.many.map((member, place) => {
      given.names.set("one", real.exact(member));
      return one(answer, typed[place] ?? "", given);
    });
  }

  compute.sums = {
    work(sum, typed) {
      try {
        const given = read(sum, typed);
        for (const [name, text] of sum.steps) {
          given.names.set(name, value(text, given));
        }
        for (const [condition, message] of sum.must) {
          if (!holds(condition, given)) {
            const examples = sum.inputs.map((input) => `${input.key} ${input.example}`);
            throw new SumError(null, message, `as an example: ${examples.join(", ")}`);
          }
        }
        const wanted = sum.answers.filter(({ when }) => when === undefined || holds(when, given));
        const results = wanted.flatMap((answer) => ofAnswer(answer, given));
        return { results, notes: sum.notes.filter(([condition]) => holds(condition, given)).map(([, note]) => note) };
      } catch (problem) {
        if (problem instanceof SumError) {
          return { refused: { input: problem.input, message: problem.message, help: problem.help } };
        }
        throw problem;
      }
    },
  };
})();
