// @ts-check
/*
 * Where a reading falls on the drawing of its limits. The scale is that of the drawing, from its
 * `data-axis`; a reading off it is put at the end and said to be off it. No DOM here. Places are for
 * the eye alone, so they may be binary numbers; nothing is judged by them.
 */
(() => {
  "use strict";
  const WIDTH = 360;
  const EDGE = 14;

  /** An exact number as a place: a decimal, or a fraction `n/d`. @param {string | null} exact */
  function value(exact) {
    if (exact === null || !/^-?[0-9.]+(\/[0-9]+)?$/.test(exact)) {
      return null;
    }
    const [over, under] = exact.split("/");
    const number = Number(over) / Number(under ?? 1);
    return Number.isFinite(number) ? number : null;
  }

  /**
   * @param {string | null | undefined} axis `0.095 0.305`
   * @param {number} low
   * @param {number} high
   */
  function place(axis, low, high) {
    const [from = NaN, to = NaN] = (axis ?? "").split(" ").map(Number);
    if (!(to > from)) {
      return null;
    }
    const x = (/** @type {number} */ at) => EDGE + ((at - from) / (to - from)) * (WIDTH - 2 * EDGE);
    const held = (/** @type {number} */ at) => Math.min(WIDTH - 4, Math.max(4, x(at)));
    /** @type {"below" | "above" | null} */
    const off = high < from ? "below" : low > to ? "above" : null;
    return { from: held(low), to: held(high), off };
  }

  globalThis.baybookScale = { place, value };
})();
