// @ts-check
/*
 * When a procedure is proved, and what it has left open on the way. No DOM here. Proved is said only
 * when nothing is missing; whatever is missing is named.
 */
(() => {
  "use strict";

  /**
   * What stands open: its step is ticked, and the one that closes it is not.
   * @template {{ what: string, from: string, until: string }} T
   * @param {T[]} items
   * @param {Record<string, string>} ticked
   */
  function leftOpen(items, ticked) {
    return items.filter(({ from, until }) => ticked[from] !== undefined && ticked[until] === undefined);
  }

  /**
   * What every procedure of a job has left open, with the step that closes it where the record says so.
   * @param {Job} job @returns {LeftOpen[]}
   */
  function standing(job) {
    return Object.entries(job.open).flatMap(([procedure, things]) =>
      things.map((what) => ({ procedure, what, step: job.closes_at?.[procedure]?.[what] ?? null })));
  }

  /**
   * What is missing to a proof, in words.
   * @param {{ steps: string[], ticked: Record<string, string>, open: { what: string, until: string }[],
   *   readings: { title: string, judged: Verdict["verdict"] | null }[] }} facts
   * @returns {string[]}
   */
  function missing({ steps, ticked, open, readings }) {
    const undone = steps.filter((step) => ticked[step] === undefined);
    const few = undone.slice(0, 6).join(", ");
    const said = undone.length > 6 ? `${few} and ${undone.length - 6} more` : few;
    /** @type {[VerdictWord | null, string][]} */
    const faults = [[null, "no reading of"], ["out of spec", "out of spec:"], ["too close to call", "too close to call:"], ["cannot judge", "not judged:"]];
    return [
      ...(undone.length > 0 ? [`${undone.length === 1 ? "step" : "steps"} ${said} not ticked`] : []),
      ...open.map(({ what, until }) => `left open: ${what} (step ${until})`),
      ...faults.flatMap(([judged, words]) => readings.filter((one) => one.judged === judged).map((one) => `${words} ${one.title}`)),
    ];
  }

  globalThis.baybookEnds = { leftOpen, standing, missing };
})();
