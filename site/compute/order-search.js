// @ts-check
/*
 * The best order, proved by search over what is left and what is open.
 *
 * What a further order costs depends only on the causes left and the access opened, so that each such state
 * is worked out once. A check that shares neither causes nor access with another useful one is never worth
 * delaying behind another such of a lower share for its minutes: of all of these only the first is tried.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { bit, members, sum } = compute.orderJob;

  /** The most states that are worked out; a complaint that needs more is ordered without proof. */
  const MOST_STATES = 30_000;

  /**
   * What is left to find, what is open, and the weight of what is left.
   * @typedef {{ left: bigint, open: bigint, weight: bigint }} State
   *
   * A check that would show something: what, the access it opens, and its minutes with that.
   * @typedef {{ check: number, shows: bigint, opens: bigint, minutes: bigint, weight: bigint }} Useful
   */

  /**
   * The state reached when a check has shown nothing.
   * @param {State} state
   * @param {Useful} done
   * @returns {State}
   */
  const after = ({ left, open, weight }, done) => ({
    left: left & ~done.shows,
    open: open | done.opens,
    weight: weight - done.weight,
  });

  /**
   * The check of the largest share for its minutes; of equal ones the first in the file.
   * @param {Useful[]} useful
   * @returns {Useful | undefined}
   */
  function quickest(useful) {
    const [first, ...more] = useful;
    const better = (/** @type {Useful | undefined} */ best, /** @type {Useful} */ one) =>
      best === undefined || one.weight * best.minutes > best.weight * one.minutes ? one : best;
    return more.reduce(better, first);
  }

  /**
   * The checks that may come first in a best order, in file order.
   * @param {Useful[]} useful
   */
  function candidates(useful) {
    const alone = useful.filter(
      (one) =>
        one.minutes !== 0n &&
        !useful.some((other) => other !== one && ((other.shows & one.shows) !== 0n || (other.opens & one.opens) !== 0n)),
    );
    const first = quickest(alone);
    return useful.filter((one) => one === first || !alone.includes(one));
  }

  class Search {
    /** @type {Map<string, bigint>} */
    #best = new Map();
    #job;
    #checks;

    /**
     * @param {BaybookJob} job
     * @param {bigint} toDo the checks that may still be done
     */
    constructor(job, toDo) {
      this.#job = job;
      /** @param {bigint[]} numbers @param {bigint} set */
      const parts = (numbers, set) => members(set).map((at) => ({ bit: bit(at), size: numbers[at] ?? 0n }));
      this.#checks = members(toDo).map((check) => ({
        check,
        shows: job.shows[check] ?? 0n,
        needs: job.needs[check] ?? 0n,
        minutes: job.checkMinutes[check] ?? 0n,
        causes: parts(job.weights, job.shows[check] ?? 0n),
        access: parts(job.accessMinutes, job.needs[check] ?? 0n),
      }));
    }

    /**
     * The useful checks in the best order, and whether it is proved.
     * @param {{ left: bigint, open: bigint }} begin
     */
    sequence(begin) {
      const start = { ...begin, weight: sum(this.#job.weights, begin.left) };
      const proved = this.#cost(start) !== null;
      const sequence = [];
      for (let state = start; ; ) {
        const useful = this.#useful(state);
        const next = proved ? this.#next(state, useful) : quickest(useful);
        if (next === undefined) {
          return { sequence, proved };
        }
        sequence.push(next.check);
        state = after(state, next);
      }
    }

    /**
     * The least that the rest costs: weight times minutes; null if that takes more states than are allowed.
     * @param {State} state
     * @returns {bigint | null}
     */
    #cost(state) {
      const useful = this.#useful(state);
      // Access that no useful check needs is as good as shut.
      const key = `${state.left} ${useful.reduce((all, one) => all | one.opens, 0n)}`;
      const known = this.#best.get(key);
      if (known !== undefined) {
        return known;
      }
      const { weight } = state;
      /** @type {bigint | null} */
      let least = null;
      for (const one of candidates(useful)) {
        const rest = this.#cost(after(state, one));
        if (rest === null) {
          return null;
        }
        const cost = one.minutes * weight + rest;
        least = least === null || cost < least ? cost : least;
      }
      if (this.#best.size >= MOST_STATES) {
        return null;
      }
      this.#best.set(key, least ?? 0n);
      return least ?? 0n;
    }

    /**
     * The first check in file order with which the best is still reached.
     * @param {State} state
     * @param {Useful[]} useful
     */
    #next(state, useful) {
      const least = this.#cost(state);
      const { weight } = state;
      return candidates(useful).find((one) => {
        const rest = this.#cost(after(state, one));
        return rest !== null && one.minutes * weight + rest === least;
      });
    }

    /**
     * The checks that would show something of what is left, in file order.
     * @param {State} state
     * @returns {Useful[]}
     */
    #useful({ left, open }) {
      return this.#checks.flatMap(({ check, shows, needs, minutes, causes, access }) => {
        const found = shows & left;
        if (found === 0n) {
          return [];
        }
        const opens = needs & ~open;
        const opening = inSet(access, opens);
        return [{ check, shows: found, opens, minutes: minutes + opening, weight: inSet(causes, found) }];
      });
    }
  }

  /**
   * The sum of those parts that are in a set.
   * @param {{ bit: bigint, size: bigint }[]} parts
   * @param {bigint} set
   */
  function inSet(parts, set) {
    let all = 0n;
    for (const { bit: place, size } of parts) {
      all += (set & place) === 0n ? 0n : size;
    }
    return all;
  }

  compute.OrderSearch = Search;
})();
