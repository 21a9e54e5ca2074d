// @ts-check
/*
 * A number as it was printed: its digits are kept, so that `0.20` is never `0.2`. Decimals, fractions,
 * and what is mistaken for them.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const { Rational } = compute;
  const { SPACE, trim, bytes } = compute.letters;

  const MOST_DIGITS = 18;
  /** The most digits on either side of a fraction bar. */
  const MOST_FRACTION_DIGITS = 6;
  /** @type {Map<string, [string, string]>} */
  const VULGAR = new Map([
    ["½", ["1", "2"]],
    ["⅓", ["1", "3"]],
    ["⅔", ["2", "3"]],
    ["¼", ["1", "4"]],
    ["¾", ["3", "4"]],
    ["⅛", ["1", "8"]],
    ["⅜", ["3", "8"]],
    ["⅝", ["5", "8"]],
    ["⅞", ["7", "8"]],
  ]);
  const FIGURE = "0-9½⅓⅔¼¾⅛⅜⅝⅞";
  const [IS_FIGURE, IS_SPACE] = [new RegExp(`^[${FIGURE}]`, "u"), new RegExp(`[${SPACE}]`, "u")];
  const FIGURE_NEXT = new RegExp(`^[${SPACE}]*[${FIGURE}]`, "u");
  const INNER = new RegExp(`[/\\u2044eE,'’_${SPACE}]`, "u");

  /**
   * As much of the start of `body` as was meant to be one number, well formed or not.
   * @param {string} body
   */
  function run(body) {
    let [end, at] = [0, 0];
    for (const letter of body) {
      const after = body.slice(at + letter.length);
      const parts = IS_SPACE.test(letter) && end > 0 && FIGURE_NEXT.test(after);
      const belongs =
        IS_FIGURE.test(letter) ||
        (letter === "." && end === at && !after.startsWith(".")) ||
        (INNER.test(letter) && end > 0 && /^[0-9]/.test(after));
      if (!parts && !belongs) {
        break;
      }
      at += letter.length;
      end = parts ? end : at;
    }
    return body.slice(0, end);
  }

  /**
   * The pieces of an unsigned number: `2 1/2` is 2, 1 and 2.
   * @param {string} text
   * @returns {{ whole: string, fraction: [string, string] | null }}
   */
  function pieces(text) {
    const vulgar = VULGAR.get(text.slice(-1));
    if (vulgar !== undefined) {
      return { whole: trim(text.slice(0, -1)), fraction: vulgar };
    }
    const bar = text.search(/[/\u2044]/);
    if (bar < 0) {
      return { whole: text, fraction: null };
    }
    const [before, below] = [text.slice(0, bar), text.slice(bar + 1)];
    const gap = before.search(IS_SPACE);
    const above = gap < 0 ? before : trim(before.slice(gap + 1));
    return { whole: gap < 0 ? "" : before.slice(0, gap), fraction: [above, below] };
  }

  /**
   * @param {string} text
   * @returns {BaybookNumber | null}
   */
  function decimal(text) {
    const point = text.indexOf(".");
    const [whole, part] = point < 0 ? [text, ""] : [text.slice(0, point), text.slice(point + 1)];
    if (text.endsWith(".") || !/^[0-9]+$/.test(whole + part)) {
      return null;
    }
    const ulp = Rational.tenTo(-part.length);
    const exact = new Rational(BigInt(whole + part)).times(ulp);
    return { text: whole === "" ? `0${text}` : text, exact, decimals: part.length, ulp, fraction: false };
  }

  /**
   * A proper fraction after a whole number, or any fraction alone.
   * @param {string} whole
   * @param {[string, string]} fraction
   * @returns {BaybookNumber | null}
   */
  function mixed(whole, [above, below]) {
    const formed = /^[0-9]+$/.test(above) && /^[0-9]+$/.test(below) && /^[0-9]*$/.test(whole);
    if (!formed || BigInt(below) === 0n || (whole !== "" && BigInt(above) >= BigInt(below))) {
      return null;
    }
    const exact = new Rational(BigInt(whole === "" ? "0" : whole)).plus(new Rational(BigInt(above), BigInt(below)));
    const terminating = exact.terminatingDecimals();
    const ulp = terminating === null ? new Rational(1n, BigInt(below)) : Rational.tenTo(-terminating);
    const decimals = terminating ?? Math.abs(ulp.exponentNotAbove());
    return { text: `${whole}${whole === "" ? "" : " "}${above}/${below}`, exact, decimals, ulp, fraction: true };
  }

  /**
   * Reads the number that begins at `start`; throws a `Refusal`.
   * @param {string} text
   * @param {number} start
   * @returns {BaybookPlaced}
   */
  function scan(text, start) {
    const rest = text.slice(start);
    const negative = /^[-\u2212]/.test(rest);
    const found = run(negative ? rest.slice(1) : rest);
    if (!new RegExp(`[${FIGURE}]`, "u").test(found)) {
      throw compute.problems.noNumber(rest.split(IS_SPACE)[0] ?? "");
    }
    const begin = start + (negative ? 1 : 0);
    const number = unsigned(found, begin);
    const end = begin + found.length;
    if (!negative || number.exact.sign() === 0) {
      return { number, start, end };
    }
    return { number: { ...number, text: `-${number.text}`, exact: number.exact.negated() }, start, end };
  }

  /**
   * @param {string} text
   * @param {number} at where it stands
   */
  function unsigned(text, at) {
    const { whole, fraction } = pieces(text);
    const wide = fraction !== null && fraction.some((digits) => bytes(digits) > MOST_FRACTION_DIGITS);
    if (text.replace(/[^0-9]/g, "").length > MOST_DIGITS || wide) {
      throw compute.problems.tooManyDigits(text, MOST_DIGITS);
    }
    const number = fraction === null ? decimal(whole) : mixed(whole, fraction);
    if (number === null) {
      throw compute.problems.malformed(text, compute.meant?.number(text) ?? [], at);
    }
    return number;
  }

  compute.number = { scan };
})();
