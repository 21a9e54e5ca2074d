// @ts-check
/*
 * The bar at the foot of the screen: undo, bright sun, and the job with what belongs to it: where it is
 * kept, export and import, the hand, the keypad, the form of the values.
 */
(() => {
  "use strict";
  const { make } = baybookDraw;

  /** @param {number} count @param {string} one @param {string} [many] */
  const counted = (count, one, many = `${one}s`) => `${count} ${count === 1 ? one : many}`;

  /** @param {string} words @param {() => void} act @param {Record<string, string>} [attributes] */
  function button(words, act, attributes = {}) {
    const made = make("button", { type: "button", ...attributes }, words);
    made.addEventListener("click", act);
    return made;
  }

  /** @param {Bench} bench */
  function build(bench) {
    const dialog = job(bench);
    const { section, undo, job: open } = baybookOpening.bar;
    undo.addEventListener("click", () => bench.undo());
    open.addEventListener("click", () => dialog.showModal());
    section.after(dialog);
    bench.painters.push(() => {
      const { job, undo: last } = bench.shelf;
      undo.disabled = last === null;
      undo.replaceChildren(make("b", {}, "Undo"), make("span", { class: "fine" }, last?.words ?? "nothing yet"));
      open.replaceChildren(make("b", {}, "Job"), make("span", { class: "fine" }, job ? summary(job) : "none open"));
    });
  }

  /** @param {Job} job */
  function summary(job) {
    const { readings, out } = baybookRecord.summary(job);
    return [counted(readings, "reading"), out > 0 ? `${out} out` : ""].filter(Boolean).join(", ");
  }

  /** @param {Bench} bench */
  function kept(bench) {
    if (!bench.works()) {
      return "Not kept: this browser refuses to store anything here. The readings last until this page is left. Save them as a file.";
    }
    return "Kept on this device, in this browser. Nothing is sent anywhere.";
  }

  /** @param {Bench} bench */
  function job(bench) {
    const title = make("h2", { id: "job-title" }, "Job");
    const what = make("p", { class: "job-what" });
    const where = make("p", { class: "job-kept" });
    const said = make("output", { class: "job-said" });
    const fields = make("div", { class: "job-fields" }, ...[written(bench, "initials", "Initials, written to each reading"), written(bench, "serial", "Serial number"), written(bench, "hours", "Hours or distance")]);
    const save = button("Save as a file", () => bench.shelf.job && baybookJobFile.save(bench.shelf.job), { class: "export" });
    const choose = baybookJobFile.choose((read) => {
      said.textContent = read.ok ? taken(bench, read.job) : `Not read: ${read.because}.`;
    });
    const load = make("label", { class: "import" }, "Read from a file", choose);
    const paper = make("a", { class: "paper", href: `${document.body.dataset.root ?? ""}job.html` }, "Owner’s page and shop record");
    const open = make("div", { class: "job-open" });
    const park = button("Park this job", () => {
      const { job } = bench.shelf;
      if (job) {
        baybookLeave.park(bench, job);
        said.textContent = "Parked as it is. It is taken up again from the home sheet or the page of jobs.";
      }
    }, { class: "park" });
    const close = button("Close this job", () => {
      const { job } = bench.shelf;
      if (job && baybookLeave.close(bench, job, "the job was closed")) {
        said.textContent = `Closed, and kept with the closed jobs.${baybookLeave.lacks(job)}`;
      } else if (job) {
        said.textContent = baybookLeave.refusal(job);
        open.replaceChildren(baybookLeave.list(bench, job, () => dialog.close()));
      }
    }, { class: "close-job" });
    const settings = baybookSettings.build(bench);
    const leave = button("Back to the sheet", () => dialog.close(), { class: "leave" });
    const dialog = make("dialog", { class: "job", "aria-labelledby": "job-title" }, title, what, where, make("div", { class: "job-doors" }, save, load, paper, park, close), said, open, fields, settings, leave);
    bench.painters.push((row) => {
      if (row) {
        return;
      }
      const { job } = bench.shelf;
      what.textContent = job ? `${job.build.machine}, build ${job.build.id}: ${summary(job)}, begun ${job.begun.slice(0, 10)} ${baybookWords.clock(job.begun)}.` : "No job is open. The first reading, answer or tick opens one.";
      where.textContent = kept(bench);
      save.disabled = park.disabled = close.disabled = job === null;
      open.replaceChildren();
      for (const field of fields.querySelectorAll("input")) {
        field.disabled = job === null;
        if (field !== document.activeElement) {
          field.value = job?.written[field.name] ?? "";
        }
      }
    });
    return dialog;
  }

  /** @param {Bench} bench @param {string} name @param {string} words */
  function written(bench, name, words) {
    const field = make("input", { name, type: "text", maxlength: "60", autocomplete: "off" });
    field.addEventListener("input", () => bench.amend((job) => void (job.written[name] = field.value.trim())));
    return make("label", {}, words, field);
  }

  /** Takes a job that was read from a file onto the bench; one that is open is parked. @param {Bench} bench @param {Job} read */
  function taken(bench, read) {
    const { job } = bench.shelf;
    const fresh = { ...read, closed: null };
    bench.take("a job was read from a file", fresh, job);
    const other = read.build.id === bench.build.id ? "" : ` It is of another build, ${read.build.id}.`;
    return `Read: ${summary(fresh)}.${other}${job ? " The job that was open is parked." : ""}`;
  }

  globalThis.baybookBar = { build };
})();
