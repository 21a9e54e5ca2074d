// @ts-check
/*
 * What was probably meant by what is no value: a unit spelt nearly so, a number written another way, a unit with
 * something after it. It serves the words of a refusal alone: without it the same is refused.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Refusal, problems, units, number } = compute;
  const { SPACE, trim } = compute.letters;
  const { spellings, normal } = units;

  /** The most characters of a text that a slip is looked for in. */
  const LONGEST_GUESSED = 50;
  const GAP = new RegExp(`[,'’_${SPACE}]`, "gu");

  /**
   * Optimal string alignment: insertions, deletions, changes and swaps of neighbours, each letter once.
   * @param {string[]} from
   * @param {string[]} to
   */
  function distance(from, to) {
    /** @type {number[][]} */
    const rows = [to.map((_, at) => at).concat(to.length)];
    for (let i = 1; i <= from.length; i += 1) {
      const row = [i];
      for (let j = 1; j <= to.length; j += 1) {
        const above = rows[i - 1] ?? [];
        const changed = (above[j - 1] ?? 0) + (from[i - 1] === to[j - 1] ? 0 : 1);
        let least = Math.min((above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1, changed);
        if (i > 1 && j > 1 && from[i - 1] === to[j - 2] && from[i - 2] === to[j - 1] && from[i - 1] !== to[j - 1]) {
          least = Math.min(least, (rows[i - 2]?.[j - 2] ?? 0) + 1);
        }
        row.push(least);
      }
      rows.push(row);
    }
    return rows[from.length]?.[to.length] ?? 0;
  }

  /**
   * The closest known unit: one that differs in capitals alone, else one a slip or two away.
   * @param {string} text
   * @returns {BaybookUnit | null}
   */
  function nearest(text) {
    const wanted = normal(text);
    const alike = spellings.filter(({ name }) => name.toLowerCase() === wanted.toLowerCase());
    if (alike.length > 0) {
      const first = alike[0]?.unit ?? null;
      return alike.every(({ unit }) => unit === first) ? first : null;
    }
    const letters = [...wanted];
    const allowed = letters.length <= 2 || letters.length > LONGEST_GUESSED ? -1 : letters.length <= 6 ? 1 : 2;
    let best = { apart: Infinity, unit: /** @type {BaybookUnit | null} */ (null) };
    for (const { name, unit } of spellings) {
      const other = [...name];
      const steps = Math.abs(other.length - letters.length) > allowed ? Infinity : distance(other, letters);
      const apart = 2 * steps + (other[0] === letters[0] ? 0 : 1);
      if (steps <= allowed && apart < best.apart) {
        best = { apart, unit };
      }
    }
    return best.unit;
  }

  /**
   * How a malformed number was probably meant: `0,20` as 0.20, `1,500` as 1500 or 1.500.
   * @param {string} text
   */
  function offers(text) {
    const groups = (text.split(".")[0] ?? "").split(GAP);
    const grouped =
      !text.startsWith("0") && groups.length > 1 && groups.slice(1).every((group) => /^[0-9]{3}$/.test(group));
    const tries = grouped ? [text.replace(GAP, "")] : [];
    tries.push(text.replaceAll(",", "."), text.replace(/\.+$/, ""));
    const good = tries.filter((attempt) => attempt !== text && isNumber(attempt));
    return good.filter((attempt, at) => attempt !== good[at - 1]);
  }

  /** @param {string} text */
  function isNumber(text) {
    try {
      const start = text.length - text.replace(new RegExp(`^[${SPACE}]+`, "u"), "").length;
      return trim(text.slice(number.scan(text, start).end)) === "";
    } catch (problem) {
      if (problem instanceof Refusal) {
        return false;
      }
      throw problem;
    }
  }

  /**
   * Whether a text is a unit with something after it: then that is the error.
   * @param {BaybookShape} shape
   * @param {string} text
   */
  function afterUnit(shape, text) {
    const leading = leadingUnit(text);
    if (leading === null) {
      return null;
    }
    const found = trim(text.slice(leading.length));
    if (["..", "…", "–", "to "].some((joint) => found.startsWith(joint))) {
      return problems.unitTwice(null);
    }
    const word = found.replace(/\.+$/, "").toLowerCase();
    const bound = shape.form === "single" && ["min", "max", "over", "under"].includes(word);
    const offer = bound ? `${word} ${leading.unit.after(shape.number.text)}` : null;
    return problems.trailing(found, offer);
  }

  /**
   * The longest unit that a text begins with, apart from what follows, and its length.
   * @param {string} text
   */
  function leadingUnit(text) {
    const letters = [...text];
    for (let count = letters.length - 1; count >= 0; count -= 1) {
      const before = letters.slice(0, count).join("");
      const head = trim(before);
      const apart = !/[\p{Alphabetic}\p{N}]/u.test(letters[count] ?? "") || head.length < before.length;
      const unit = apart && head !== "" && !head.endsWith(".") ? units.known(head) : null;
      if (unit !== null) {
        return { unit, length: head.length };
      }
    }
    return null;
  }

  compute.meant = { unit: nearest, number: offers, afterUnit };
})();
