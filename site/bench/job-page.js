// @ts-check
/* The page of jobs: which one, what the shop writes in, and both papers as they will be printed. */
(() => {
  "use strict";
  const { make } = baybookDraw;
  const box = document.getElementById("job-page");
  const { base = "", root = "" } = document.body.dataset;
  const store = baybookStorage.open(() => localStorage, base);
  let shelf = store.load();
  // The home sheet leads to one of several.
  let shown = Math.max(0, [...(shelf.job ? [shelf.job] : []), ...shelf.closed].findIndex((one) => location.hash === `#${encodeURIComponent(one.id)}`));
  const { release = "", content = "" } = document.body.dataset;
  /** What the limits of today say of a record, by its id, once they are here. @type {Map<string, string[]>} */
  const today = new Map();

  const jobs = () => [...(shelf.job ? [shelf.job] : []), ...shelf.closed];

  /** @param {string} words @param {() => void} act */
  function button(words, act) {
    const made = make("button", { type: "button" }, words);
    made.addEventListener("click", act);
    return made;
  }

  /** @param {Job} job */
  function title(job) {
    return `${job.build.machine}, ${job.begun.slice(0, 10)} ${baybookWords.clock(job.begun)}${job.closed ? "" : job === shelf.job ? " (open)" : " (parked)"}`;
  }

  /** @param {string} said */
  function paint(said = "") {
    const all = jobs();
    const job = all[shown] ?? null;
    const choose = baybookJobFile.choose((read) => {
      if (read.ok) {
        // One that was not closed stays so: what it has left open is still to be closed.
        shelf.closed.unshift(read.job);
        shown = shelf.job ? 1 : 0;
        store.save(shelf, true);
      }
      paint(read.ok ? "Read." : `Not read: ${read.because}.`);
    });
    const doors = make("div", { class: "job-doors" }, ...(job ? [button("Print both papers", () => print()), button("Save as a file", () => baybookJobFile.save(job))] : []), make("label", { class: "import" }, "Read from a file", choose));
    if (job && !job.closed && job !== shelf.job) {
      doors.append(button("Take this job up again", () => take(job)));
    } else if (job && !job.closed) {
      doors.append(make("a", { class: "paper", href: `${root}builds/${encodeURIComponent(job.build.id)}/engine.html` }, "Go on with this job"));
    }
    const kept = store.works() ? "" : "This browser refuses to store anything here: nothing is kept.";
    box?.replaceChildren(
      make("section", { class: "part no-paper", "aria-label": "Jobs" }, ...(all.length > 1 ? [which(all)] : []), doors, make("output", { class: "job-said" }, said || kept), ...(all.length === 0 ? [make("p", {}, "No job is kept on this device.")] : [])),
      ...(job ? [...headed(job, "no-paper"), ...warned(job), writing(job), paper("Owner’s page", "owner-page", [...headed(job), ...drawn(job, pairs(baybookReport.owner(job)))]), paper("Shop record", "shop-record", [...headed(job), ...pairs(record(job)), table(job)])] : []),
    );
    if (job && !today.has(job.id)) {
      today.set(job.id, []);
      void hold(job);
    }
  }

  /** A parked job comes back to the bench; the one that is there is parked. @param {Job} job */
  function take(job) {
    const others = shelf.closed.filter((one) => one !== job);
    shelf = { job, closed: shelf.job ? [shelf.job, ...others] : others, undo: null };
    store.save(shelf, true);
    shown = 0;
    paint("It is on the bench again.");
  }

  /** Holds a record of another release against the limits of this one. @param {Job} job */
  async function hold(job) {
    const { moved, limits } = globalThis.baybookBuilds ?? { moved: {}, limits: {}, stops: {} };
    if (baybookRecord.standing(job).some((one) => one.content !== content)) {
      const script = limits[moved[job.build.id] ?? job.build.id];
      const rows = script === undefined ? null : await brought(script);
      today.set(job.id, rows === "lost" ? ["What this handbook states now could not be read: nothing is said of its limits."] : baybookToday.lines(job, { release, content }, rows, moved));
      paint();
    }
  }

  /**
   * The limits of a build, from the script beside its sheet.
   * @param {string} path @returns {Promise<Record<string, Record<string, string>> | "lost">}
   */
  function brought(path) {
    return new Promise((resolve) => {
      const script = make("script", { src: `${root}${path}` });
      script.addEventListener("error", () => resolve("lost"));
      script.addEventListener("load", () => {
        const rows = Object.values(globalThis.baybookLimits ?? {});
        resolve(Object.fromEntries(rows.map((row) => [baybookRecord.key({ of: row["spec"] ?? "", where: row["where"] ?? "", when: row["when"] ?? "" }), row])));
        script.remove();
      });
      document.head.append(script);
    });
  }

  /** The shop’s record; what the limits of today say stands below what it was judged with. @param {Job} job @returns {[string, string[]][]} */
  function record(job) {
    const lines = today.get(job.id) ?? [];
    return baybookReport.shop(job).flatMap((part) => (part[0] === "Data" && lines.length > 0 ? [part, ["Limits today", lines]] : [part]));
  }

  /** What a reader must know of the values this record stands on. @param {Job} job */
  function warned(job) {
    const loud = [...baybookRecall.warnings(job), baybookRecall.older(job, { release, content })].filter(Boolean);
    const lines = [...loud.map((line) => make("p", {}, make("b", {}, line))), ...(today.get(job.id) ?? []).map((line) => make("p", {}, line))];
    return lines.length === 0 ? [] : [make("section", { class: "part recalled", role: "status", "aria-label": "Values of this record" }, ...lines)];
  }

  /** What says not to run the machine of a job, as this release has it. @param {Job} job @param {string} [more] class */
  function headed(job, more = "") {
    const { moved, stops } = globalThis.baybookBuilds ?? { moved: {}, limits: {}, stops: {} };
    const panels = baybookStops(stops[moved[job.build.id] ?? job.build.id] ?? []);
    panels.forEach((panel) => more && panel.classList.add(more));
    return panels;
  }

  /** @param {Job[]} all */
  function which(all) {
    const select = make("select", {}, ...all.map((job, at) => make("option", { value: String(at) }, title(job))));
    select.value = String(shown);
    select.addEventListener("change", () => {
      shown = Number(select.value);
      paint();
    });
    return make("label", {}, "Job", select);
  }

  /** @param {Job} job */
  function writing(job) {
    const fields = baybookReport.WRITTEN.map(([name, words, rows]) => {
      const field = make("textarea", { name, rows: String(rows), maxlength: "2000" });
      field.value = job.written[name] ?? "";
      field.addEventListener("change", () => {
        job.written[name] = field.value.trim();
        store.save(shelf, true);
        paint();
      });
      return make("label", {}, words, field);
    });
    return make("section", { class: "part no-paper", "aria-labelledby": "written" }, make("h2", { id: "written" }, "Written in by the shop"), make("div", { class: "job-fields" }, ...fields));
  }

  /** @param {[string, string[]][]} all */
  function pairs(all) {
    const { BLANK } = baybookReport;
    const empty = (/** @type {string[]} */ lines) => lines.every((line) => line === BLANK);
    // On paper each has its own line to write on; on the screen one line names them all.
    const left = all.filter(([, lines]) => empty(lines)).map(([head]) => head.toLowerCase());
    const parts = all.map(([head, lines]) => make("div", { class: empty(lines) ? "paper-part unfilled" : "paper-part" }, make("h3", {}, head), ...lines.map((line) => make("p", { class: line === BLANK && "blank" }, line))));
    return left.length === 0 ? parts : [...parts, make("div", { class: "paper-part no-paper left-blank" }, make("h3", {}, "Nothing noted yet"), make("p", {}, `${left.join(", ")}`.replace(/^./, (letter) => letter.toUpperCase()) + "."))];
  }

  /** Beside each reading beyond its limits, its drawing. @param {Job} job @param {HTMLElement[]} parts */
  function drawn(job, parts) {
    const lines = parts.flatMap((part) => [...part.querySelectorAll("p")]);
    for (const { text, reading, first } of baybookReport.measured(job)) {
      const drawing = baybookPaperLine.draw(reading, first);
      const line = lines.find((one) => one.textContent === text);
      if (drawing && line) {
        line.after(drawing);
      }
    }
    return parts;
  }

  /** @param {string} words @param {string} id @param {HTMLElement[]} parts */
  function paper(words, id, parts) {
    return make("section", { class: "part paper-sheet", "aria-labelledby": id }, make("h2", { id }, words), ...parts);
  }

  /** @param {Job} job */
  function table(job) {
    const { HEADS, readings } = baybookReport;
    const head = make("tr", {}, ...HEADS.map((one) => make("th", { scope: "col" }, one)));
    const rows = readings(job).map((cells) => make("tr", {}, ...cells.map((cell) => make("td", {}, cell))));
    return make("div", { class: "wide", tabindex: "0", role: "group", "aria-label": "Every reading" }, make("table", { class: "table" }, make("caption", {}, "Every reading, as it was taken"), make("thead", {}, head), make("tbody", {}, ...rows)));
  }

  paint();
  addEventListener("storage", () => {
    shelf = store.load();
    today.clear();
    paint();
  });
})();
