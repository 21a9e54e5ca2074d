// @ts-check
/*
 * The verdict of a reading by the arithmetic of the handbook, from nothing but what the record keeps of it: what was
 * typed, the limits, the state, the gauge. No DOM here.
 */
(() => {
  "use strict";

  /** @param {string} because @returns {Verdict} */
  function unjudged(because) {
    return { verdict: "cannot judge", as_read: null, direction: null, by: null, against: null, left: null, settle: null, because };
  }

  /**
   * Each part of a reading with its unit, or why it is none.
   * @param {Typed} typed
   */
  function parts(typed) {
    /** @type {Record<string, string>} */
    const texts = {};
    for (const name of /** @type {const} */ (["value", "goes", "stops"])) {
      const text = typed[name];
      if (text !== undefined) {
        const read = baybookCompute.reading(text, typed.unit);
        if (!read.ok) {
          return { texts: null, because: read.because };
        }
        texts[name] = read.text;
      }
    }
    return { texts, because: "" };
  }

  /** @param {Typed} typed @param {Record<string, string> | null} texts */
  function inFull(typed, texts) {
    const pairs = /** @type {const} */ (["goes", "stops"]).filter((name) => typed[name] !== undefined);
    const full = (/** @type {"value" | "goes" | "stops"} */ name) => texts?.[name] ?? `${typed[name]} ${typed.unit}`;
    return pairs.length > 0 ? pairs.map((name) => `${name} ${full(name)}`).join(", ") : full("value");
  }

  /**
   * @param {Pick<Reading, "typed" | "limits" | "asks" | "state" | "fitting" | "gauge_facts">} reading
   * @returns {{ text: string, judged: Verdict }}
   */
  function judge({ typed, limits, asks, state, fitting, gauge_facts }) {
    if (typeof baybookCompute === "undefined") {
      return { text: inFull(typed, null), judged: unjudged("this copy of the handbook has no arithmetic") };
    }
    const { texts, because } = parts(typed);
    if (texts === null) {
      return { text: inFull(typed, null), judged: unjudged(because) };
    }
    const { below, above, window, new: fresh, wear_limit } = limits;
    const asked = {
      ...(window.length > 0 && { window }),
      ...(fresh.length > 0 && { new: fresh }),
      ...(wear_limit.length > 0 && { wear_limit }),
      ...(below !== null && { below }),
      ...(above !== null && { above }),
      ...(fitting === "new" && { fitting }),
      ...(state !== null && { state, needs_state: baybookWords.condition(asks) }),
      ...(gauge_facts !== null && { gauge: gauge_facts }),
      reading: texts.value ?? { goes: texts.goes ?? null, stops: texts.stops ?? null },
    };
    const answer = baybookCompute.judge(asked);
    return { text: inFull(typed, texts), judged: "error" in answer ? unjudged(answer.error.message) : answer };
  }

  globalThis.baybookVerdict = { judge };
})();
