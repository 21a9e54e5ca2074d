// @ts-check
/*
 * What lies between two points of a table, both ways: on a straight line, or, for a thermistor, with the
 * logarithm of its resistance a straight line over the reciprocal of the absolute temperature. Nothing is
 * guessed beyond the points.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, real } = compute;

  const [ZERO, ONE, ZERO_CELSIUS] = [new Rational(0), new Rational(1), new Rational(27315, 100)];

  /** A formula that has no value, and what to do about it. */
  class NoValue extends Error {
    /**
     * @param {string} message
     * @param {string} help
     */
    constructor(message, help) {
      super(message);
      this.help = help;
    }
  }

  const AGAIN = "look at the inputs again";
  const none = {
    defect: (/** @type {string} */ what) => new NoValue(`the formula is wrong: ${what}`, "this is a defect of baybook"),
    divided: () => new NoValue("these numbers lead to a division by zero", AGAIN),
    undefined: (/** @type {string} */ name) => new NoValue(`these numbers have no ${name}`, AGAIN),
    beyond: () =>
      new NoValue(
        "it lies outside the points that are given, and nothing is guessed beyond them",
        "measure at a point that the manual gives, or between two of them",
      ),
    badPoints: () =>
      new NoValue(
        "the points do not run one way",
        "write two points or more, each input once, with values that only rise or only fall",
      ),
  };

  /**
   * The reciprocal of an absolute temperature, from degrees Celsius.
   * @param {BaybookRational} celsius
   */
  function kelvinPart(celsius) {
    const kelvin = celsius.plus(ZERO_CELSIUS);
    if (kelvin.sign() <= 0) {
      throw none.undefined("absolute temperature");
    }
    return ONE.over(kelvin);
  }

  /** @param {BaybookRational} of */
  function ln(of) {
    const found = real.ln(of);
    if (found === null) {
      throw none.undefined("logarithm");
    }
    return found.value;
  }

  /**
   * How far `at` lies on the way from `from` to `to`.
   * @param {BaybookRational} from
   * @param {BaybookRational} to
   * @param {BaybookRational} at
   */
  function share(from, to, at) {
    const whole = to.minus(from);
    if (whole.sign() === 0) {
      throw none.divided();
    }
    return at.minus(from).over(whole);
  }

  /**
   * @param {BaybookRational} from
   * @param {BaybookRational} to
   * @param {BaybookRational} part
   */
  const between = (from, to, part) => from.plus(to.minus(from).times(part));

  /**
   * @param {string} name
   * @param {BaybookPoint[]} table
   * @param {BaybookRational} at
   * @returns {BaybookReal}
   */
  function along(name, table, at) {
    const back = name.startsWith("back_");
    const points = [...table].sort((a, b) => a[0].compare(b[0]) || a[1].compare(b[1]));
    const pairs = points.slice(1).map((point, place) => /** @type {const} */ ([points[place] ?? point, point]));
    const rising = pairs.every(([a, b]) => a[1].compare(b[1]) < 0);
    const falling = pairs.every(([a, b]) => a[1].compare(b[1]) > 0);
    if (points.length < 2 || pairs.some(([a, b]) => a[0].equals(b[0])) || (back && !rising && !falling)) {
      throw none.badPoints();
    }
    const input = (/** @type {BaybookPoint} */ point) => (back ? point[1] : point[0]);
    const output = (/** @type {BaybookPoint} */ point) => (back ? point[0] : point[1]);
    const there = points.find((point) => input(point).equals(at));
    if (there !== undefined) {
      return real.exact(output(there));
    }
    const pair = pairs.find(([a, b]) => input(a).compare(at) < 0 !== input(b).compare(at) < 0);
    if (pair === undefined) {
      throw none.beyond();
    }
    const [a, b] = pair;
    if (name === "thermistor") {
      const part = share(kelvinPart(input(a)), kelvinPart(input(b)), kelvinPart(at));
      const reads = real.exp(between(ln(output(a)), ln(output(b)), part));
      if (reads === null) {
        throw none.undefined("power");
      }
      return reads;
    }
    if (name === "back_thermistor") {
      const part = between(kelvinPart(output(a)), kelvinPart(output(b)), share(ln(input(a)), ln(input(b)), ln(at)));
      if (part.sign() === 0) {
        throw none.divided();
      }
      return { value: ONE.over(part).minus(ZERO_CELSIUS), rough: true };
    }
    return real.exact(between(output(a), output(b), share(input(a), input(b), at)));
  }

  compute.curve = { NoValue, none, along, zero: ZERO, one: ONE };
})();
