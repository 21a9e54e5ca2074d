// @ts-check
/*
 * A record of another release against the limits of this handbook: what they are now, and what the readings would
 * be by them. The record itself stays as it was taken. No DOM here.
 */
(() => {
  "use strict";

  /** @param {string | undefined} text */
  const list = (text) => (text ?? "").split(" | ").filter((one) => one !== "");

  /** The limits of a row, as its attributes have them. @param {Record<string, string>} facts @returns {Limits} */
  const limits = ({ window, new: fresh, wear, below, above }) => ({ window: list(window), new: list(fresh), wear_limit: list(wear), below: below ?? null, above: above ?? null });

  /** @param {Limits} one @param {Limits} other */
  const same = (one, other) => /** @type {const} */ (["window", "new", "wear_limit"]).every((part) => one[part].join(" | ") === other[part].join(" | "));

  /**
   * What is to be said of one reading; empty where nothing is.
   * @param {Job} job @param {Reading} reading @param {Record<string, string> | undefined} facts @param {string} release
   */
  function line(job, reading, facts, release) {
    const { name, limits: said } = baybookReport;
    const then = `${name(reading)}: judged by ${said(reading)} of release ${reading.release}`;
    if (!facts) {
      return `${then}; release ${release} has no limits for it in that place and state.`;
    }
    const now = limits(facts);
    const asks = [reading.when, facts["needs"] ?? ""].filter((one) => one !== "").join(";");
    if (same(reading.limits, now) && asks === reading.asks) {
      return "";
    }
    const answered = asks === "" ? null : job.states[asks]?.answer ?? "unanswered";
    const state = asks === reading.asks ? reading.state : answered;
    const { judged } = baybookVerdict.judge({ ...reading, limits: now, asks, state });
    const before = reading.judged?.verdict ?? "cannot judge";
    const still = before === judged.verdict ? `still ${before}` : `${judged.verdict}, and it was ${before}`;
    return `${then}; release ${release} has ${said({ ...reading, limits: now })}. By that, ${reading.text.replaceAll(" ", "\u00a0")}: ${still}. ${baybookWords.say(judged).detail}.`;
  }

  /**
   * What is to be said of a record; nothing where this release judged all of it. `rows` are the limits of its build
   * by `baybookRecord.key`, null where the handbook has no such build.
   * @param {Job} job
   * @param {{ release: string, content: string }} now
   * @param {Record<string, Record<string, string>> | null} rows
   * @param {Record<string, string>} moved ids that moved, with what they are now
   * @returns {string[]}
   */
  function lines(job, now, rows, moved) {
    const older = baybookRecord.standing(job).filter((one) => one.content !== now.content);
    if (older.length === 0) {
      return [];
    }
    if (rows === null) {
      return [`Release ${now.release} has no build ${job.build.id}: what this record was judged by is no longer stated.`];
    }
    const said = older.map((one) => line(job, one, rows[baybookRecord.key({ ...one, of: moved[one.of] ?? one.of })], now.release)).filter(Boolean);
    const rest = older.length - said.length;
    const all = said.length === 0 ? "The limits of every reading are" : `The limits of ${rest} other ${rest === 1 ? "reading" : "readings"} are`;
    return rest === 0 ? said : [...said, `${all} the same in release ${now.release}.`];
  }

  globalThis.baybookToday = { lines };
})();
