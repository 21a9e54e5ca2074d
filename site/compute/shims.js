// @ts-check
/*
 * The shim plan of a head, as the compiler works it out: an assignment whose costs hold four aims and the order
 * of the file, so that exactly one plan is the best. A valve that keeps its own shim, in its window or unsolved,
 * takes the place of that shim.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, Refusal } = compute;

  const ZERO = new Rational(0);

  /**
   * What each valve could take, in the order in which the file decides between equals.
   * @param {BaybookHead} head
   * @returns {BaybookShimChoice[][]}
   */
  function options(head) {
    return head.seats.map((seat, place) => {
      const { lash } = seat;
      /** @type {BaybookShimChoice} */
      const unsolved = { from: "unsolved", place, shim: seat.shim, off: ZERO };
      if (lash === null || !seat.known) {
        return [unsolved];
      }
      const gap = lash.plus(seat.shim);
      /** @type {BaybookShimChoice[]} */
      const all = [{ from: "kept", place, shim: seat.shim, off: ZERO }];
      head.seats.forEach(({ shim }, other) => {
        if (other !== place) {
          all.push({ from: "engine", place: other, shim, off: ZERO });
        }
      });
      head.stock.forEach(({ size, pieces }, other) => {
        if (pieces !== 0) {
          all.push({ from: "stock", place: other, shim: size, off: ZERO });
        }
      });
      const fits = all.filter(({ shim }) => seat.aim.allows(gap.minus(shim)));
      return [...fits.map((one) => ({ ...one, off: gap.minus(one.shim).minus(seat.aim.target).size() })), unsolved];
    });
  }

  /**
   * @param {bigint} a
   * @param {bigint} b
   * @returns {bigint}
   */
  const divisor = (a, b) => (b === 0n ? a : divisor(b, a % b));

  /**
   * Four aims and the order of the file as one whole number.
   * @param {BaybookShimChoice[][]} all
   */
  function weights(all) {
    const flat = all.flat();
    const valves = BigInt(all.length);
    const scale = flat.reduce((scale, { off }) => (scale / divisor(scale, off.denom)) * off.denom, 1n);
    const scaled = (/** @type {BaybookRational} */ off) => off.times(new Rational(scale)).numer;
    const ranks = BigInt(Math.max(...all.map((choices) => choices.length)) + 1);
    const furthest = flat.reduce((most, { off }) => (scaled(off) > most ? scaled(off) : most), 0n);
    const off = ranks ** valves;
    const moved = off * (furthest * valves + 1n);
    const bought = moved * (valves + 1n);
    const aims = { kept: 0n, engine: moved, stock: bought, unsolved: bought * (valves + 1n) };
    /**
     * @param {number} valve
     * @param {number} rank
     * @param {BaybookShimChoice} choice
     */
    return (valve, rank, choice) =>
      aims[choice.from] + off * scaled(choice.off) + BigInt(rank) * ranks ** (valves - BigInt(valve) - 1n);
  }

  /**
   * @param {BaybookHead} head
   * @param {BaybookShimChoice[][]} all
   * @returns {BaybookShimChoice[]}
   */
  function best(head, all) {
    const counted = head.stock.flatMap(({ pieces }, place) => {
      const takers = all.filter((choices) => choices.some((one) => one.from === "stock" && one.place === place)).length;
      return Array.from({ length: pieces === null ? 0 : Math.min(pieces, takers) }, () => `piece ${place}`);
    });
    const valves = head.seats.map((_, valve) => valve);
    const columns = [...valves.map((valve) => `valve ${valve}`), ...valves.map((valve) => `plenty ${valve}`), ...counted];
    /**
     * @param {number} valve
     * @param {BaybookShimChoice} choice
     */
    const column = (valve, choice) => {
      if (choice.from !== "stock") {
        return `valve ${choice.place}`;
      }
      return head.stock[choice.place]?.pieces === null ? `plenty ${valve}` : `piece ${choice.place}`;
    };
    const cost = weights(all);
    const offers = all.map((choices, valve) => {
      /** @type {Map<string, { cost: bigint, choice: BaybookShimChoice }>} */
      const cheapest = new Map();
      choices.forEach((choice, rank) => {
        const [where, price] = [column(valve, choice), cost(valve, rank, choice)];
        if (price < (cheapest.get(where)?.cost ?? price + 1n)) {
          cheapest.set(where, { cost: price, choice });
        }
      });
      return columns.map((where) => cheapest.get(where) ?? null);
    });
    const placed = compute.assignment.cheapest(offers.map((row) => row.map((offer) => offer?.cost ?? null)));
    return offers.map((row, valve) => {
      const last = all[valve]?.at(-1);
      return row[placed[valve] ?? 0]?.choice ?? /** @type {BaybookShimChoice} */ (last);
    });
  }

  /** @param {BaybookHead} head */
  function plan(head) {
    const chosen = best(head, options(head));
    const lines = head.seats.map((seat, place) => {
      const { from, place: giver, shim } = chosen[place] ?? { from: "unsolved", place, shim: seat.shim };
      const after = seat.lash === null ? null : head.unit.fromSi(seat.lash.plus(seat.shim).minus(shim));
      return {
        valve: seat.name,
        fitted: head.shimUnit.fromSi(seat.shim).text(),
        shim: head.shimUnit.fromSi(shim).text(),
        from: from === "unsolved" ? "kept" : from,
        moved_from: from === "engine" ? (head.seats[giver]?.name ?? null) : null,
        lash_after: after === null ? null : after.text(),
      };
    });
    const unsolved = head.seats.filter((_, place) => chosen[place]?.from === "unsolved").map(({ name }) => name);
    return {
      plan: lines,
      bought: chosen.filter(({ from }) => from === "stock").length,
      unsolved,
      target: head.unit.fromSi(head.target).text(),
      unit: head.unit.symbol,
      shim_unit: head.shimUnit.symbol,
    };
  }

  compute.shims = (job) => {
    try {
      return plan(compute.shimJob.head(job));
    } catch (problem) {
      if (problem instanceof Refusal) {
        return { error: { message: problem.message, help: problem.help } };
      }
      throw problem;
    }
  };
})();
