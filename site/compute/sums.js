// @ts-check
/*
 * The bench sums as the compiler reckons them, from its own table: what is typed in any unit, exact answers,
 * one rounding for people, and what to say.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, units, formula, real } = compute;
  const { NoValue } = compute.curve;
  const { SumError, read } = compute.sumGiven;

  const DECIMALS = 12;

  /**
   * @param {string} text
   * @param {BaybookSumGiven} given
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
   * @param {BaybookSumGiven} given
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
   * The unit of an answer in `own` for one who types in `typed`: of a difference of temperatures, that of the same size.
   * @param {BaybookUnit} own
   * @param {BaybookUnit} typed
   */
  function ownUnit(own, typed) {
    if (own.kind === "temperature-difference" && typed.kind === "temperature") {
      const one = new Rational(1);
      return units.all.find((unit) => unit.kind === own.kind && unit.ratioTo(typed).compare(one) === 0);
    }
    return own.convertsTo(typed) ? typed : undefined;
  }

  /**
   * @param {BaybookSumAnswer} answer
   * @param {string | null} of
   * @param {BaybookSumGiven} given
   * @returns {BaybookSumResult}
   */
  function one(answer, of, given) {
    const found = value(answer.formula, given);
    const own = answer.unit === "" ? null : units.parse(answer.unit);
    const like = given.units.get(answer.like ?? "");
    const unit = own !== null && like !== undefined ? (ownUnit(own, like) ?? own) : own;
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
   * @param {BaybookSumGiven} given
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
