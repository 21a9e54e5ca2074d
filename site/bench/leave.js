// @ts-check
/*
 * How a job leaves the bench: closed, which is refused while a procedure has left something open, or parked, which is
 * always possible and loses nothing.
 */
(() => {
  "use strict";
  const { make } = baybookDraw;
  const root = document.body.dataset.root ?? "";

  /** Closes a job that has nothing left open; whether it did. @param {Bench} bench @param {Job} job @param {string} words */
  function close(bench, job, words) {
    const free = baybookEnds.standing(job).length === 0;
    if (free) {
      bench.take(words, null, { ...job, closed: new Date().toISOString() });
    }
    return free;
  }

  /** @param {Bench} bench @param {Job} job */
  function park(bench, job) {
    bench.take("the job was parked", null, job);
  }

  /** Where what is left open is closed: its step, or in another release the engine sheet. @param {Bench} bench @param {Job} job @param {LeftOpen} one */
  function way(bench, job, { procedure, step }) {
    const same = job.written["last content"] === bench.base.content;
    const file = same && /^[a-z0-9.-]+$/.test(procedure) ? `${procedure}.html#${step === null ? "open-ends" : `step-${encodeURIComponent(step)}`}` : "engine.html";
    return `${root}builds/${encodeURIComponent(job.build.id)}/${file}`;
  }

  /** What is left open, each with the way to where it is closed. @param {Bench} bench @param {Job} job @param {() => void} [gone] */
  function list(bench, job, gone) {
    const lines = baybookEnds.standing(job).map((one) => {
      const link = make("a", { class: "door", href: way(bench, job, one) }, make("b", {}, one.what), make("span", {}, [one.procedure, one.step === null ? "" : `closed at step ${one.step}`].filter(Boolean).join(", ")));
      link.addEventListener("click", () => gone?.());
      return make("li", {}, link);
    });
    return make("ul", { class: "doors still-open" }, ...lines);
  }

  /** What keeps a job from being closed. @param {Job} job */
  function refusal(job) {
    const many = baybookEnds.standing(job).length;
    return `Not closed: ${many === 1 ? "one thing is" : `${many} things are`} still open. Close ${many === 1 ? "it" : "them"} and tick the step, or park the job.`;
  }

  /** What a job that is closed lacks, in words: said, and no bar. @param {Job} job */
  function lacks(job) {
    const unproved = Object.entries(job.steps).filter(([id, ticked]) => Object.keys(ticked).length > 0 && job.proofs[id] === undefined);
    const measured = baybookRecord.standing(job);
    const stop = measured.filter((one) => baybookVerdict.mustStop(one));
    return [
      ...(stop.length > 0 ? [` Do not run: ${[...new Set(stop.map(({ title }) => title))].join(", ")} out of spec.`] : []),
      ...(unproved.length > 0 ? [` No proof was given for ${unproved.map(([id]) => id).join(", ")}.`] : []),
      ...(measured.some((one) => one.stop !== undefined) && !job.written["second"] ? [" No second person is written in for critical items."] : []),
    ].join("");
  }

  globalThis.baybookLeave = { close, park, list, refusal, lacks };
})();
