// @ts-check
/*
 * Functions whose values are no fractions, worked out in whole numbers to 40 decimals and kept to 24, by the
 * same steps as the compiler, so that both give the same digits.
 *
 * Invariant: no floating point; a value that is a fraction, such as the cosine of 60°, comes out as it.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational } = compute;

  const ONE = 10n ** 40n;
  const KEPT = Rational.tenTo(-24);
  const [ZERO, UNIT, TWO] = [new Rational(0), new Rational(1), new Rational(2)];
  const FURTHEST = new Rational(200);
  const HALVINGS = 145;
  const PI = new Rational(3141592653589793238462643383279502884197169399375106n, 10n ** 51n);
  /** Twice the cosine, at the angles where it is a fraction (Niven's theorem). */
  const KNOWN = [[0, 2], [60, 1], [90, 0], [120, -1], [180, -2], [240, -1], [270, 0], [300, 1]];

  /**
   * @param {BaybookRational} value
   * @returns {BaybookReal}
   */
  const exact = (value) => ({ value, rough: false });

  /**
   * @param {BaybookRational} value
   * @returns {BaybookReal}
   */
  const rough = (value) => ({ value: value.roundedTo(KEPT, "half-even"), rough: true });

  /** @param {BaybookRational} value */
  const fixed = (value) => value.times(new Rational(ONE)).floor();

  /** @param {bigint} value */
  const fromFixed = (value) => new Rational(value, ONE);

  /**
   * The whole part of a square root.
   * @param {bigint} of
   */
  function root(of) {
    if (of < 2n) {
      return of;
    }
    let guess = 1n << BigInt(Math.ceil(of.toString(2).length / 2));
    for (;;) {
      const next = (guess + of / guess) / 2n;
      if (next >= guess) {
        return guess;
      }
      guess = next;
    }
  }

  /** @param {BaybookRational} of */
  function sqrt(of) {
    if (of.sign() < 0) {
      return null;
    }
    const [above, below] = [root(of.numer), root(of.denom)];
    if (above * above === of.numer && below * below === of.denom) {
      return exact(new Rational(above, below));
    }
    return rough(fromFixed(root((of.numer * ONE * ONE) / of.denom)));
  }

  /**
   * ln m = 2·artanh((m − 1)/(m + 1)), m between 1 and 2.
   * @param {bigint} of
   */
  function lnFixed(of) {
    const ratio = ((of - ONE) * ONE) / (of + ONE);
    let [term, sum, place] = [ratio, 0n, 1n];
    for (; term !== 0n; place += 2n) {
      sum += term / place;
      term = (((term * ratio) / ONE) * ratio) / ONE;
    }
    return sum * 2n;
  }

  const LN_2 = lnFixed(ONE * 2n);

  /** @param {BaybookRational} of */
  function ln(of) {
    if (of.sign() <= 0) {
      return null;
    }
    if (of.equals(UNIT)) {
      return exact(ZERO);
    }
    let [rest, doublings] = [of, 0n];
    for (; rest.compare(TWO) >= 0; doublings += 1n) {
      rest = rest.over(TWO);
    }
    for (; rest.compare(UNIT) < 0; doublings -= 1n) {
      rest = rest.times(TWO);
    }
    return rough(fromFixed(lnFixed(fixed(rest)) + LN_2 * doublings));
  }

  /** @param {BaybookRational} of */
  function exp(of) {
    if (of.sign() === 0) {
      return exact(UNIT);
    }
    if (of.size().compare(FURTHEST) > 0) {
      return null;
    }
    const whole = fixed(of);
    const doublings = new Rational(whole, LN_2).floor();
    const rest = whole - doublings * LN_2;
    let [term, sum, place] = [ONE, 0n, 1n];
    for (; term !== 0n; place += 1n) {
      sum += term;
      term = (term * rest) / ONE / place;
    }
    const power = doublings < 0n ? new Rational(1n, 2n ** -doublings) : new Rational(2n ** doublings);
    return rough(fromFixed(sum).times(power));
  }

  /**
   * @param {BaybookRational} base
   * @param {BaybookRational} exponent
   */
  function power(base, exponent) {
    if (exponent.denom === 1n && exponent.size().compare(new Rational(64)) <= 0) {
      if (base.sign() === 0 && exponent.sign() < 0) {
        return null;
      }
      const raised = exponent.size().numer;
      const whole = new Rational(base.numer ** raised, base.denom ** raised);
      return exact(exponent.sign() < 0 ? UNIT.over(whole) : whole);
    }
    const logarithm = ln(base);
    return logarithm && exp(logarithm.value.times(exponent));
  }

  /** @param {bigint} degrees */
  function cosFixed(degrees) {
    const angle = (degrees * fixed(PI)) / (ONE * 180n);
    const square = (angle * angle) / ONE;
    let [term, sum, place] = [ONE, 0n, 1n];
    for (; term !== 0n; place += 2n) {
      sum += term;
      term = -((term * square) / ONE) / (place * (place + 1n));
    }
    return sum;
  }

  /** @param {BaybookRational} degrees */
  function cos(degrees) {
    const whole = new Rational(360);
    const angle = degrees.minus(new Rational(degrees.over(whole).floor()).times(whole));
    for (const [known = 0, twice = 0] of KNOWN) {
      if (angle.equals(new Rational(known))) {
        return exact(new Rational(twice, 2));
      }
    }
    return rough(fromFixed(cosFixed(fixed(angle))));
  }

  /** @param {BaybookRational} degrees */
  const sin = (degrees) => cos(degrees.minus(new Rational(90)));

  /** @param {BaybookRational} cosine */
  function acos(cosine) {
    if (cosine.size().compare(UNIT) > 0) {
      return null;
    }
    const known = KNOWN.find(([angle = 0, twice = 0]) => angle <= 180 && cosine.equals(new Rational(twice, 2)));
    if (known !== undefined) {
      return exact(new Rational(known[0] ?? 0));
    }
    const wanted = fixed(cosine);
    let [low, high] = [0n, ONE * 180n];
    for (let halving = 0; halving < HALVINGS; halving += 1) {
      const middle = (low + high) / 2n;
      if (cosFixed(middle) > wanted) {
        low = middle;
      } else {
        high = middle;
      }
    }
    return rough(fromFixed(low));
  }

  compute.real = { exact, pi: { value: PI, rough: true }, sqrt, ln, exp, power, cos, sin, acos };
})();
