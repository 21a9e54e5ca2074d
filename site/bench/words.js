// @ts-check
/*
 * A verdict in the words of the shop. No DOM here. Nothing is judged here either: every number comes
 * from the verdict, and is only written shorter where it has no end.
 */
(() => {
  "use strict";

  /** @type {Record<VerdictWord, [Said["mark"], string]>} */
  const WORDS = {
    "in spec": ["in", "In spec"],
    "out of spec": ["out", "Out of spec"],
    "too close to call": ["close", "Too close to call"],
    "cannot judge": ["none", "Cannot judge"],
  };

  /** @type {Record<string, string>} */
  const AGAINST = { window: "the window", new: "new parts", wear_limit: "the wear limit" };

  /**
   * An exact number on a sheet: a fraction without an end is cut to four figures and says so.
   * @param {string} exact
   */
  function number(exact) {
    const [over, under] = exact.split("/");
    if (under === undefined) {
      return exact;
    }
    const value = Number(over) / Number(under);
    return Number.isFinite(value) ? `about ${Number(value.toPrecision(3))}` : exact;
  }

  /**
   * `0.06 mm`, `0.05 to 0.07 mm`, `at least 0.05 mm`, `at most 0.07 mm`.
   * @param {Reach} reach
   */
  function reach({ min, max, unit }) {
    if (min !== null && max !== null) {
      return min === max ? `${number(min)} ${unit}` : `${number(min)} to ${number(max)} ${unit}`;
    }
    if (min !== null) {
      return `at least ${number(min)} ${unit}`;
    }
    return max === null ? `an unknown amount` : `at most ${number(max)} ${unit}`;
  }

  /** @param {string} text */
  const opened = (text) => text.charAt(0).toUpperCase() + text.slice(1);

  /** @param {Verdict} verdict @returns {string[]} */
  function details(verdict) {
    const { direction, by, against, left, settle, because, as_read } = verdict;
    const judgedBy = against === null ? "" : AGAINST[against] ?? against.replace(/_/g, " ");
    switch (verdict.verdict) {
      case "in spec":
        return [left ? `${reach(left)} left to ${judgedBy}` : `judged by ${judgedBy}`, because ?? ""];
      case "out of spec":
        return [[direction, by ? `by ${reach(by)}` : ""].filter(Boolean).join(" "), `judged by ${judgedBy}`, because ?? ""];
      case "too close to call":
        return [as_read ? `as read ${as_read}` : "", settle ?? ""];
      default:
        return [because ?? "the limits do not say"];
    }
  }

  /**
   * @param {Verdict} verdict
   * @returns {Said}
   */
  function say(verdict) {
    const [mark, word] = WORDS[verdict.verdict] ?? WORDS["cannot judge"];
    const detail = details(verdict).filter((one) => one !== "").join(" · ");
    return { mark, word, detail: opened(detail) };
  }

  /** The time of day of a reading, as the device has it. @param {string} time */
  function clock(time) {
    const date = new Date(time);
    const two = (/** @type {number} */ value) => String(value).padStart(2, "0");
    return Number.isNaN(date.getTime()) ? "" : `${two(date.getHours())}:${two(date.getMinutes())}`;
  }

  globalThis.baybookWords = { say, number, reach, clock, condition: baybookCondition.words };
})();
