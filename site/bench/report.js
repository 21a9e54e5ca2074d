// @ts-check
/*
 * What goes on paper from a job record: a page for the owner in plain words, and the shop's record with
 * every reading as it was taken. No DOM here; what nobody noted is said to be missing, never made up.
 */
(() => {
  "use strict";

  /** What the shop writes in, for which paper, and how many lines it wants. @type {[string, string, number][]} */
  const WRITTEN = [
    ["serial", "Serial number", 1],
    ["hours", "Hours or distance", 1],
    ["complaint", "The complaint, in the owner’s words", 2],
    ["confirmed", "Confirmed, or not", 1],
    ["found", "Found", 2],
    ["meaning", "What it means", 2],
    ["needs", "What it needs", 2],
    ["not checked", "Not checked", 2],
    ["do not ride", "Also seen: do not ride", 2],
    ["soon", "Also seen: soon", 2],
    ["watch", "Also seen: watch", 2],
    ["next", "What may be noticed next", 2],
    ["ask", "Who to ask", 1],
    ["modified", "Modifications of the machine", 1],
    ["codes", "Fault codes before and after", 2],
    ["parts", "Parts, fasteners, locker, torque applied and wrench", 3],
    ["second", "Second person for critical items", 1],
    ["declined", "Work declined", 2],
  ];

  /** What stands where the shop wrote nothing. */
  const BLANK = "nothing noted";
  const PLAIN = { "in spec": "within the maker’s limits", "out of spec": "outside the maker’s limits", "too close to call": "too close to the limit to say", "cannot judge": "not judged" };

  /** A value in one piece, its unit held to its number, pound-inches with their name. @param {string} value */
  const held = (value) => value.replaceAll(" ", "\u00a0").replaceAll("lbf·in", "lbf·in (pound-inches)");

  /** @param {Reading} reading */
  const limits = ({ limits: { window, new: fresh, wear_limit } }) =>
    [window[0] ?? "", fresh[0] ? `new ${fresh[0]}` : "", wear_limit[0] ? `wear limit ${wear_limit[0]}` : ""].filter(Boolean).map(held).join(", ");

  /** @param {Reading} reading */
  const name = ({ title, where, at }) => [title, ...baybookWords.condition(where), at > 1 ? `place ${at}` : ""].filter(Boolean).join(", ");

  /** What was checked, for the owner: no share, no blame. @param {Job} job */
  function checked(job) {
    const words = { clear: "not showing", shown: "showing" };
    return Object.values(job.complaints).flatMap(({ checks }) =>
      checks.filter((one) => one.withdrawn === null).map(({ title, result }) => `checked: ${title}, ${words[result]}`));
  }

  /** The causes that were found. @param {Job} job */
  function causes(job) {
    const found = Object.values(job.complaints).filter((one) => one.found !== null);
    return found.map(({ found, confirmed }) => `${found?.title}${confirmed ? "; repaired, and the complaint is gone" : "; not yet shown to be the whole of it"}`);
  }

  /** Every result of a check as it was given, those taken back among them. @param {Job} job */
  function checks(job) {
    return Object.values(job.complaints).flatMap(({ title, release, checks, found, confirmed }) => [
      `${title}, by release ${release}`,
      ...checks.map((one) => `${stamp(one.time)} ${one.title}: ${one.result === "shown" ? "showing" : "not showing"}${one.withdrawn ? `, taken back ${stamp(one.withdrawn)}` : ""}`),
      ...(found ? [`Cause: ${found.title}, ${found.by === "said" ? "said by the technician" : "the only one the checks leave"}, ${stamp(found.time)}`] : ["Cause: not found"]),
      confirmed ? `Repair proved, complaint gone: ${stamp(confirmed)}` : "Repair not proved",
    ]);
  }

  /** @param {string} time */
  const stamp = (time) => `${time.slice(0, 10)} ${baybookWords.clock(time)}`;

  /** @param {Job} job @param {string} key */
  const written = (job, key) => job.written[key] || BLANK;

  /** The same after its name in a line. @param {Job} job @param {string} key */
  const named = (job, key) => job.written[key] || "not noted";

  /**
   * How old a release is by the device's day: in whole days, from two months on in whole months.
   * @param {string} date of the release @param {Date} now by the device
   */
  function age(date, now) {
    const [year = NaN, month = NaN, day = NaN] = date.split("-").map(Number);
    const days = Math.round((Date.UTC(now.getFullYear(), now.getMonth(), now.getDate()) - Date.UTC(year, month - 1, day)) / 86_400_000);
    const months = (now.getFullYear() - year) * 12 + now.getMonth() + 1 - month - Number(now.getDate() < day);
    const today = [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((one) => String(one).padStart(2, "0")).join("-");
    const many = (/** @type {number} */ count, /** @type {string} */ one) => `${count} ${one}${count === 1 ? "" : "s"} old on ${today}`;
    if (Number.isNaN(days)) {
      return "of an unknown age";
    }
    return days < 0 ? `dated later than this device’s day, ${today}` : months >= 2 ? many(months, "month") : many(days, "day");
  }

  /**
   * What was measured, each reading that stands with the first that was taken at its place.
   * @param {Job} job
   * @returns {{ text: string, reading: Reading, first: Reading | null }[]}
   */
  function measured(job) {
    return baybookRecord.standing(job).map((reading) => {
      const first = baybookRecord.earlier(job, reading, reading.at).find((one) => one.withdrawn === null) ?? null;
      const change = first ? `before ${held(first.text)}, now ${held(reading.text)}` : held(reading.text);
      return { text: `${name(reading)}: ${change}, ${PLAIN[reading.judged?.verdict ?? "cannot judge"]} (${limits(reading)})`, reading, first };
    });
  }

  /** What was measured that says not to run the machine, and what the shop saw beside it. @param {Job} job */
  function doNotRide(job) {
    const lines = measured(job).filter(({ reading }) => baybookVerdict.mustStop(reading)).map(({ text }) => text);
    return [...lines, ...(job.written["do not ride"] || lines.length === 0 ? [job.written["do not ride"] || BLANK] : [])];
  }

  /**
   * The owner's page: pairs of heading and lines.
   * @param {Job} job
   * @param {Date} [now] by the device
   * @returns {[string, string[]][]}
   */
  function owner(job, now = new Date()) {
    const lines = measured(job).map(({ text }) => text);
    return [
      ["Machine", [`${job.build.machine}, ${job.build.engine}`, `Serial number: ${named(job, "serial")}`, `Hours or distance: ${named(job, "hours")}`, `Date: ${job.begun.slice(0, 10)}`]],
      ["You told us", [job.written.complaint || Object.values(job.complaints).map(({ title }) => title).join("; ") || written(job, "complaint"), `Confirmed: ${named(job, "confirmed")}`]],
      ["Found", [job.written.found || causes(job).join("; ") || written(job, "found")]],
      ["What it means", [written(job, "meaning")]],
      ["What it needs", [written(job, "needs")]],
      ["Measured", lines.length > 0 ? lines : ["nothing"]],
      ...(checked(job).length > 0 ? [/** @type {[string, string[]]} */ (["Checked", checked(job)])] : []),
      ["Not checked", [written(job, "not checked")]],
      ["Do not ride", doNotRide(job)],
      ["Soon", [job.written.soon || BLANK]],
      ["Watch", [job.written.watch || BLANK]],
      ["What you may notice next", [written(job, "next")]],
      ["Age of the data", [`Release ${job.base.release} of ${job.base.date}, ${age(job.base.date, now)}`]],
      ["Who to ask", [written(job, "ask")]],
    ];
  }

  /**
   * One line of the shop's record for each reading, those taken back and repeated among them.
   * @param {Job} job
   * @returns {string[][]}
   */
  function readings(job) {
    return job.readings.map((reading) => {
      const judged = reading.judged ? baybookWords.say(reading.judged) : null;
      const asRead = reading.judged?.as_read && reading.judged.as_read !== reading.judged.verdict ? `, as read ${reading.judged.as_read}` : "";
      const standing = baybookRecord.current(job, reading, reading.at) === reading ? "" : reading.withdrawn ? " (taken back)" : " (repeated later)";
      const state = reading.asks === "" ? "any" : `${baybookWords.condition(reading.asks).join(", ")}: ${reading.state}`;
      const gauge = reading.gauge_facts ? `${reading.gauge_facts.title}, ± ${reading.gauge_facts.error}` : "not said";
      return [
        String(reading.no),
        name(reading),
        `${held(reading.text)}${standing}`,
        limits(reading),
        judged ? `${judged.word}${asRead}. ${baybookVerdict.mustStop(reading) ? "Do not run. " : ""}${judged.detail}` : "not judged",
        state,
        reading.fitting === "new" ? `${gauge}; new part` : gauge,
        stamp(reading.time),
        reading.initials ?? "",
        reading.release,
      ];
    });
  }

  const HEADS = ["No", "What", "Read", "Limits", "Verdict", "State", "Gauge", "Time", "By", "Release"];

  /**
   * The shop's record beside its readings.
   * @param {Job} job
   * @returns {[string, string[]][]}
   */
  function shop(job) {
    const open = Object.entries(job.open).flatMap(([procedure, what]) => what.map((one) => `${procedure}: ${one}`));
    const proofs = Object.entries(job.proofs).map(([procedure, time]) => `${procedure}: proof given ${stamp(time)}`);
    const steps = Object.entries(job.steps).map(([procedure, ticked]) => `${procedure}: ${Object.keys(ticked).length} steps ticked`);
    return [
      ["Build", [`${job.build.id}, ${job.build.engine}, ${job.build.machine}`, `Serial number: ${named(job, "serial")}`, `Hours or distance: ${named(job, "hours")}`, `Modifications: ${named(job, "modified")}`]],
      ["Data", [`${job.base.title}, release ${job.base.release} of ${job.base.date}, content ${job.base.content}, build ${job.build.hash}`, ...(job.written["judged again"] ? [job.written["judged again"]] : []), ...baybookRecall.warnings(job)]],
      ["Complaint", [written(job, "complaint")]],
      ["Checks", checks(job).length > 0 ? checks(job) : ["none of a complaint sheet"]],
      ["Fault codes", [written(job, "codes")]],
      ["Parts and torque", [written(job, "parts")]],
      ["Procedures", steps.length > 0 ? steps : ["none begun"]],
      ["Left open", open.length > 0 ? open.map((one) => `STILL OPEN: ${one}`) : ["nothing"]],
      ["Proof", proofs.length > 0 ? proofs : ["none given"]],
      ["Second person", [written(job, "second")]],
      ["Work declined", [written(job, "declined")]],
      ["Begun and closed", [`${stamp(job.begun)}, ${job.closed ? stamp(job.closed) : "not closed"}`]],
    ];
  }

  globalThis.baybookReport = { WRITTEN, BLANK, HEADS, name, limits, owner, measured, shop, readings };
})();
