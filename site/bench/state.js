// @ts-check
/*
 * State first: a limit holds in its state, and some readings say nothing unless more is so (a full battery
 * for a cranking test), so the sheet asks about it once, before the readings that ask for the same. The
 * answer stays with the job; while it is missing or no, nothing is judged.
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
    const buttons = /** @type {NodeListOf<HTMLButtonElement>} */ (block.querySelectorAll("[data-state]"));
    const note = /** @type {HTMLElement} */ (block.querySelector(".answered"));
    for (const button of buttons) {
      button.addEventListener("click", () => give(bench, row.asks, /** @type {Answer} */ (button.dataset.state)));
    }
    const kept = baybookDraw.make("button", { type: "button", class: "then-too", hidden: true });
    kept.addEventListener("click", () =>
      bench.act("the state of earlier readings", (job) => baybookJudging.answer(job, row.asks, true)),
    );
    block.append(kept);
    bench.painters.push((only) => {
      if (only && only.asks !== row.asks) {
        return;
      }
      const given = bench.shelf.job?.states[row.asks];
      block.dataset.answer = given?.answer ?? "unanswered";
      buttons.forEach((button) => {
        button.setAttribute("aria-pressed", String(button.dataset.state === given?.answer));
        button.disabled = !bench.free();
      });
      const other = baybookJudging.otherwise(bench.shelf.job, row.asks);
      kept.hidden = other === 0;
      kept.disabled = !bench.free();
      const were = `${other} ${other === 1 ? "reading keeps" : "readings keep"} what was said before. `;
      kept.textContent = `${were}${given?.answer === "met" ? "It was so then too" : "It was not so then either"}`;
      note.textContent = given ? `${given.answer === "met" ? "Said to be so" : "Said not to be so"} at ${baybookWords.clock(given.time)}` : "";
    });
  }

  /**
   * An answer holds from now on. What was read before keeps the state it was read in: an engine that has
   * warmed up was cold all the same when its lash was measured.
   * @param {Bench} bench @param {string} asks @param {Answer} answer
   */
  function give(bench, asks, answer) {
    const words = `${answer === "met" ? "said to be" : "said not to be"}: ${baybookWords.condition(asks).join(", ")}`;
    bench.act(words, (job) => {
      if (job.states[asks]?.answer === answer) {
        delete job.states[asks];
      } else {
        job.states[asks] = { answer, time: new Date().toISOString() };
      }
      baybookJudging.answer(job, asks, false);
    });
  }

  globalThis.baybookStates = { build, give };
})();
