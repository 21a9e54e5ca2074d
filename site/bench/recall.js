// @ts-check
/*
 * A record against what its handbook knows now: a reading that was judged by a value recalled as wrong warns,
 * whatever its verdict says, and one that another release judged is said to be so. No DOM here.
 */
(() => {
  "use strict";

  /**
   * True if a reading was judged by a recalled value: at that place and state, by that very limit or under one
   * of the releases that stated it.
   * @param {Job} job @param {Reading} reading @param {RecallFacts} recall
   */
  function hits(job, reading, recall) {
    const { window, new: fresh, wear_limit } = reading.limits;
    const same = job.build.id.split("~")[0] === recall.engine && reading.of === recall.of && reading.where === recall.where && reading.when === recall.when;
    return same && ([...window, ...fresh, ...wear_limit].includes(recall.value) || recall.releases.includes(reading.release));
  }

  /**
   * What is to be said of the values a record stands on; none where it is in order.
   * @param {Job} job @returns {string[]}
   */
  function warnings(job) {
    const recalls = globalThis.baybookRecalls ?? [];
    return recalls.flatMap((recall) => {
      const hit = job.readings.find((reading) => hits(job, reading, recall));
      const where = hit ? [hit.title, ...baybookWords.condition(recall.where), ...baybookWords.condition(recall.when)].join(", ") : "";
      return hit ? [`Recalled: ${where}: ${recall.value} of release ${recall.releases.join(", ")} is wrong. ${recall.because}`] : [];
    });
  }

  /**
   * That readings were judged by another release than this handbook's; empty where none was.
   * @param {Job} job @param {{ release: string, content: string }} now
   */
  function older(job, now) {
    const others = baybookRecord.standing(job).filter((one) => one.content !== now.content);
    const releases = [...new Set(others.map((one) => one.release))].join(", ");
    return others.length === 0 ? "" : `Judged under release ${releases}; this handbook is release ${now.release}.`;
  }

  globalThis.baybookRecall = { warnings, older };
})();
