// @ts-check
/*
 * Units in the browser: the many ways a unit is written, led to one, and its exact size. The table
 * itself is unit-table.js, written from the compiler's own.
 *
 * Invariant: a spelling means one unit, or it is listed as ambiguous; no unit of one kind ever
 * converts into a unit of another.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational, unitTable } = compute;

  /** The longest text taken for a unit, in bytes. */
  const LONGEST = 80;
  const SPACE = "\\t-\\r \\u0085\\u00a0\\u1680\\u2000-\\u200a\\u2028\\u2029\\u202f\\u205f\\u3000";
  const SEPARATOR = new RegExp(`[${SPACE}\\-.*·⋅•∙\\u2010\\u2011\\u2013]`, "u");
  const EDGES = new RegExp(`^[${SPACE}]+|[${SPACE}]+$`, "gu");
  /** @type {Record<string, string>} */
  const LOOK_ALIKE = {
    "\u03bc": "µ",
    "\u2126": "Ω",
    "º": "°",
    "˚": "°",
    "℃": "°C",
    "℉": "°F",
    "″": '"',
    "”": '"',
    "∆": "Δ",
  };

  /** A kind in running text. @param {string} kind */
  const kindTitle = (kind) => unitTable.kinds[kind] ?? kind.replaceAll("-", " ");

  /** @param {string} text as `127/5000` */
  function fraction(text) {
    const [above = 0n, below = 1n] = text.split("/").map(BigInt);
    return new Rational(above, below);
  }

  class Unit {
    /** @param {string} row a line of the table @param {string} before the kind of the line before */
    constructor(row, before) {
      const [symbol = "", spoken = "", kind, size = "", zero = "", beside = "", ...spellings] = row.split("|");
      /** How it is written, such as `lbf·ft`. */
      this.symbol = symbol;
      /** Its name in full, in the plural. */
      this.spoken = spoken;
      /** What it measures. */
      this.kind = kind || before;
      /** Its size in the SI unit of its kind, without any offset. */
      this.factor = fraction(size);
      /** The zero of its scale in the SI unit. */
      this.offset = fraction(zero || "0");
      /** Symbol of the unit a shop wants to see beside it. */
      this.beside = beside || null;
      this.names = [symbol, spoken, ...spellings];
    }

    /** What it measures, in running text. */
    kindTitle() {
      return kindTitle(this.kind);
    }

    /**
     * How many of `other` one of this unit is, as a difference.
     * @param {Unit} other
     */
    ratioTo(other) {
      return this.factor.over(other.factor);
    }

    /** @param {BaybookRational} value */
    toSi(value) {
      return value.times(this.factor).plus(this.offset);
    }

    /** @param {BaybookRational} value */
    fromSi(value) {
      return value.minus(this.offset).over(this.factor);
    }

    /**
     * The same kind, and for counts the same things.
     * @param {Unit} other
     */
    convertsTo(other) {
      return this === other || (this.kind === other.kind && this.kind !== "count");
    }

    /** @returns {BaybookUnit | null} */
    counterpart() {
      return this.beside === null ? null : known(this.beside);
    }

    /**
     * A number followed by this unit as we write it: `20 N·m`, `90°`, `9.5:1`.
     * @param {string} number
     */
    after(number) {
      const close = this.symbol === "°" || this.symbol === ":1";
      return `${number}${close ? "" : " "}${this.symbol}`;
    }
  }

  /** @param {string} text */
  const trim = (text) => text.replace(EDGES, "");
  /** @param {string} text */
  const bytes = (text) => new TextEncoder().encode(text).length;

  /**
   * `ft.-lb`, `ft lb` and `ft-lb` are all `ft·lb`; a full stop at the end falls.
   * @param {string} written
   */
  function normal(written) {
    const trimmed = trim(written);
    const stopped = trimmed.endsWith(".") && !SEPARATOR.test(trimmed.slice(-2, -1));
    let out = "";
    let pending = false;
    for (const letter of stopped ? trimmed.slice(0, -1) : trimmed) {
      if (SEPARATOR.test(letter)) {
        pending = true;
        continue;
      }
      if (pending && letter !== "/" && !out.endsWith("/")) {
        out += "·";
      }
      pending = false;
      out += LOOK_ALIKE[letter] ?? letter;
    }
    return raisedPower(pending ? `${out}·` : out);
  }

  /**
   * `cm2` and `cm^2` as `cm²`, likewise the cube.
   * @param {string} text
   */
  function raisedPower(text) {
    const raised = { 2: "²", 3: "³" };
    return text.replace(/([mn])\^?([23])$/, (_, letter, power) => letter + raised[/** @type {2 | 3} */ (+power)]);
  }

  /** @type {InstanceType<typeof Unit>[]} */
  const all = [];
  unitTable.units.split("\n").forEach((row) => all.push(new Unit(row, all.at(-1)?.kind ?? "")));
  const spellings = all.flatMap((unit) => unit.names.map((name) => ({ name: normal(name), unit })));
  const index = new Map(spellings.map(({ name, unit }) => [name, unit]));
  const ambiguous = new Map(
    unitTable.ambiguous.flatMap(([names, meanings]) => names.map((name) => [name, meanings])),
  );

  /**
   * The unit of this name, with no word on what is none.
   * @param {string} text
   * @returns {Unit | null}
   */
  function known(text) {
    return index.get(text) ?? index.get(normal(text)) ?? null;
  }

  /**
   * Reads a unit in any accepted spelling; throws a `Refusal`.
   * @param {string} text
   */
  function parse(text) {
    const found = index.get(text) ?? (bytes(text) > LONGEST ? null : known(text));
    if (found !== null) {
      return found;
    }
    const meanings = bytes(text) > LONGEST ? undefined : ambiguous.get(normal(text));
    if (meanings !== undefined) {
      const names = meanings.map(([, meaning]) => meaning);
      const ways = meanings.map(([write, meaning]) => `\`${write}\` for ${meaning}`);
      const refusal = new Refusal(`\`${text}\` could mean ${names.join(" or ")}`, `write ${ways.join(", or ")}`);
      throw Object.assign(refusal, { sort: "ambiguous", found: text, meanings: meanings.map(([write]) => write) });
    }
    const near = bytes(text) > LONGEST ? null : (compute.meant?.unit(text) ?? null);
    const help =
      near === null
        ? "write a unit of the table, such as mm, N·m, kPa or °C"
        : `did you mean \`${near.symbol}\` (${near.spoken})?`;
    throw new Refusal(`unknown unit \`${text}\``, help);
  }

  /** What was given is wrong: said in the user's own words, with how to mend it. */
  class Refusal extends Error {
    /**
     * @param {string} message lower case, no full stop
     * @param {string} help
     */
    constructor(message, help) {
      super(message);
      this.help = help;
    }
  }

  compute.Refusal = Refusal;
  compute.units = { all, spellings, normal, parse, known, kindTitle };
  compute.letters = { SPACE, trim, bytes };
})();
