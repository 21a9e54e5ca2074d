// @ts-check
/*
 * Where a job is kept: in this browser, on this device. Storage may be denied or full; then the job
 * lasts as long as the page, and `works` says so. What is stored is read with the same distrust as a file.
 */
(() => {
  "use strict";
  const KEYS = { job: "job", closed: "closed", settings: "bench" };
  /** Closed jobs that are kept; the oldest makes room. One that is parked is not closed, and stays. */
  const CLOSED = 30;

  /** @param {unknown} stored @returns {Job | null} */
  function job(stored) {
    const read = stored ? baybookRecord.parse(JSON.stringify(stored)) : null;
    return read?.ok ? read.job : null;
  }

  /** @param {string | null} text @returns {any} what is stored, or nothing */
  function parsed(text) {
    try {
      return JSON.parse(text ?? "null");
    } catch {
      return null;
    }
  }

  /** @param {string | null} bench @param {string | null} shelved @returns {Shelf} */
  function shelf(bench, shelved) {
    const [stored, closed] = [parsed(bench), parsed(shelved)];
    const undo = typeof stored?.undo?.words === "string" ? { words: stored.undo.words, job: job(stored.undo.job), away: job(stored.undo.away) } : null;
    const kept = Array.isArray(closed) ? closed.flatMap((one) => job(one) ?? []) : [];
    return { job: job(stored?.job), closed: kept, undo };
  }

  /** @param {string | null} text @returns {Settings} */
  function settingsOf(text) {
    const stored = parsed(text) ?? {};
    return {
      hand: stored.hand === "left" ? "left" : "right",
      keypad: typeof stored.keypad === "boolean" ? stored.keypad : null,
      form: stored.form === "other" ? "other" : "printed",
    };
  }

  /**
   * @param {() => Storage} storage gives the storage, or throws
   * @param {string} name of the handbook: jobs of another one are not ours
   */
  function open(storage, name) {
    const key = (/** @type {string} */ part) => `baybook.${part}.${name}`;
    let working = true;

    /** @param {string} part @returns {string | null} */
    function read(part) {
      try {
        return storage().getItem(key(part));
      } catch {
        working = false;
        return null;
      }
    }

    /** @param {string} part @param {unknown} value */
    function write(part, value) {
      try {
        storage().setItem(key(part), JSON.stringify(value));
        working = true;
      } catch {
        working = false;
      }
    }

    return {
      works: () => working,
      load: () => shelf(read(KEYS.job), read(KEYS.closed)),
      /** The job on the bench; closed ones only if they changed, for this is called at every key. */
      save(/** @type {Shelf} */ { job, undo, closed }, shelved = false) {
        write(KEYS.job, { job, undo });
        if (shelved) {
          let room = CLOSED;
          write(KEYS.closed, closed.filter((one) => one.closed === null || room-- > 0));
        }
      },
      settings: () => settingsOf(read(KEYS.settings)),
      keep: (/** @type {Settings} */ settings) => write(KEYS.settings, settings),
    };
  }

  globalThis.baybookStorage = { open, KEYS };
})();
