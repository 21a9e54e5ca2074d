// @ts-check
/*
 * State first: a limit holds in its state, so the sheet asks about it once, before the readings that
 * ask for the same. The answer stays with the job; while it is missing or no, nothing is judged.
 */
(() => {
  "use strict";
  /** Takes over the questions that stand on the sheet. @param {Bench} bench */
  function build(bench) {
    for (const row of bench.rows) {
      const block = /** @type {HTMLElement | null} */ (row.element.previousElementSibling);
      if (block?.dataset.asks !== undefined) {
        ask(bench, row, block);
      }
    }
  }

  /** @param {Bench} bench @param {Row} row the first of its block @param {HTMLElement} block */
  function ask(bench, row, block) {
    const buttons = [...block.querySelectorAll("button")];
    const note = /** @type {HTMLElement} */ (block.querySelector(".answered"));
    for (const button of buttons) {
      button.addEventListener("click", () => give(bench, row.when, /** @type {Answer} */ (button.dataset.state)));
    }
    bench.painters.push((only) => {
      if (only && only.when !== row.when) {
        return;
      }
      const given = bench.shelf.job?.states[row.when];
      block.dataset.answer = given?.answer ?? "unanswered";
      buttons.forEach((button) => {
        button.setAttribute("aria-pressed", String(button.dataset.state === given?.answer));
        button.disabled = !bench.free();
      });
      note.textContent = given ? `${given.answer === "met" ? "Said to be so" : "Said not to be so"} at ${baybookWords.clock(given.time)}` : "";
    });
  }

  /** @param {Bench} bench @param {string} when @param {Answer} answer */
  function give(bench, when, answer) {
    const words = `${answer === "met" ? "said to be" : "said not to be"}: ${baybookWords.condition(when).join(", ")}`;
    bench.act(words, (job) => {
      if (job.states[when]?.answer === answer) {
        delete job.states[when];
      } else {
        job.states[when] = { answer, time: new Date().toISOString() };
      }
      baybookJudging.again(bench, job);
    });
  }

  globalThis.baybookStates = { build, give };
})();
