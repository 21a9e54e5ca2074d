// @ts-check
/*
 * Puts the bench on a sheet: reads its rows, takes the job up where it was left, and paints again
 * whenever anything changes. Every change goes through `act`, so that every change can be undone.
 */
(() => {
  "use strict";
  const sheet = /** @type {HTMLElement | null} */ (document.querySelector("main[data-build]"));
  if (!sheet) {
    return;
  }
  const { base = "", release = "", content = "", date = "" } = document.body.dataset;
  const store = baybookStorage.open(() => localStorage, base);
  const name = (/** @type {string} */ selector) => document.querySelector(selector)?.textContent?.trim() ?? "";

  /** @type {Bench} */
  const bench = {
    shelf: store.load(),
    settings: store.settings(),
    rows: baybookRows.read(sheet),
    active: null,
    base: { title: base, release, date, content },
    build: { id: sheet.dataset.build ?? "", hash: sheet.dataset.hash ?? "", engine: name(".cell.engine .lead"), machine: name(".cell.subject .lead") },
    free: () => bench.shelf.job === null || bench.shelf.job.build.id === bench.build.id,
    works: store.works,
    painters: [],
    act(words, change, row) {
      if (!bench.free()) {
        return;
      }
      const before = bench.shelf.job ? structuredClone(bench.shelf.job) : null;
      bench.shelf.undo = { words, job: before, away: null };
      bench.shelf.job ??= baybookRecord.create(bench.base, bench.build, new Date().toISOString());
      bench.amend(change, row);
    },
    amend(change, row) {
      if (bench.shelf.job && bench.free()) {
        change(bench.shelf.job);
        Object.assign(bench.shelf.job.written, { "last sheet": sheet.dataset.procedure ? `${sheet.dataset.procedure}.html` : "engine.html", "last content": bench.base.content });
        store.save(bench.shelf);
        bench.paint(row);
      }
    },
    undo() {
      const { undo, job, closed } = bench.shelf;
      if (undo) {
        const { away } = undo;
        // What the action put away comes back from there; taken again, it goes there once more.
        const there = away !== null && closed.some((one) => one.id === away.id);
        const others = closed.filter((one) => one.id !== away?.id);
        bench.shelf = {
          job: undo.job,
          closed: away === null || there ? others : [away, ...others],
          undo: { words: undo.words.startsWith("back: ") ? undo.words.slice(6) : `back: ${undo.words}`, job, away },
        };
        store.save(bench.shelf, away !== null);
        bench.paint();
      }
    },
    set(settings) {
      Object.assign(bench.settings, settings);
      store.keep(bench.settings);
      bench.paint();
    },
    take(words, job, away) {
      const closed = bench.shelf.closed.filter((one) => one.id !== away?.id);
      bench.shelf = { job, closed: away ? [away, ...closed] : closed, undo: { words, job: bench.shelf.job, away } };
      store.save(bench.shelf, true);
      bench.paint();
    },
    paint(row) {
      document.documentElement.dataset.form = bench.settings.form;
      bench.painters.forEach((painter) => painter(row));
    },
  };

  baybookGuard.build(bench);
  bench.rows.forEach((row) => baybookFields.build(bench, row));
  baybookStates.build(bench);
  baybookPanel.build(bench);
  baybookBar.build(bench);
  baybookSteps.build(bench);
  baybookAwake.build();
  if (bench.shelf.job && bench.free()) {
    baybookRecord.settle(bench.shelf.job);
  }
  takeUp();
  bench.paint();
  baybookOpening.taken();

  /** Takes what was typed, and where the cursor stands, from before the bench had come. */
  function takeUp() {
    for (const slot of bench.rows.flatMap((row) => row.slots)) {
      if (slot.fields.some((field) => field === document.activeElement)) {
        bench.active = slot;
      }
      if (slot.fields.some((field) => field.value !== "")) {
        baybookFields.typed(bench, slot);
      }
    }
  }

  // Another sheet of the same job, in another tab, has written.
  addEventListener("storage", () => {
    if (!bench.active) {
      bench.shelf = store.load();
      bench.settings = store.settings();
      bench.paint();
    }
  });
})();
