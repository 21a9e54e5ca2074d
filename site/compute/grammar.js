// @ts-check
/*
 * Reads the text of a value, left to right, into its shape and unit: the grammar of a spec base.
 *
 * Invariant: every letter is accounted for; what is no value is refused in the user's own words.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, problems } = compute;
  const { trim, bytes } = compute.letters;
  const { SIGNS, Cursor } = compute.cursor;

  /** The longest text taken for a value, in bytes. */
  const LONGEST = 200;

  /**
   * @param {BaybookShape} shape
   * @param {...BaybookPlaced} placed
   * @returns {BaybookDraft}
   */
  const draft = (shape, ...placed) => ({
    shape,
    start: Math.min(...placed.map((one) => one.start)),
    end: Math.max(...placed.map((one) => one.end)),
  });

  /**
   * A limit on one side: nothing may be joined to its number.
   * @param {BaybookCursor} cursor
   * @param {BaybookBound} bound
   * @param {BaybookPlaced} placed
   */
  function bounded(cursor, bound, placed) {
    const start = cursor.at;
    if (cursor.joint() !== null) {
      throw problems.trailing(trim(cursor.text.slice(start)), null);
    }
    return draft({ form: bound, number: placed.number }, placed);
  }

  /**
   * @param {BaybookCursor} cursor
   * @param {BaybookPlaced} first
   */
  function joined(cursor, first) {
    switch (cursor.joint()) {
      case null:
        return draft({ form: "single", number: first.number }, first);
      case "range":
        return range(cursor, first);
      case "plus-minus": {
        const tolerance = cursor.tolerance();
        const { number } = tolerance;
        return draft({ form: "tolerance", nominal: first.number, plus: number, minus: number }, first, tolerance);
      }
      case "plus":
        return uneven(cursor, first, true);
      case "minus":
        return uneven(cursor, first, false);
      case "doubtful":
        throw oneSided(cursor, first, cursor.number(), false);
    }
  }

  /**
   * @param {BaybookCursor} cursor
   * @param {BaybookPlaced} min
   */
  function range(cursor, min) {
    // Of `0.15...25` nobody can say whether the second end is 25 or .25.
    if (cursor.text.slice(Math.max(cursor.at - 2, 0)).startsWith("...")) {
      throw problems.noNumber("...");
    }
    cursor.skipSpaces();
    cursor.lonePlus();
    const max = cursor.number();
    if (min.number.exact.compare(max.number.exact) > 0) {
      throw problems.rangeReversed(min.number.text, max.number.text);
    }
    return draft({ form: "range", min: min.number, max: max.number }, min, max);
  }

  /**
   * `20 +2/-1` and `20 -1/+2`; the first sign is behind the cursor.
   * @param {BaybookCursor} cursor
   * @param {BaybookPlaced} nominal
   * @param {boolean} plusFirst
   */
  function uneven(cursor, nominal, plusFirst) {
    const first = cursor.tolerance();
    cursor.skipSpaces();
    const slash = cursor.eat("/");
    cursor.skipSpaces();
    if (!(plusFirst ? cursor.eatMinus() : cursor.eat("+"))) {
      if (slash) {
        cursor.tolerance(); // Two of one sign: named as such.
      }
      throw oneSided(cursor, nominal, first, plusFirst);
    }
    const second = cursor.tolerance();
    const [plus, minus] = plusFirst ? [first, second] : [second, first];
    const shape = { form: /** @type {const} */ ("tolerance"), nominal: nominal.number, plus: plus.number, minus: minus.number };
    return draft(shape, nominal, first, second);
  }

  /**
   * A tolerance with one sign only, or two numbers with a dash between them.
   * @param {BaybookCursor} cursor
   * @param {BaybookPlaced} first
   * @param {BaybookPlaced} second
   * @param {boolean} plus
   */
  function oneSided(cursor, first, second, plus) {
    const [low, high] = [first.number, second.number];
    const up = low.exact.compare(high.exact) <= 0;
    const mixed = `${low.text} ${high.text}`; // `1-1/2` as the inch trade writes one and a half.
    const proper = /^\d+\/\d+$/.test(high.text) && high.exact.compare(new Rational(1n)) < 0;
    const glued = cursor.text.slice(first.end, second.start) === "-";
    const isMixed = !plus && !up && glued && proper && /^\d+$/.test(low.text);
    const offer = isMixed ? mixed : plus ? `${low.text} +${high.text}/-0` : up ? `${low.text}..${high.text}` : `${low.text} +0/-${high.text}`;
    return problems.malformed(cursor.text.slice(first.start, second.end), [offer], first.start);
  }

  /**
   * Reads the unit, and the percentage that may follow it.
   * @param {BaybookCursor} cursor
   * @param {BaybookDraft} drafted
   * @returns {{ shape: BaybookShape, unit: BaybookUnit }}
   */
  function finish(cursor, drafted) {
    cursor.skipSpaces();
    const rest = cursor.rest();
    const signs = SIGNS.map((sign) => ({ at: rest.indexOf(sign), length: sign.length }));
    const joint = signs.filter(({ at }) => at >= 0).sort((a, b) => a.at - b.at || a.length - b.length)[0];
    const end = joint === undefined ? cursor.text.length : cursor.at + joint.at;
    const unit = compute.ending.unit(cursor.text, drafted, [cursor.at, end]);
    if (joint === undefined) {
      return { shape: drafted.shape, unit };
    }
    cursor.at = end + joint.length;
    return { shape: percent(cursor, drafted.shape, unit, end), unit };
  }

  /**
   * `10 %` after the `±` of `2.45 kΩ ± 10 %`, which begins at `joint`.
   * @param {BaybookCursor} cursor
   * @param {BaybookShape} shape
   * @param {BaybookUnit} unit
   * @param {number} joint
   * @returns {BaybookShape}
   */
  function percent(cursor, shape, unit, joint) {
    if (shape.form !== "single") {
      throw problems.trailing(trim(cursor.text.slice(joint)), null);
    }
    const { number } = cursor.tolerance();
    if (trim(cursor.rest()) !== "%") {
      throw problems.unitTwice(`${shape.number.text} ± ${unit.after(number.text)}`);
    }
    if (unit.symbol === "%") {
      throw problems.percentOfPercent(shape.number.text, number.text);
    }
    if (number.exact.compare(Rational.tenTo(2)) >= 0) {
      throw problems.percentTooLarge(number.text);
    }
    return { form: "percent-tolerance", nominal: shape.number, percent: number };
  }

  /**
   * @param {string} text
   * @returns {{ shape: BaybookShape, unit: BaybookUnit }}
   */
  function read(text) {
    if (bytes(text) > LONGEST) {
      throw problems.tooLong(bytes(text), LONGEST);
    }
    if (trim(text) === "") {
      throw problems.empty();
    }
    const cursor = new Cursor(text);
    cursor.skipSpaces();
    const bound = cursor.bound();
    const plus = cursor.lonePlus();
    const first = cursor.number();
    const { shape, unit } = finish(cursor, bound === null ? joined(cursor, first) : bounded(cursor, bound, first));
    // A plus sign before an angle or turns means "further by"; elsewhere it says nothing.
    const turned = plus && shape.form === "single" && (unit.kind === "angle" || unit.kind === "turns");
    return { shape: turned ? { form: "turn", number: shape.number } : shape, unit };
  }

  compute.grammar = { read };
})();
