// @ts-check
/*
 * Keeps the results of checks with the job of this device, beside the address of the page: what was
 * checked, which cause it was, and that the repair was proved to have cured it. A job of another machine
 * is left alone.
 */
(() => {
  "use strict";
  const { make } = baybookDraw;
  const { base = "", release = "", content = "", date = "", root = "" } = document.body.dataset;
  const store = baybookStorage.open(() => localStorage, base);
  const main = /** @type {HTMLElement | null} */ (document.querySelector("main[data-build]"));
  const words = (/** @type {string} */ selector) => document.querySelector(selector)?.textContent?.trim() ?? "";
  /** @type {BuildFacts} */
  const build = { id: main?.dataset["build"] ?? "", hash: main?.dataset["hash"] ?? "", engine: words(".cell.engine .lead"), machine: words(".cell.subject .lead") };
  const titled = (/** @type {string} */ cause) => words(`#cause-${CSS.escape(cause)} > b`);

  class Kept {
    /** @param {string} id of the complaint @param {string[]} residual causes that no check shows */
    constructor(id, residual) {
      this.complaint = { id, title: words(".cell.kind .lead"), release, content };
      this.residual = residual;
      this.said = make("p", { class: "fine" });
      this.causes = make("div", { class: "results" });
      this.which = make("details", { class: "which" }, make("summary", {}, make("b", {}, "Which was it?")), this.causes);
      this.cured = make("button", { type: "button" });
      this.cured.addEventListener("click", () => this.change("the repair was proved", (job) => baybookChecked.confirm(job, id, this.entry(job)?.confirmed ? null : new Date().toISOString())));
      this.element = make("div", { class: "kept-checks" }, this.which, make("p", { class: "results" }, this.cured), this.said);
      /** @type {string[]} */
      this.left = [];
      addEventListener("storage", () => this.paint());
    }

    /** @param {Job | null} job */
    entry(job) {
      return job?.complaints[this.complaint.id] ?? null;
    }

    /** The job of this build, if one is open. */
    job() {
      const { job } = store.load();
      return job?.build.id === build.id ? job : null;
    }

    results() {
      return baybookChecked.results(this.job(), this.complaint.id);
    }

    /**
     * One change of the record, which undo on the other sheets takes back.
     * @param {string} said @param {(job: Job) => void} change
     */
    change(said, change) {
      const shelf = store.load();
      if (shelf.job === null || shelf.job.build.id === build.id) {
        const before = shelf.job === null ? null : structuredClone(shelf.job);
        const job = shelf.job ?? baybookRecord.create({ title: base, release, date, content }, build, new Date().toISOString());
        change(job);
        Object.assign(job.written, { "last sheet": `complaint-${this.complaint.id}.html`, "last content": content });
        store.save({ ...shelf, job, undo: { words: said, job: before, away: null } });
      }
      this.paint();
    }

    /** @param {string} said @param {Record<string, "clear" | "shown">} results @param {string[]} left causes that the checks leave */
    keep(said, results, left) {
      this.left = left;
      if (Object.keys(results).length > 0 || this.entry(this.job())) {
        this.change(said, (job) => this.write(job, results, this.found(job, results)));
      }
    }

    /** @param {Job} job @param {Record<string, "clear" | "shown">} results @param {CheckedComplaint["found"]} found */
    write(job, results, found) {
      const check = (/** @type {string} */ id) => words(`#check-${CSS.escape(id)} > h3`);
      baybookChecked.write(job, this.complaint, results, check, found, new Date().toISOString());
    }

    /** What was said stands while the checks leave it; else the only one they leave, once one showed it. @param {Job} job @param {Record<string, "clear" | "shown">} results @returns {CheckedComplaint["found"]} */
    found(job, results) {
      const before = this.entry(job)?.found ?? null;
      if (before?.by === "said" && [...this.left, ...this.residual].includes(before.cause)) {
        return before;
      }
      const [only] = this.left;
      const shown = Object.values(results).includes("shown");
      return only !== undefined && this.left.length === 1 && shown ? { cause: only, title: titled(only), by: "checks", time: new Date().toISOString() } : null;
    }

    /** @param {string} cause */
    say(cause) {
      this.change(`the cause: ${titled(cause)}`, (job) => {
        const { found } = this.entry(job) ?? {};
        const results = baybookChecked.results(job, this.complaint.id);
        const taken = found?.by === "said" && found.cause === cause;
        const entry = this.entry(job);
        if (entry && taken) {
          entry.found = null;
        }
        this.write(job, results, taken ? this.found(job, results) : { cause, title: titled(cause), by: "said", time: new Date().toISOString() });
      });
    }

    paint() {
      const { job } = store.load();
      const own = this.job();
      const entry = this.entry(own);
      const done = Object.keys(baybookChecked.results(own, this.complaint.id)).length;
      this.element.hidden = done === 0 && (job === null || own !== null);
      this.which.hidden = this.cured.hidden = done === 0;
      this.causes.replaceChildren(...[...new Set([...this.left, ...this.residual])].map((cause) => this.button(cause, entry?.found?.cause === cause)));
      this.cured.textContent = entry?.confirmed ? `Repaired and proved at ${baybookWords.clock(entry.confirmed)}: the complaint is gone` : "Repaired and proved: the complaint is gone";
      this.cured.disabled = !entry?.found;
      this.cured.setAttribute("aria-pressed", String(Boolean(entry?.confirmed)));
      this.tell(job, own);
    }

    /** @param {Job | null} job @param {Job | null} own */
    tell(job, own) {
      if (job !== null && own === null) {
        this.said.textContent = `Not kept with a job: one is open on ${job.build.machine}. Close that one first; till then the results stand in the address of this page.`;
      } else if (!store.works()) {
        this.said.textContent = "Not kept: this browser refuses to store anything here. The results stand in the address of this page.";
      } else {
        this.said.replaceChildren("Kept with the job, on this device. ", make("a", { class: "plain-link", href: `${root}job.html` }, "Owner’s page and shop record"));
      }
    }

    /** @param {string} cause @param {boolean} pressed */
    button(cause, pressed) {
      const made = make("button", { type: "button", value: cause, "aria-pressed": String(pressed) }, titled(cause));
      made.addEventListener("click", () => {
        this.say(cause);
        /** @type {HTMLElement | null} */ (this.causes.querySelector(`[value="${CSS.escape(cause)}"]`))?.focus({ preventScroll: true });
      });
      return made;
    }
  }

  globalThis.baybookKept = Kept;
})();
