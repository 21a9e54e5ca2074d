// @ts-check
/*
 * One machine at a time. While a job of another build is open, the fields of this sheet stay shut until
 * the technician has said what becomes of it. A job judged under another release is judged again, and says so.
 */
(() => {
  "use strict";
  const { make } = baybookDraw;

  /** @param {Bench} bench */
  function build(bench) {
    const box = make("div", { class: "guard", role: "status" });
    document.querySelector(".frame")?.prepend(box);
    let shown = "";
    bench.painters.push((row) => {
      if (row) {
        return;
      }
      const { job } = bench.shelf;
      const other = job !== null && job.build.id !== bench.build.id ? job : null;
      const older = other ? "" : renewed(bench);
      const state = other ? `other ${other.id}` : older;
      if (state !== shown) {
        shown = state;
        box.replaceChildren(...(other ? question(bench, other) : older ? [make("p", {}, older)] : []));
      }
      document.body.classList.toggle("shut", other !== null);
    });
  }

  /** @param {Bench} bench @param {Job} other */
  function question(bench, other) {
    const { readings } = baybookRecord.summary(other);
    const words = `A job is open on ${other.build.machine} (${other.build.id}), with ${readings} ${readings === 1 ? "reading" : "readings"}. This sheet is of ${bench.build.id}.`;
    const free = baybookEnds.standing(other).length === 0;
    const left = free ? [] : [make("p", {}, make("b", {}, "It can be parked, not closed: this is still open.")), baybookLeave.list(bench, other)];
    const park = make("button", { type: "button", class: "park-other" }, "Park it, work on this one");
    park.addEventListener("click", () => baybookLeave.park(bench, other));
    const close = make("button", { type: "button", class: "close-other" }, "Close it, work on this one");
    close.addEventListener("click", () => baybookLeave.close(bench, other, "the other job was closed"));
    const back = make("a", { class: "door", href: `${document.body.dataset.root ?? ""}builds/${encodeURIComponent(other.build.id)}/engine.html` }, make("b", {}, "Go back to it"));
    return [make("p", {}, words), ...left, make("div", { class: "answers" }, park, ...(free ? [close] : []), back)];
  }

  /** Judges the readings again that another release had judged; what to say of it. @param {Bench} bench */
  function renewed(bench) {
    const { job } = bench.shelf;
    const others = job ? baybookRecord.standing(job).filter((one) => one.content !== bench.base.content) : [];
    if (!job || others.length === 0) {
      return job?.written["judged again"] ?? "";
    }
    const releases = [...new Set(others.map((one) => one.release))].join(", ");
    // Before the readings get their new limits: what they were judged by is gone after that.
    const recalled = baybookRecall.warnings(job);
    const changed = baybookJudging.again(bench, job);
    const words = changed === 0 ? "no verdict changed" : `${changed} ${changed === 1 ? "verdict" : "verdicts"} changed`;
    job.written["judged again"] = `Judged again by release ${bench.base.release} (taken under ${releases}): ${words}.${recalled.map((one) => ` ${one}`).join("")}`;
    return job.written["judged again"];
  }

  globalThis.baybookGuard = { build };
})();
