// @ts-check
/*
 * A complaint's causes, access and checks, with every reference looked up: what the search works on. Sets
 * of causes, access steps and checks are big integers, a bit for each place in the file; shares and minutes
 * are whole numbers of a common denominator.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, Refusal } = compute;

  /** The most causes, access steps and checks that a complaint may have, each. */
  const MOST = 64;

  /** @param {number} at */
  const bit = (at) => 1n << BigInt(at);

  /**
   * The places in a set, in order.
   * @param {bigint} set
   */
  function members(set) {
    const places = [];
    for (let at = 0; set >> BigInt(at) !== 0n; at += 1) {
      if ((set & bit(at)) !== 0n) {
        places.push(at);
      }
    }
    return places;
  }

  /**
   * @param {string} what
   * @param {{ id: string }[]} all
   */
  function places(what, all) {
    const found = new Map();
    for (const [at, { id }] of all.entries()) {
      if (at === MOST) {
        throw new Refusal(`there are more than ${MOST} of one sort`, "divide the complaint in two");
      }
      if (found.has(id)) {
        throw new Refusal(`there are two of the ${what} \`${id}\``, "give each its own id");
      }
      found.set(id, at);
    }
    return found;
  }

  /**
   * @param {string} what
   * @param {string[]} ids
   * @param {Map<string, number>} known
   * @param {string} by
   */
  function setOf(what, ids, known, by) {
    return ids.reduce((all, id) => {
      const at = known.get(id);
      if (at === undefined) {
        const message = `\`${by}\` names the ${what} \`${id}\`, which there is not`;
        throw new Refusal(message, `add the ${what}, or take its name out`);
      }
      return all | bit(at);
    }, 0n);
  }

  /**
   * @param {bigint} direct
   * @param {bigint[]} closed
   */
  const closure = (direct, closed) => members(direct).reduce((all, at) => all | (closed[at] ?? 0n), direct);

  /**
   * Every access step with all that comes before it.
   * @param {bigint[]} direct
   * @param {{ id: string }[]} access
   */
  function closures(direct, access) {
    let closed = direct;
    for (const _ of access) {
      const before = closed;
      closed = before.map((one) => closure(one, before));
    }
    const circle = access.find((_, at) => ((closed[at] ?? 0n) & bit(at)) !== 0n);
    if (circle !== undefined) {
      throw new Refusal(`the access step \`${circle.id}\` needs itself`, "take one of the needs out of the circle");
    }
    return closed;
  }

  /**
   * A number that is zero or more.
   * @param {string} id
   * @param {number | string} written
   */
  function amount(id, written) {
    const number = Rational.parse(String(written));
    if (number === null) {
      throw new Refusal(`a number of \`${id}\` is not understood`, "write it as a decimal");
    }
    if (number.sign() < 0) {
      throw new Refusal(`a number of \`${id}\` is below zero`, "shares and minutes are zero or more");
    }
    return number;
  }

  /** @param {BaybookRational[]} numbers */
  function whole(numbers) {
    const common = numbers.reduce((so_far, one) => new Rational(so_far, one.denom).numer * one.denom, 1n);
    return { common, counts: numbers.map((one) => (one.numer * common) / one.denom) };
  }

  /**
   * Looks up every reference; throws a `Refusal`.
   * @param {BaybookComplaint} complaint
   * @returns {BaybookJob}
   */
  function job({ causes, access = [], checks }) {
    const [causeIds, accessIds] = [places("cause", causes), places("access step", access)];
    places("check", checks);
    const shares = causes.map((one) => amount(one.id, one.share));
    const taken = [...checks, ...access].map((one) => amount(one.id, one.minutes));
    const closed = closures(
      access.map((one) => setOf("access step", one.needs ?? [], accessIds, one.id)),
      access,
    );
    const residual = causes.reduce((all, one, at) => (one.residual ? all | bit(at) : all), 0n);
    const shows = checks.map((one) => setOf("cause", one.shows, causeIds, one.id) & ~residual);
    const needs = checks.map((one) => closure(setOf("access step", one.needs ?? [], accessIds, one.id), closed));
    const zero = new Rational(0n);
    const weights = whole(shares.map((share, at) => (causes[at]?.residual ? zero : share))).counts;
    const minutes = whole(taken);
    const found = {
      causes: causes.map((one) => one.id),
      checks: checks.map((one) => one.id),
      access: access.map((one) => one.id),
      residual,
      weights,
      checkMinutes: minutes.counts.slice(0, checks.length),
      accessMinutes: minutes.counts.slice(checks.length),
      minute: minutes.common,
      shows,
      needs,
    };
    everyCauseIsShown(found);
    return found;
  }

  /** @param {BaybookJob} job */
  function everyCauseIsShown({ causes, residual, shows, weights }) {
    const shown = shows.reduce((all, one) => all | one, residual);
    const hidden = causes.find((_, at) => (shown & bit(at)) === 0n);
    if (hidden !== undefined) {
      const help = "add a check that shows it, or mark it `residual = true`";
      throw new Refusal(`no check shows the cause \`${hidden}\``, help);
    }
    if (weights.every((one) => one === 0n)) {
      const help = "give each cause its share of past jobs, as a percentage or a count";
      throw new Refusal("the shares of the causes add up to nothing", help);
    }
  }

  /**
   * The sum of the numbers at the places of a set.
   * @param {bigint[]} numbers
   * @param {bigint} set
   */
  const sum = (numbers, set) => members(set).reduce((all, at) => all + (numbers[at] ?? 0n), 0n);

  compute.orderJob = { bit, members, sum, job };
})();
