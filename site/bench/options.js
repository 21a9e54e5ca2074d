// @ts-check
/*
 * How the reading was taken: with which gauge, as one value or as a pair of leaves, of a used part or
 * of one being fitted new. Each counts in the verdict, so each stands beside it and is kept with the job.
 */
(() => {
  "use strict";
  const { make } = baybookDraw;

  /** @param {Bench} bench @param {Slot} slot @param {HTMLElement} box */
  function paint(bench, slot, box) {
    const { row } = slot;
    const asked = baybookJudging.state(bench.shelf.job, row.asks) === "unanswered";
    const wanted = `${asked} ${row.key}`;
    if (box.dataset.row !== wanted) {
      box.dataset.row = wanted;
      const choices = asked ? ask(bench, row) : [gauges(bench, row), leaves(bench, row), parts(bench, row), make("p", { class: "instead" })];
      box.replaceChildren(...choices.filter((one) => one !== null));
      box.hidden = box.querySelector("select, button") === null;
    }
    const { job } = bench.shelf;
    const select = box.querySelector("select");
    if (select) {
      const { gauge, instead } = baybookJudging.inHand(job, row);
      select.value = gauge ?? "";
      const taken = gauge === null ? "no gauge is counted" : `${globalThis.baybookGauges[gauge]?.title} is taken`;
      note(box).textContent = instead === null ? "" : `${instead} does not reach these limits: ${taken}.`;
    }
    for (const button of /** @type {NodeListOf<HTMLElement>} */ (box.querySelectorAll("[data-option]"))) {
      const pressed = button.dataset.option === "pair" ? job?.pairs[row.key] : job?.fitting[row.key];
      button.setAttribute("aria-pressed", String(Boolean(pressed)));
    }
  }

  /** @param {HTMLElement} box */
  const note = (box) => /** @type {HTMLElement} */ (box.querySelector(".instead"));

  /** The state that the limit asks for, where nobody has said yet. @param {Bench} bench @param {Row} row */
  function ask(bench, row) {
    const words = make("p", { class: "dock-state" }, "Is it so: ", make("b", {}, baybookWords.condition(row.asks).join(" · ")), "?");
    const answers = /** @type {[Answer, string][]} */ ([["met", "Yes, it is so"], ["unmet", "No, not now"]]).map(([answer, face]) => {
      const button = make("button", { type: "button", "data-state": answer }, face);
      button.addEventListener("click", () => baybookStates.give(bench, row.asks, answer));
      return button;
    });
    return [words, ...answers];
  }

  /** @param {Bench} bench @param {Row} row */
  function gauges(bench, row) {
    const fitting = baybookRows.gauges(row);
    if (fitting.length === 0) {
      return null;
    }
    const none = make("option", { value: "" }, "gauge not said: its error is not counted");
    const choices = fitting.map(([id, facts]) => make("option", { value: id }, `${facts.title}${facts.kind === row.kind ? `, ± ${facts.error}` : ": of another sort"}${id === row.usual ? " (usual)" : ""}`));
    const select = make("select", { "aria-label": "Gauge" }, none, ...choices);
    select.addEventListener("change", () => {
      const chosen = select.value;
      bench.act(chosen ? `gauge: ${globalThis.baybookGauges[chosen]?.title}` : "gauge not said", (job) => {
        baybookJudging.choose(job, row, chosen);
        retake(bench, job, row);
      });
    });
    return select;
  }

  /** @param {Bench} bench @param {Row} row */
  function leaves(bench, row) {
    if (!row.pair) {
      return null;
    }
    const button = make("button", { type: "button", "data-option": "pair" }, "Leaves: goes, stops");
    button.addEventListener("click", () => {
      bench.act(`leaves or one value: ${row.title}`, (job) => {
        job.pairs[row.key] = !job.pairs[row.key];
      });
      const slot = row.slots[0];
      slot?.fields[0]?.focus();
    });
    return button;
  }

  /** @param {Bench} bench @param {Row} row */
  function parts(bench, row) {
    if (!row.worn) {
      return null;
    }
    const button = make("button", { type: "button", "data-option": "new" }, "Fitting a new part");
    button.addEventListener("click", () => {
      bench.act(`used or new part: ${row.title}`, (job) => {
        job.fitting[row.key] = !job.fitting[row.key];
        retake(bench, job, row);
      });
    });
    return button;
  }

  /** The reading being typed takes the choice on at once; one already taken keeps what it was taken with. @param {Bench} bench @param {Job} job @param {Row} row */
  function retake(bench, job, row) {
    const slot = bench.active;
    const typed = slot && slot.row === row ? baybookJudging.typed(slot) : null;
    if (slot && typed) {
      const before = bench.shelf.job;
      bench.shelf.job = job;
      baybookRecord.write(job, baybookJudging.take(bench, row, slot.at, typed));
      bench.shelf.job = before;
    }
  }

  globalThis.baybookOptions = { paint };
})();
