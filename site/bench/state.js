// @ts-check
/*
 * State first: a limit holds in its state, so the sheet asks about it once, before the readings that
 * ask for the same. The answer stays with the job; while it is missing or no, nothing is judged.
 */
(() => {
  "use strict";
  const { make } = baybookDraw;

  /** @type {[Answer, string][]} */
  const ANSWERS = [
    ["met", "Yes, it is so"],
    ["unmet", "No, not now"],
  ];

  /** @param {Bench} bench */
  function build(bench) {
    /** @type {Row | null} */
    let before = null;
    /** @type {Set<string>} */
    const asked = new Set();
    for (const row of bench.rows) {
      const follows = before !== null && before.when === row.when && before.element.parentElement === row.element.parentElement;
      if (row.when !== "" && !follows) {
        ask(bench, row).toggleAttribute("data-again", asked.has(row.when));
        asked.add(row.when);
      }
      before = row;
    }
  }

  /** @param {Bench} bench @param {Row} row the first of its block */
  function ask(bench, row) {
    const said = make("p", { class: "holds" }, "These limits hold with: ", make("b", {}, baybookWords.condition(row.when).join(" · ")), ". Is it so?");
    const buttons = ANSWERS.map(([answer, words]) => {
      const button = make("button", { type: "button", "data-state": answer, "aria-pressed": "false" }, words);
      button.addEventListener("click", () => give(bench, row.when, answer));
      return button;
    });
    const note = make("p", { class: "answered" });
    const block = make("div", { class: "state", role: "group", "aria-label": `State for ${row.title}`, "data-asks": row.when }, said, make("div", { class: "answers" }, ...buttons), note);
    row.element.before(block);
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
    return block;
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
