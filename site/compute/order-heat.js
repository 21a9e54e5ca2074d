// @ts-check
/*
 * What heat costs between the checks of an order: warming before one that wants the engine hot, cooling
 * before one that wants it cold. It stands beside the order and never changes it.
 *
 * The engine is cold at first. A check done hot leaves it hot; one that voids the cold state, as starting the
 * engine does, leaves a cold engine warm, neither cold nor hot. Of the checks that are done nobody has said in
 * which order: one done hot leaves the engine hot, else one that voids the cold state leaves it warm.
 */
(() => {
  "use strict";

  const changes = {
    // Common practice, no source, both.
    warm: { words: "run the engine warm", minutes: 12 },
    cool: { words: "let the engine cool right through", minutes: 180 },
  };

  /** @param {BaybookWarmth} check */
  const voidsCold = (check) => (check.voids ?? []).includes("cold");

  /**
   * @param {BaybookWarmth[]} done
   * @param {BaybookWarmth[]} ahead
   */
  function heat(done, ahead) {
    /** @type {"cold" | "warm" | "hot"} */
    let now = done.some((one) => one.state === "hot") ? "hot" : done.some(voidsCold) ? "warm" : "cold";
    return ahead.map((check, at) => {
      const first = check.state === "cold" && now !== "cold" ? "cool" : check.state === "hot" && now !== "hot" ? "warm" : null;
      const found = first === "cool" ? "cold" : first === "warm" ? "hot" : now;
      /** @type {"cold" | "warm" | "hot"} */
      const left = check.state === "hot" ? "hot" : voidsCold(check) && found === "cold" ? "warm" : found;
      const takes = (now === "cold" || found === "cold") && left !== "cold";
      const voids = ahead.flatMap((one, place) => (takes && place > at && one.state === "cold" ? [place] : []));
      now = left;
      return { first: /** @type {"warm" | "cool" | null} */ (first), voids };
    });
  }

  baybookCompute.orderHeat = { changes, heat };
})();
