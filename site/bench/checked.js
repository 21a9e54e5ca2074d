// @ts-check
/*
 * The results of a complaint's checks in the record of a job. No DOM here. A result that is taken back or
 * given otherwise is marked and kept, as a reading is; a cause that was found stands until the results say
 * another, and so does that the repair was proved.
 */
(() => {
  "use strict";

  /** The results that stand, by check. @param {Job | null} job @param {string} id of the complaint */
  function results(job, id) {
    const checks = job?.complaints[id]?.checks ?? [];
    return Object.fromEntries(checks.filter((one) => one.withdrawn === null).map(({ check, result }) => [check, result]));
  }

  /**
   * Writes what stands now into the record.
   * @param {Job} job
   * @param {{ id: string, title: string, release: string, content: string }} complaint
   * @param {Record<string, "clear" | "shown">} now
   * @param {(check: string) => string} titled
   * @param {CheckedComplaint["found"]} found
   * @param {string} time
   */
  function write(job, { id, title, release, content }, now, titled, found, time) {
    const before = job.complaints[id];
    const checks = (before?.checks ?? []).map((one) => (one.withdrawn === null && now[one.check] !== one.result ? { ...one, withdrawn: time } : one));
    const standing = new Set(checks.filter((one) => one.withdrawn === null).map((one) => one.check));
    for (const [check, result] of Object.entries(now)) {
      if (!standing.has(check)) {
        checks.push({ check, title: titled(check), result, time, withdrawn: null });
      }
    }
    const same = before?.found?.cause === found?.cause && before?.found?.by === found?.by;
    const confirmed = same ? before?.confirmed ?? null : null;
    job.complaints[id] = { title, release, content, checks, found: same ? before?.found ?? null : found, confirmed };
  }

  /** Says that the repair was proved to have cured it, or takes that back. @param {Job} job @param {string} id @param {string | null} time */
  function confirm(job, id, time) {
    const complaint = job.complaints[id];
    if (complaint?.found) {
      complaint.confirmed = time;
    }
  }

  globalThis.baybookChecked = { results, write, confirm };
})();
