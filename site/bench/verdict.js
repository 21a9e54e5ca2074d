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
   * @param {Judgeable} reading
   * @returns {{ text: string, judged: Verdict }}
   */
  function judge(reading) {
    const { typed } = reading;
    if (typeof baybookCompute === "undefined") {
      return { text: inFull(typed, null), judged: unjudged("this copy of the handbook has no arithmetic") };
    }
    const { texts, because } = parts(typed);
    if (texts === null) {
      return { text: inFull(typed, null), judged: unjudged(because) };
    }
    const answer = baybookCompute.judge(question(reading, texts));
    return { text: inFull(typed, texts), judged: "error" in answer ? unjudged(answer.error.message) : answer };
  }

  /** @param {Judgeable} reading @param {Record<string, string>} texts */
  function question({ limits, asks, state, fitting, gauge_facts }, texts) {
    const { below, above, window, new: fresh, wear_limit } = limits;
    return {
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
  }

  /**
   * The side of the limits that a reading lies on. It is told by the comparison, never by the trade's words: one
   * entry is late below its limits, and another above them.
   * @param {Judgeable} reading @returns {Side}
   */
  function side(reading) {
    const limits = { ...reading.limits, below: "below", above: "above" };
    const { verdict, direction } = judge({ ...reading, limits }).judged;
    return verdict === "cannot judge" ? "none" : direction === "below" || direction === "above" ? direction : "in";
  }

  /**
   * True where a machine so measured must not be run: out of its limits on the side that the catalogue says. The fit
   * of new parts says nothing of that: a part that is in use may lie outside it.
   * @param {Reading} reading
   */
  function mustStop(reading) {
    const { stop, judged } = reading;
    const out = stop !== undefined && judged?.verdict === "out of spec" && judged.against !== "new";
    return out && (stop === "either" || side(reading) === stop);
  }

  globalThis.baybookVerdict = { judge, side, mustStop };
})();
