// @ts-check
/*
 * Turns what is typed into a reading with its verdict. What the verdict stands on is kept with it: limits,
 * state, gauge, release.
 */
(() => {
  "use strict";
  const { judge } = baybookVerdict;

  /** What stands in the fields of a slot; null where there is no number yet. @param {Slot} slot */
  function typed(slot) {
    const texts = slot.fields.map((field) => field.value.trim());
    if (!texts.some(baybookKeys.complete)) {
      return null;
    }
    const [first = "", second = ""] = texts;
    if (slot.fields.length === 1) {
      return { value: first, unit: slot.unit };
    }
    return { unit: slot.unit, ...(first && { goes: first }), ...(second && { stops: second }) };
  }

  /**
   * The answer about what a reading asks for; null where it asks for nothing.
   * @param {Job | null} job @param {string} asks
   * @returns {Reading["state"]}
   */
  function state(job, asks) {
    return asks === "" ? null : job?.states[asks]?.answer ?? "unanswered";
  }

  /** Whether the span of a gauge holds the limits of a row; one of another sort is told apart elsewhere. @param {GaugeFacts} facts @param {Row} row */
  function reaches(facts, row) {
    if (typeof baybookCompute === "undefined" || facts.kind !== row.kind) {
      return true;
    }
    const { Value } = baybookCompute;
    const span = Value.parse(facts.span);
    const [least, most] = [span.min(), span.max()];
    const { window, new: fresh, wear_limit } = row.limits;
    const limits = [window, fresh, wear_limit].flatMap(([form]) => (form === undefined ? [] : [Value.parse(form)]));
    return limits.every((value) =>
      [value.min(), value.max()].every((limit) => {
        const at = limit === null ? null : span.unit.fromSi(value.unit.toSi(limit.exact));
        return at === null || ((least === null || at.compare(least.exact) >= 0) && (most === null || at.compare(most.exact) <= 0));
      }));
  }

  /**
   * The gauge that a row is read with: the one chosen for it alone, else the one in use for its kind where that
   * reaches its limits, else its usual one; `instead` of which, if so.
   * @param {Job | null} job @param {Row} row
   * @returns {{ gauge: string | null, instead: string | null }}
   */
  function inHand(job, row) {
    const known = (/** @type {string | null | undefined} */ id) => (id && globalThis.baybookGauges?.[id]) || null;
    const chosen = job?.gauges[row.key] ?? job?.gauges[row.kind] ?? "";
    const facts = known(chosen);
    if (facts === null || job?.gauges[row.key] !== undefined || reaches(facts, row)) {
      return { gauge: chosen || null, instead: null };
    }
    const usual = known(row.usual);
    return { gauge: usual !== null && reaches(usual, row) ? row.usual : null, instead: facts.title };
  }

  /** Takes a gauge in hand: for its whole kind, or where it does not reach a row's limits, for that row alone. @param {Job} job @param {Row} row @param {string} chosen */
  function choose(job, row, chosen) {
    const facts = globalThis.baybookGauges?.[chosen];
    const reaching = facts === undefined || reaches(facts, row);
    delete job.gauges[row.key];
    job.gauges[reaching ? row.kind : row.key] = chosen;
  }

  /**
   * @param {Bench} bench @param {Row} row @param {number} at @param {Typed} typed
   * @returns {Omit<Reading, "no" | "open" | "withdrawn">}
   */
  function take(bench, row, at, typed) {
    const { job } = bench.shelf;
    const { gauge } = inHand(job, row);
    const gauge_facts = (gauge !== null && globalThis.baybookGauges?.[gauge]) || null;
    const fitting = job?.fitting[row.key] ? /** @type {const} */ ("new") : null;
    const asked = { typed, limits: row.limits, asks: row.asks, state: state(job, row.asks), fitting, gauge_facts };
    return {
      of: row.of,
      where: row.where,
      when: row.when,
      at,
      ...asked,
      ...judge(asked),
      gauge,
      ...(row.stop !== null && { stop: row.stop }),
      time: new Date().toISOString(),
      initials: job?.written.initials || null,
      title: row.title,
      release: bench.base.release,
      content: bench.base.content,
    };
  }

  /**
   * Judges every standing reading of a job again by the limits that hold now, in the state it was taken in.
   * Gives how many verdicts changed of those that another release had judged.
   * @param {Bench} bench @param {Job} job
   */
  function again(bench, job) {
    let changed = 0;
    for (const reading of baybookRecord.standing(job)) {
      const row = bench.rows.find((one) => one.key === baybookRecord.key(reading));
      if (!row) {
        continue;
      }
      const before = reading.judged?.verdict;
      const other = reading.content !== bench.base.content;
      reading.limits = row.limits;
      delete reading.stop;
      Object.assign(reading, row.stop !== null && { stop: row.stop });
      if (reading.asks !== row.asks) {
        // This release asks for more, or for less: what was answered then does not cover it.
        Object.assign(reading, { asks: row.asks, state: state(job, row.asks) });
      }
      Object.assign(reading, judge(reading), { release: bench.base.release, content: bench.base.content });
      changed += Number(other && before !== reading.judged?.verdict);
    }
    return changed;
  }

  /**
   * Gives an answer to the readings that it is about: those nobody had answered for, and the one still
   * being typed. A reading taken under another answer keeps what was true when it was taken, unless `all`.
   * @param {Job} job @param {string} asks @param {boolean} all
   */
  function answer(job, asks, all) {
    for (const reading of baybookRecord.standing(job)) {
      if (reading.asks === asks && (all || reading.open || reading.state === "unanswered")) {
        reading.state = state(job, asks);
        Object.assign(reading, judge(reading));
      }
    }
  }

  /**
   * How many standing readings were taken under another answer than the one that holds now.
   * @param {Job | null} job @param {string} asks
   */
  function otherwise(job, asks) {
    const now = state(job, asks);
    const taken = job && (now === "met" || now === "unmet") ? baybookRecord.standing(job) : [];
    return taken.filter((one) => one.asks === asks && one.state !== now && one.state !== "unanswered").length;
  }

  globalThis.baybookJudging = { typed, take, inHand, choose, again, answer, otherwise, state };
})();
