// @ts-check
/*
 * Reads from the sheet what there is to judge: each row that gives limits, with its units, its usual
 * gauge and the gauges that fit. The sheet is the only source; nothing is known here that it does not say.
 * An engine sheet has the limits of its rows in a script that comes with the bench, as they are printed in the
 * rows themselves; they are put where a procedure has them.
 */
(() => {
  "use strict";

  /** @param {string | undefined} text */
  const list = (text) => (text ?? "").split(" | ").filter((one) => one !== "");

  /** @param {HTMLElement} element @returns {string} */
  function titleOf(element) {
    const title = element.querySelector("h3, .asked b");
    return (title?.textContent ?? "").replace(/^(Measure|Read|Take|Check) (the )?/, "").replace(/^./, (letter) => letter.toUpperCase());
  }

  /** @param {HTMLElement} element @returns {Row} */
  function row(element) {
    Object.assign(element.dataset, globalThis.baybookLimits?.[element.id]);
    const { spec = "", where = "", when = "", kind = "", units, window, new: fresh, wear, below, above, stop, gauge } = element.dataset;
    const limits = {
      window: list(window),
      new: list(fresh),
      wear_limit: list(wear),
      below: below ?? null,
      above: above ?? null,
    };
    const identity = { of: spec, where, when };
    return {
      ...identity,
      asks: baybookCondition.asks(element),
      element,
      key: baybookRecord.key(identity),
      title: titleOf(element),
      places: baybookWords.condition(where).join(" · "),
      kind,
      units: list(units),
      limits,
      usual: gauge ?? null,
      stop: stop === "below" || stop === "above" || stop === "either" ? stop : null,
      several: element.dataset.several !== undefined,
      signed: element.dataset.signed !== undefined,
      // Leaves are tried in a gap, which the trade calls tight or loose.
      pair: kind === "length" && below === "tight",
      worn: limits.new.length > 0 && limits.wear_limit.length > 0,
      slots: [],
    };
  }

  /** @param {HTMLElement} sheet */
  function read(sheet) {
    return [...sheet.querySelectorAll("[data-unit]")].map((one) => row(/** @type {HTMLElement} */ (one)));
  }

  /**
   * The gauges that measure this kind of quantity, the usual one first; then those of a kind that is taken
   * for it, as a plain meter for a peak: whoever used one can say so, and is told that it judges nothing.
   * @param {Row} row
   */
  function gauges(row) {
    const taken = (/** @type {string} */ kind) => kind === row.kind || (typeof baybookCompute !== "undefined" && baybookCompute.readings.alike(kind, row.kind));
    const all = Object.entries(globalThis.baybookGauges ?? {}).filter(([, facts]) => taken(facts.kind));
    return all.sort((one, other) => rank(row, other) - rank(row, one));
  }

  /** @param {Row} row @param {[string, GaugeFacts]} gauge */
  const rank = (row, [id, facts]) => Number(facts.kind === row.kind) + Number(id === row.usual);

  globalThis.baybookRows = { read, gauges };
})();
