// @ts-check
/*
 * A procedure to work from: one tap a step, what is left open, and the proof at its end. Ticks are kept
 * with the job, so the work is taken up where it was left.
 */
(() => {
  "use strict";
  const { make } = baybookDraw;

  /** @param {Bench} bench */
  function build(bench) {
    const sheet = /** @type {HTMLElement | null} */ (document.querySelector("main[data-procedure]"));
    const steps = /** @type {HTMLElement[]} */ ([...document.querySelectorAll("[data-step]")]);
    if (!sheet || steps.length === 0) {
      return;
    }
    const id = sheet.dataset.procedure ?? "";
    const buttons = steps.map((step) => {
      const button = make("button", { type: "button", class: "tick", "aria-pressed": "false" }, `Step ${step.dataset.step} done`);
      button.addEventListener("click", () => tick(bench, id, step));
      step.append(button);
      return button;
    });
    const next = make("button", { type: "button", class: "next-step" });
    next.addEventListener("click", () => {
      const step = first(bench, id, steps);
      if (step) {
        tick(bench, id, step);
        first(bench, id, steps)?.scrollIntoView({ block: "start" });
      } else {
        document.querySelector(".proof, .open-ends")?.scrollIntoView({ block: "start" });
      }
    });
    document.querySelector(".bench-bar")?.prepend(next);
    document.body.classList.add("stepping");
    const ends = baybookProof.build(bench, id, steps);
    bench.painters.push(() => {
      const ticked = bench.shelf.job?.steps[id] ?? {};
      const now = first(bench, id, steps);
      steps.forEach((step, at) => {
        const done = ticked[step.dataset.step ?? ""];
        step.classList.toggle("done", done !== undefined);
        step.classList.toggle("now", step === now);
        const button = /** @type {HTMLButtonElement} */ (buttons[at]);
        button.setAttribute("aria-pressed", String(done !== undefined));
        button.textContent = done === undefined ? `Step ${step.dataset.step} done` : `Step ${step.dataset.step} done at ${baybookWords.clock(done)}`;
        button.disabled = !bench.free();
      });
      next.disabled = !bench.free();
      next.replaceChildren(make("b", {}, now ? `Step ${now.dataset.step} done` : "All steps done"), make("span", { class: "fine" }, now ? `of ${steps.length}, on to the next` : "to the proof"));
      ends();
    });
  }

  /** The first step that is not ticked. @param {Bench} bench @param {string} id @param {HTMLElement[]} steps */
  function first(bench, id, steps) {
    const ticked = bench.shelf.job?.steps[id] ?? {};
    return steps.find((step) => ticked[step.dataset.step ?? ""] === undefined) ?? null;
  }

  /** @param {Bench} bench @param {string} id @param {HTMLElement} element */
  function tick(bench, id, element) {
    const step = element.dataset.step ?? "";
    bench.act(`step ${step}`, (job) => {
      const ticked = (job.steps[id] ??= {});
      if (ticked[step] === undefined) {
        ticked[step] = new Date().toISOString();
      } else {
        delete ticked[step];
        delete job.proofs[id];
      }
      const left = baybookProof.open(ticked);
      job.open[id] = left.map(({ what }) => what);
      (job.closes_at ??= {})[id] = Object.fromEntries(left.map(({ what, until }) => [what, until]));
    });
  }

  globalThis.baybookSteps = { build };
})();
