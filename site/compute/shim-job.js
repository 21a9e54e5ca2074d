// @ts-check
/*
 * A job of shims as it is typed, held to what must be true of it: every length exact and in metres, every size
 * above zero, the target in the window, no two valves of one name.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, Refusal, Value } = compute;

  const [MOST_VALVES, MOST_SIZES] = [64, 2000];

  /**
   * @param {BaybookValue} value
   * @param {string} what
   */
  function length(value, what) {
    if (value.unit.kind !== "length") {
      throw new Refusal(`${what} is a length, and \`${value.text()}\` is of another kind: ${value.unit.kindTitle()}`, "write it in mm, in or thou");
    }
    return value;
  }

  /**
   * A thickness in metres.
   * @param {BaybookValue} value
   * @param {string} what
   */
  function size(value, what) {
    const { shape } = length(value, what);
    if (shape.form !== "single" || shape.number.exact.sign() <= 0) {
      throw new Refusal(`\`${value.text()}\` is not the size of a shim`, "write one thickness above zero");
    }
    return value.unit.toSi(shape.number.exact);
  }

  /**
   * The sizes of `1.20..3.50 mm by 0.05 mm`, the thinnest first.
   * @param {string} text
   */
  function steps(text) {
    const help = "write the thinnest, the thickest and the step, as `1.20..3.50 mm by 0.05 mm`";
    const odd = (/** @type {string} */ message) => new Refusal(message, help);
    const [range, by, ...more] = text.split(" by ");
    if (range === undefined || by === undefined || more.length > 0) {
      throw odd(`\`${text}\` does not say by which step`);
    }
    const [span, step] = [Value.parse(range), Value.parse(by)];
    if (span.shape.form !== "range" || step.shape.form !== "single") {
      throw odd(`\`${text}\` is not a range and a step`);
    }
    if (span.unit.kind !== "length" || step.unit.kind !== "length") {
      throw odd("a shim and its step are lengths");
    }
    const { min, max } = span.shape;
    const each = step.shape.number.exact.times(step.unit.ratioTo(span.unit));
    if (each.sign() <= 0 || min.exact.sign() <= 0) {
      throw odd("the thinnest shim and the step are above zero");
    }
    if (max.exact.minus(min.exact).over(each).floor() >= BigInt(MOST_SIZES)) {
      throw new Refusal(`\`${text}\` is more than ${MOST_SIZES} sizes`, "write a wider step or a shorter range");
    }
    const all = [];
    for (let at = min.exact; at.compare(max.exact) <= 0; at = at.plus(each)) {
      all.push(span.unit.toSi(at));
    }
    return { unit: span.unit, sizes: all };
  }

  /** @param {BaybookShimJob} job */
  function stock(job) {
    if (job.stock_steps !== undefined) {
      const { unit, sizes } = steps(job.stock_steps);
      return { unit, stock: sizes.map((one) => ({ size: one, pieces: /** @type {number | null} */ (null) })) };
    }
    const listed = (job.stock ?? []).map((one) => {
      const value = Value.parse(typeof one === "string" ? one : one.size);
      return { value, size: size(value, "a size in stock"), pieces: typeof one === "string" ? null : one.pieces };
    });
    return { unit: listed[0]?.value.unit ?? null, stock: listed };
  }

  /**
   * Where a valve aims: whether a lash, in metres, lies in the window, and the lash aimed at.
   * @param {string} typed
   * @param {string | undefined} target
   * @returns {BaybookAim}
   */
  function aim(typed, target) {
    const window = length(Value.parse(typed), "the window");
    const { unit } = window;
    const [low, high] = [window.min(), window.max()];
    const [least, most] = [low && unit.toSi(low.exact), high && unit.toSi(high.exact)];
    const wanted = target === undefined ? null : length(Value.parse(target), "the target");
    /** @param {BaybookRational} lash */
    const allows = (lash) => {
      const above = least === null ? 1 : lash.compare(least);
      const below = most === null ? -1 : lash.compare(most);
      const under = below < 0 || (below === 0 && high?.inclusive === true);
      return under && (above > 0 || (above === 0 && low?.inclusive === true)) && lash.sign() >= 0;
    };
    if (wanted !== null && wanted.shape.form !== "single") {
      throw new Refusal(`the target \`${wanted.text()}\` is not one lash`, "write one value");
    }
    if (wanted === null && (least === null || most === null)) {
      const message = `\`${window.text()}\` has one end only, so it has no middle to aim at`;
      throw new Refusal(message, 'say what to aim at with `target = "…"`');
    }
    const at = wanted?.nominal() ?? null;
    const middle = least === null || most === null ? least : least.plus(most).over(new Rational(2));
    const aimed = wanted !== null && at !== null ? wanted.unit.toSi(at) : (middle ?? new Rational(0));
    if (!allows(aimed)) {
      throw new Refusal(
        `the target \`${wanted?.text() ?? ""}\` does not lie in the window \`${window.text()}\``,
        "aim at a lash that the window allows",
      );
    }
    return { unit, target: aimed, allows };
  }

  /**
   * @param {BaybookShimValve} valve
   * @param {BaybookShimJob} job
   * @param {BaybookAim} shared
   * @returns {BaybookSeat}
   */
  function seat(valve, job, shared) {
    const { name, measured, fitted, window, target } = valve;
    const aims = window === undefined && target === undefined ? shared : aim(window ?? job.window, target);
    const lash = length(Value.parse(measured), "a measured lash");
    const value = Value.parse(fitted);
    const shim = size(value, "a fitted shim");
    const { shape } = lash;
    if (shape.form === "under") {
      return { name, lash: null, shim, unit: value.unit, known: false, aim: aims };
    }
    if (shape.form !== "single" || shape.number.exact.sign() < 0) {
      throw new Refusal(
        `\`${lash.text()}\` is not a measured lash`,
        "write one value, `0 mm` where no leaf goes in, or `under …` the thinnest leaf",
      );
    }
    const si = lash.unit.toSi(shape.number.exact);
    return { name, lash: si, shim, unit: value.unit, known: si.sign() > 0, aim: aims };
  }

  /**
   * Holds a job to what must be true of it; throws a `Refusal`.
   * @param {BaybookShimJob} job
   * @returns {BaybookHead}
   */
  function head(job) {
    const shared = aim(job.window, job.target);
    const held = stock(job);
    if (job.valves.length === 0) {
      throw new Refusal("there are no valves", "add a `[[valves]]` table for each valve");
    }
    if (job.valves.length > MOST_VALVES) {
      const message = `there are ${job.valves.length} valves, over the bound of ${MOST_VALVES}`;
      throw new Refusal(message, "work out one head at a time");
    }
    const names = new Set();
    for (const { name } of job.valves) {
      if (names.has(name)) {
        throw new Refusal(`two valves are called \`${name}\``, "give each valve a name of its own");
      }
      names.add(name);
    }
    const seats = job.valves.map((valve) => seat(valve, job, shared));
    const shimUnit = held.unit ?? seats[0]?.unit ?? shared.unit;
    return { unit: shared.unit, shimUnit, target: shared.target, stock: held.stock, seats };
  }

  compute.shimJob = { head };
})();
