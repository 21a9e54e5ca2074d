// @ts-check
/*
 * In which order the checks of a complaint are done, so that the cause is found soonest on average.
 *
 * One cause is present. A check shows any cause in its list, and clears them all by not showing; access is
 * opened once. Expected minutes are the sum, over the causes, of their share of past jobs times the minutes
 * gone when the first check that shows them is done. Of orders equally good it is the one nearest the
 * file's; checks with nothing left to show come last, as in the file.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, Refusal } = compute;
  const { bit, members, sum } = compute.orderJob;

  /** @param {number} count */
  const every = (count) => bit(count) - 1n;

  /**
   * What is left and open after the results, and the checks still to be done.
   * @param {BaybookJob} job
   * @param {Record<string, "clear" | "shown">} results
   */
  function startOf(job, results) {
    const unknown = Object.keys(results).sort().find((id) => !job.checks.includes(id));
    if (unknown !== undefined) {
      throw new Refusal(`there is no check \`${unknown}\``, `checks are ${job.checks.join(", ")}`);
    }
    let [left, open, toDo] = [every(job.causes.length) & ~job.residual, 0n, every(job.checks.length)];
    for (const [at, check] of job.checks.entries()) {
      const result = results[check];
      if (result !== undefined) {
        toDo &= ~bit(at);
        open |= job.needs[at] ?? 0n;
        left &= result === "shown" ? (job.shows[at] ?? 0n) : ~(job.shows[at] ?? 0n);
      }
    }
    const showed = job.checks.find((check) => results[check] === "shown");
    if (showed !== undefined && left === 0n) {
      const message = `\`${showed}\` showed, but the other checks leave none of its causes`;
      throw new Refusal(message, "one of the results is wrong, or there are two causes: do them again");
    }
    return { left, open, toDo };
  }

  /**
   * A part of a whole; of nothing, nothing.
   * @param {bigint} part
   * @param {bigint} total
   */
  const share = (part, total) => (total === 0n ? new Rational(0n) : new Rational(part, total));

  /**
   * The checks one after another.
   * @param {BaybookJob} job
   * @param {{ left: bigint, open: bigint }} start
   * @param {number[]} sequence
   * @param {bigint} total
   * @returns {BaybookOrderStep[]}
   */
  function walk(job, start, sequence, total) {
    let { left, open } = start;
    let gone = 0n;
    return sequence.map((at, place) => {
      const here = rate(job, left, open, at);
      const rest = sequence.slice(place + 1).map((other) => rate(job, left, open, other));
      const before = sequence.slice(0, place).map((other) => (job.shows[other] ?? 0n) & start.left);
      const apart = (here.shows & left) === 0n && before.some((one) => (one & here.shows) !== 0n && (one & ~here.shows) !== 0n);
      const why = apart ? "once one before it has shown, it tells the causes apart" : reason(here, rest, left);
      gone += here.minutes;
      [left, open] = [left & ~here.shows, open | here.opens];
      return {
        check: job.checks[at] ?? "",
        opens: members(here.opens).map((step) => job.access[step] ?? ""),
        minutes: new Rational(here.minutes, job.minute),
        by: new Rational(gone, job.minute),
        finds: share(here.finds, total),
        why,
      };
    });
  }

  /**
   * What a check would find, and what that would take.
   * @param {BaybookJob} job
   * @param {bigint} left
   * @param {bigint} open
   * @param {number} at
   */
  function rate(job, left, open, at) {
    const shows = job.shows[at] ?? 0n;
    const opens = (job.needs[at] ?? 0n) & ~open;
    const minutes = (job.checkMinutes[at] ?? 0n) + sum(job.accessMinutes, opens);
    return { shows, opens, minutes, finds: sum(job.weights, shows & left) };
  }

  /**
   * Why a check comes before the rest, while `left` is left.
   * @param {ReturnType<typeof rate>} here
   * @param {ReturnType<typeof rate>[]} all
   * @param {bigint} left
   */
  function reason(here, all, left) {
    const after = left & ~here.shows;
    const rest = all.filter((other) => (other.shows & left) !== 0n);
    if ((here.shows & left) === 0n) {
      return "nothing is left for it to show";
    }
    if (!rest.some((other) => (other.shows & after) !== 0n)) {
      return "all that is left";
    }
    if (!rest.some((other) => other.finds * here.minutes > here.finds * other.minutes)) {
      return "the most for its minutes";
    }
    return rest.some((other) => (other.opens & here.opens) !== 0n)
      ? "what it opens serves those after it"
      : "with it out of the way the rest goes quicker";
  }

  /** @param {BaybookOrderStep[]} steps */
  const expected = (steps) => steps.reduce((all, one) => all.plus(one.finds.times(one.by)), new Rational(0n));

  /**
   * Whether a check shows some, but not all, of several causes.
   * @param {bigint} shows
   * @param {bigint} causes
   */
  const parts = (shows, causes) => (shows & causes) !== 0n && (causes & ~shows) !== 0n;

  /**
   * The best order with the steps it is made of; throws a `Refusal`.
   * @param {BaybookComplaint} complaint
   * @param {Record<string, "clear" | "shown">} results
   */
  function planned(complaint, results = {}) {
    const job = compute.orderJob.job(complaint);
    const { left, open, toDo } = startOf(job, results);
    // A cause that no check still to be done shows has no minutes, and weighs nothing in the order.
    const shown = members(toDo).reduce((all, at) => all | (job.shows[at] ?? 0n), 0n);
    const search = new compute.OrderSearch(job, toDo);
    const { sequence, proved } = search.sequence({ left: left & shown, open });
    const written = members(toDo);
    const all = [...sequence, ...written.filter((check) => !sequence.includes(check))];
    const total = sum(job.weights, left);
    const steps = walk(job, { left, open }, all, total);
    const shares = members(left).map((at) => [job.causes[at], share(job.weights[at] ?? 0n, total).text()]);
    const apart = members(left).length < 2 || members(toDo).some((at) => parts(job.shows[at] ?? 0n, left));
    const answer = {
      order: steps.map((step) => step.check),
      expected_minutes: expected(steps).text(),
      as_written_minutes: expected(walk(job, { left, open }, written, total)).text(),
      left: Object.fromEntries(shares),
    };
    return { steps, apart, answer: proved ? answer : { ...answer, proved: false } };
  }

  compute.orderSteps = (complaint, results) => compute.answered(() => planned(complaint, results).steps);
  compute.orderToldApart = (complaint, results) => compute.answered(() => planned(complaint, results).apart);
  compute.order = (complaint, results) => compute.answered(() => planned(complaint, results).answer);
})();
