// @ts-check
/* The end of a value: its unit, and whatever should not stand after it. */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { problems, units } = compute;
  const { trim } = compute.letters;

  /**
   * The unit between two places of a text.
   * @param {string} text
   * @param {BaybookDraft} draft
   * @param {[number, number]} range
   */
  function unit(text, draft, [from, to]) {
    const found = trim(text.slice(from, to));
    const at = from + text.slice(from).indexOf(found);
    if (found === "") {
      throw problems.noUnit(text.slice(draft.start, draft.end));
    }
    const known = units.known(found);
    if (found.startsWith(":")) {
      return ratio(text, draft, found, at + found.length);
    }
    if (known !== null) {
      return known;
    }
    try {
      return units.parse(found);
    } catch (problem) {
      const refusal = /** @type {BaybookRefusal} */ (problem);
      const after = refusal.sort === "ambiguous" ? null : (compute.meant?.afterUnit(draft.shape, found) ?? null);
      throw after ?? Object.assign(refusal, { at });
    }
  }

  /**
   * `9.5:1`, whose second number must be 1: a ratio the other way round is not turned silently.
   * @param {string} text
   * @param {BaybookDraft} draft
   * @param {string} found
   * @param {number} end
   */
  function ratio(text, draft, found, end) {
    const second = trim(found.slice(1));
    const toOne = units.known(":1");
    if (second === "1" && toOne !== null) {
      return toOne;
    }
    const { shape } = draft;
    const turned = shape.form === "single" && shape.number.text === "1" && isNumber(second);
    throw problems.malformed(text.slice(draft.start, end), turned ? [`${second}:1`] : [], draft.start);
  }

  /** @param {string} text */
  function isNumber(text) {
    try {
      return trim(text.slice(compute.number.scan(text, 0).end)) === "";
    } catch {
      return false;
    }
  }

  compute.ending = { unit };
})();
