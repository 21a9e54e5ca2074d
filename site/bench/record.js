// @ts-check
/*
 * The record of one job: readings as typed with their verdicts, answers about the state, ticked steps.
 * No DOM here. A reading that was taken is never overwritten: a repeat stands beside it, and one that
 * is taken back is marked and kept.
 */
(() => {
  "use strict";
  const FORMAT = "baybook job record 2";
  /** What the first format lacks: what a reading asks for beyond its state, and results of checks. */
  const FIRST = "baybook job record 1";
  /** More than this in one record is no job of ours. */
  const MOST = 5000;

  /** @param {Identity} identity */
  const key = ({ of, where, when }) => `${of}|${where}|${when}`;

  /**
   * @param {BaseFacts} base
   * @param {BuildFacts} build
   * @param {string} time
   * @returns {Job}
   */
  function create(base, build, time) {
    return {
      format: FORMAT,
      id: `${build.id}-${time.replace(/[^0-9]/g, "").slice(0, 14)}`,
      base: { ...base },
      build: { ...build },
      begun: time,
      closed: null,
      written: {},
      states: {},
      readings: [],
      gauges: {},
      places: {},
      pairs: {},
      fitting: {},
      steps: {},
      open: {},
      proofs: {},
      complaints: {},
    };
  }

  /** @param {Job | null} job @param {Identity} identity @param {number} at */
  function all(job, identity, at) {
    const wanted = key(identity);
    return (job?.readings ?? []).filter((one) => one.at === at && key(one) === wanted);
  }

  /**
   * The reading that stands at a place: the last one, unless it was taken back.
   * @param {Job | null} job @param {Identity} identity @param {number} at
   */
  function current(job, identity, at) {
    const last = all(job, identity, at).at(-1);
    return last && last.withdrawn === null ? last : null;
  }

  /** @param {Job | null} job @param {Identity} identity @param {number} at */
  function earlier(job, identity, at) {
    const standing = current(job, identity, at);
    return all(job, identity, at).filter((one) => one !== standing);
  }

  /**
   * The readings that stand, one a place, in the order they were taken.
   * @param {Job} job
   */
  function standing(job) {
    return job.readings.filter((one) => current(job, one, one.at) === one);
  }

  /**
   * Writes what is typed: into the reading still being typed at that place, else as a new one.
   * @param {Job} job
   * @param {Omit<Reading, "no" | "open" | "withdrawn">} reading
   * @returns {Reading}
   */
  function write(job, reading) {
    const before = current(job, reading, reading.at);
    if (before?.open) {
      return Object.assign(before, reading);
    }
    const fresh = { no: job.readings.length + 1, ...reading, open: true, withdrawn: null };
    job.readings.push(fresh);
    return fresh;
  }

  /** What was being typed counts as taken. @param {Job} job */
  function settle(job) {
    for (const one of job.readings) {
      one.open = false;
    }
  }

  /**
   * Takes the reading of a place back. One that was still being typed was never taken: it goes.
   * @param {Job} job @param {Identity} identity @param {number} at @param {string} time
   */
  function withdraw(job, identity, at, time) {
    const standing = current(job, identity, at);
    if (standing?.open) {
      job.readings.splice(job.readings.indexOf(standing), 1);
    } else if (standing) {
      standing.withdrawn = time;
    }
  }

  /** @param {Job} job */
  function summary(job) {
    const readings = standing(job);
    const how = (/** @type {string[]} */ words) => readings.filter((one) => words.includes(one.judged?.verdict ?? "cannot judge"));
    return {
      readings: readings.length,
      out: how(["out of spec"]).length,
      undecided: how(["too close to call", "cannot judge"]).length,
      steps: Object.values(job.steps).reduce((sum, ticked) => sum + Object.keys(ticked).length, 0),
      checks: Object.values(job.complaints).reduce((sum, { checks }) => sum + checks.filter((one) => one.withdrawn === null).length, 0),
    };
  }

  /** @param {unknown} value @returns {value is Record<string, unknown>} */
  const isMap = (value) => typeof value === "object" && value !== null && !Array.isArray(value);
  /** @param {unknown} value */
  const isText = (value) => typeof value === "string" && value.length <= 4000;
  /** @param {unknown} value */
  const isTextOrNull = (value) => value === null || isText(value);
  /** @param {unknown} value */
  const isTexts = (value) => Array.isArray(value) && value.length <= MOST && value.every(isText);
  /** @param {unknown} value @param {(one: unknown) => boolean} inner */
  const isMapOf = (value, inner) => isMap(value) && Object.keys(value).length <= MOST && Object.values(value).every(inner);

  /** @param {unknown} value */
  function isLimits(value) {
    return isMap(value) && [value.window, value.new, value.wear_limit].every(isTexts) && [value.below, value.above].every(isTextOrNull);
  }

  /** @param {unknown} value */
  function isReach(value) {
    return value === null || (isMap(value) && isText(value.unit) && [value.min, value.max].every(isTextOrNull));
  }

  /** @param {unknown} value */
  function isVerdict(value) {
    const words = ["in spec", "out of spec", "too close to call", "cannot judge"];
    return (
      value === null ||
      (isMap(value) &&
        words.includes(String(value.verdict)) &&
        [value.as_read, value.direction, value.against, value.settle, value.because].every(isTextOrNull) &&
        isReach(value.by) &&
        isReach(value.left))
    );
  }

  /** @param {unknown} value */
  function isTyped(value) {
    const parts = isMap(value) ? [value.value, value.goes, value.stops] : [];
    return isMap(value) && isText(value.unit) && parts.every((one) => one === undefined || isText(one));
  }

  /** @param {unknown} value */
  function isGauge(value) {
    return value === null || (isMap(value) && [value.title, value.kind, value.span, value.error].every(isText) && isTextOrNull(value.resolution));
  }

  /** @param {unknown} value */
  function isReading(value) {
    return (
      isMap(value) &&
      [value.of, value.where, value.when, value.asks, value.text, value.time, value.title, value.release, value.content].every(isText) &&
      [value.gauge, value.initials, value.withdrawn].every(isTextOrNull) &&
      [value.no, value.at].every((one) => Number.isInteger(one) && Number(one) >= 1 && Number(one) <= MOST) &&
      [undefined, "below", "above", "either"].includes(/** @type {any} */ (value.stop)) &&
      [null, "new"].includes(/** @type {any} */ (value.fitting)) &&
      [null, "met", "unmet", "unanswered"].includes(/** @type {any} */ (value.state)) &&
      isTyped(value.typed) &&
      isGauge(value.gauge_facts) &&
      isLimits(value.limits) &&
      isVerdict(value.judged)
    );
  }

  /** @param {unknown} value */
  function isAnswer(value) {
    return isMap(value) && ["met", "unmet"].includes(String(value.answer)) && isText(value.time);
  }

  /** @param {unknown} value */
  function isPlaces(value) {
    return Number.isInteger(value) && Number(value) >= 1 && Number(value) <= 64;
  }

  /** A record of the first format as one of this. @param {Record<string, unknown>} job */
  function upgrade(job) {
    job.format = FORMAT;
    job.complaints = {};
    for (const reading of Array.isArray(job.readings) ? job.readings.filter(isMap) : []) {
      reading.asks = reading.when;
    }
  }

  /** @param {unknown} value */
  function isComplaint(value) {
    return (
      isMap(value) &&
      [value.title, value.release, value.content].every(isText) &&
      isTextOrNull(value.confirmed) &&
      Array.isArray(value.checks) &&
      value.checks.length <= MOST &&
      value.checks.every((one) => isMap(one) && ["clear", "shown"].includes(String(one.result)) && [one.check, one.title, one.time].every(isText) && isTextOrNull(one.withdrawn)) &&
      (value.found === null || (isMap(value.found) && ["checks", "said"].includes(String(value.found.by)) && [value.found.cause, value.found.title, value.found.time].every(isText)))
    );
  }

  /** What is wrong with a record, or null. @param {Record<string, unknown>} job */
  function wrong(job) {
    const { base, build } = job;
    if (!isMap(base) || ![base.title, base.release, base.date, base.content].every(isText)) {
      return "it does not say which handbook it was made with";
    }
    if (!isMap(build) || ![build.id, build.hash, build.engine, build.machine].every(isText)) {
      return "it does not say which build it is of";
    }
    if (![job.id, job.begun].every(isText) || !isTextOrNull(job.closed)) {
      return "it does not say when it was begun";
    }
    if (!Array.isArray(job.readings) || job.readings.length > MOST || !job.readings.every(isReading)) {
      return "a reading in it is damaged";
    }
    const maps = [
      isMapOf(job.written, isText),
      isMapOf(job.states, isAnswer),
      isMapOf(job.gauges, isText),
      isMapOf(job.places, isPlaces),
      isMapOf(job.pairs, (one) => typeof one === "boolean"),
      isMapOf(job.fitting, (one) => typeof one === "boolean"),
      isMapOf(job.steps, (one) => isMapOf(one, isText)),
      isMapOf(job.open, isTexts),
      job.closes_at === undefined || isMapOf(job.closes_at, (one) => isMapOf(one, isText)),
      isMapOf(job.proofs, isText),
      isMapOf(job.complaints, isComplaint),
    ];
    return maps.every(Boolean) ? null : "a part of it is damaged";
  }

  /**
   * A record from the text of a file. Whatever the text is, this answers.
   * @param {string} text
   * @returns {{ ok: true, job: Job } | { ok: false, because: string }}
   */
  function parse(text) {
    /** @type {unknown} */
    let read;
    try {
      read = JSON.parse(text);
    } catch {
      return { ok: false, because: "it is not a job record: its text is not JSON" };
    }
    if (isMap(read) && read.format === FIRST) {
      upgrade(read);
    }
    if (!isMap(read) || read.format !== FORMAT) {
      return { ok: false, because: `it is not a job record: it does not begin as “${FORMAT}”` };
    }
    const fault = wrong(read);
    if (fault !== null) {
      return { ok: false, because: fault };
    }
    const job = /** @type {Job} */ (/** @type {unknown} */ (read));
    settle(job);
    return { ok: true, job };
  }

  globalThis.baybookRecord = { key, create, current, earlier, standing, write, settle, withdraw, summary, parse };
})();
