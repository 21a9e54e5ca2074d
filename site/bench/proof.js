// @ts-check
/* The end of a procedure: what is left open, what is missing, and the proof when nothing is. */
(() => {
  "use strict";
  const { make } = baybookDraw;

  /** What the sheet says stands open on the way. */
  function items() {
    return /** @type {HTMLElement[]} */ ([...document.querySelectorAll(".open-ends [data-until]")]).map((element) => ({
      element,
      what: element.querySelector("b")?.textContent ?? "",
      from: element.dataset.from ?? "",
      until: element.dataset.until ?? "",
    }));
  }

  /** @param {Record<string, string>} ticked */
  const open = (ticked) => baybookEnds.leftOpen(items(), ticked);

  /**
   * Gives what paints the end of the sheet.
   * @param {Bench} bench @param {string} id @param {HTMLElement[]} steps
   */
  function build(bench, id, steps) {
    const list = make("ul", { class: "missing" });
    const verdict = make("p", { class: "proved" });
    const give = make("button", { type: "button", class: "tick give-proof", "aria-pressed": "false" }, "The proof is given");
    give.addEventListener("click", () =>
      bench.act("the proof", (job) => {
        if (job.proofs[id] === undefined) {
          job.proofs[id] = new Date().toISOString();
        } else {
          delete job.proofs[id];
        }
      }),
    );
    const box = make("div", { class: "ends", role: "status" }, verdict, list, give);
    (document.querySelector(".proof") ?? document.querySelector(".steps"))?.append(box);
    const open = items();
    return () => {
      const { job } = bench.shelf;
      const ticked = job?.steps[id] ?? {};
      const standing = baybookEnds.leftOpen(open, ticked);
      for (const item of open) {
        const state = ticked[item.from] === undefined ? "before" : standing.some((one) => one.what === item.what) ? "open" : "closed";
        item.element.dataset.open = state;
      }
      const lacks = baybookEnds.missing({ steps: steps.map((step) => step.dataset.step ?? ""), ticked, open: standing, readings: readings(bench) });
      const given = job?.proofs[id];
      const proved = lacks.length === 0 && given !== undefined;
      verdict.textContent = proved ? `Proved at ${baybookWords.clock(given)}` : "Not proved yet";
      list.replaceChildren(...[...lacks, ...(given === undefined ? ["the proof above is not given"] : [])].map((one) => make("li", {}, one)));
      give.setAttribute("aria-pressed", String(given !== undefined));
      give.disabled = !bench.free();
      box.dataset.proved = String(proved);
    };
  }

  /** Each row of the sheet once, with the worst verdict of its places. @param {Bench} bench */
  function readings(bench) {
    const rows = [...new Map(bench.rows.map((row) => [row.key, row])).values()];
    /** @type {VerdictWord[]} */
    const worst = ["out of spec", "cannot judge", "too close to call", "in spec"];
    return rows.map((row) => {
      const held = row.slots.flatMap((slot) => baybookRecord.current(bench.shelf.job, row, slot.at)?.judged?.verdict ?? []);
      return { title: [row.title, row.places].filter(Boolean).join(", "), judged: worst.find((one) => held.includes(one)) ?? null };
    });
  }

  globalThis.baybookProof = { build, open };
})();
