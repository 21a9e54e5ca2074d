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
      const after = refusal.sort === "ambiguous" ? null : afterUnit(draft.shape, found);
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

  /**
   * Whether a text is a unit with something after it: then that is the error.
   * @param {BaybookShape} shape
   * @param {string} text
   */
  function afterUnit(shape, text) {
    const leading = leadingUnit(text);
    if (leading === null) {
      return null;
    }
    const found = trim(text.slice(leading.length));
    if (["..", "…", "–", "to "].some((joint) => found.startsWith(joint))) {
      return problems.unitTwice(null);
    }
    const word = found.replace(/\.+$/, "").toLowerCase();
    const bound = shape.form === "single" && ["min", "max", "over", "under"].includes(word);
    const offer = bound ? `${word} ${leading.unit.after(shape.number.text)}` : null;
    return problems.trailing(found, offer);
  }

  /**
   * The longest unit that a text begins with, apart from what follows, and its length.
   * @param {string} text
   */
  function leadingUnit(text) {
    const letters = [...text];
    for (let count = letters.length - 1; count >= 0; count -= 1) {
      const before = letters.slice(0, count).join("");
      const head = trim(before);
      const apart = !/[\p{Alphabetic}\p{N}]/u.test(letters[count] ?? "") || head.length < before.length;
      const unit = apart && head !== "" && !head.endsWith(".") ? units.known(head) : null;
      if (unit !== null) {
        return { unit, length: head.length };
      }
    }
    return null;
  }

  compute.ending = { unit };
})();
