// @ts-check
/*
 * Words as they are compared, and what was typed: words, quantities, years, serial numbers. The
 * compiler has the same; a slip is forgiven in letters only.
 */
(() => {
  "use strict";
  const EMPTY = new Set(["a", "an", "and", "for", "is", "of", "the", "to", "what"]);
  const LONGEST = 200;
  const MOST = 12;
  /** Digits of a number that is no machine, year or size: what stands before it may be the head of a serial number. */
  const LONG_NUMBER = 5;

  /** @param {string} text */
  function words(text) {
    const lower = text.toLowerCase();
    // Most texts have no other letters, and what knows them all is slow.
    const plain = !/[^\x00-\x7f]/.test(lower);
    return lower.split(plain ? /[^a-z0-9]+/ : /[^\p{Alphabetic}0-9]+/u).filter((word) => word && !EMPTY.has(word));
  }

  /** How many slips make one of the other, two neighbours swapped being one. @param {string[]} a @param {string[]} b */
  function distance(a, b) {
    /** @type {number[][]} */
    const rows = [b.map((_, at) => at).concat(b.length)];
    for (let i = 1; i <= a.length; i += 1) {
      const [above = [], before = []] = [rows[i - 1], rows[i - 2]];
      const row = [i];
      for (let j = 1; j <= b.length; j += 1) {
        const changed = (above[j - 1] ?? 0) + (a[i - 1] === b[j - 1] ? 0 : 1);
        let least = Math.min(changed, (above[j] ?? 0) + 1, (row[j - 1] ?? 0) + 1);
        if (i > 1 && j > 1 && a[i - 1] === b[j - 2] && a[i - 2] === b[j - 1]) {
          least = Math.min(least, (before[j - 2] ?? 0) + 1);
        }
        row.push(least);
      }
      rows.push(row);
    }
    return rows[a.length]?.[b.length] ?? 0;
  }

  /** Whether slips are forgiven in a word: in letters only. @param {string} typed */
  const mayBeSlip = (typed) => [...typed].length >= 4 && !/[0-9]/.test(typed);

  /** Slips that are forgiven, or null. @param {string} typed @param {string} word */
  function slips(typed, word) {
    const [a, b] = [[...typed], [...word]];
    const forgiven = a.length < 8 ? 1 : 2;
    if (!mayBeSlip(typed) || Math.abs(a.length - b.length) > forgiven || /[0-9]/.test(word)) {
      return null;
    }
    const found = distance(a, b);
    return found <= forgiven ? found : null;
  }

  /** How far a word lies from one that fits nothing, if it is near enough to be offered. @param {string} typed @param {string} word */
  function apart(typed, word) {
    const [a, b] = [[...typed], [...word]];
    const [number, other] = [/[0-9]/.test(typed), /[0-9]/.test(word)];
    const most = number ? 1 : Math.floor(a.length / 3);
    if (a.length < 3 || number !== other || (number && a.length !== b.length) || Math.abs(a.length - b.length) > most) {
      return null;
    }
    const found = distance(a, b);
    return found <= most ? found : null;
  }

  /** How well a whole or begun word fits, out of a hundred. @param {string} typed @param {string} word */
  function fit(typed, word) {
    if (typed === word) {
      return 100;
    }
    if (!word.startsWith(typed) || /^[0-9]*$/.test(typed)) {
      return 0;
    }
    return 60 + Math.floor((30 * [...typed].length) / [...word].length);
  }

  /** The first letters of a word, as the parts of the index are named. @param {string} word */
  const key = (word) =>
    [...word].slice(0, 2).map((c) => (/[a-z0-9]/i.test(c) ? c : `_${c.codePointAt(0)?.toString(16)}`)).join("");

  /** Texts as `sharing` of the compiler writes them. @param {string[]} texts */
  function unshared(texts) {
    /** @type {string[]} */
    let before = [];
    return texts.filter(Boolean).map((one) => {
      before = [...before.slice(0, parseInt(one.charAt(0), 36)), ...one.slice(1)];
      return before.join("");
    });
  }

  const WHOLE = /^[0-9]{1,9}$/;
  /** True if a whole number stands at the head that no unit can follow. @param {string[]} pieces */
  const isCount = ([first = "", next = "1"]) => WHOLE.test(first) && WHOLE.test(next);

  const begins = (/** @type {string} */ piece) => /^[-+]?\.?[0-9]/.test(piece);

  /** @param {string} text @returns {BaybookValue | null} one number in a unit */
  function single(text) {
    try {
      const value = globalThis.baybookCompute.Value.parse(text);
      return ["range", "tolerance", "percent-tolerance"].includes(value.shape.form) ? null : value;
    } catch {
      return null;
    }
  }

  /** @param {string} piece @returns {[number, boolean] | null} */
  function yearOf(piece) {
    const number = /^\+?[0-9]+$/.test(piece) ? Number(piece) : Number.NaN;
    if (piece.length === 4 && number >= 1950 && number <= 2099) {
      return [number, true];
    }
    return piece.length === 2 && number >= 0 ? [number <= 69 ? 2000 + number : 1900 + number, false] : null;
  }

  /**
   * A number with its unit, the longest that is one; `in` that stands apart is inches, or where `inWords` the intake.
   * @param {string[]} pieces @param {boolean} inWords @returns {[BaybookValue, number] | null}
   */
  function quantity(pieces, inWords) {
    const first = pieces[0] ?? "";
    if (!begins(first) || isCount(pieces)) {
      return null;
    }
    const number = first.replaceAll(",", ".");
    for (const taken of [3, 2]) {
      // Words of one unit, or the fraction of a mixed number and its unit.
      const mixed = taken === 3 && begins(pieces[1] ?? "") && pieces[1]?.includes("/");
      const unit = pieces.slice(1, taken).join(mixed ? " " : "-");
      const value = pieces.length >= taken && !(inWords && unit === "in") ? single(`${number} ${unit}`) : null;
      if (value) {
        return [value, taken];
      }
    }
    const value = single(number);
    return value && [value, 1];
  }

  /** Why the head of the pieces is like a quantity and is none, and how many they are. @param {string[]} pieces @returns {[string, number] | null} */
  function refused(pieces) {
    const first = pieces[0] ?? "";
    if (!begins(first) || isCount(pieces)) {
      return null;
    }
    for (const taken of [3, 2, 1].filter((one) => one <= pieces.length)) {
      const found = ambiguous(`${first.replaceAll(",", ".")} ${pieces.slice(1, taken).join("-")}`.trimEnd());
      if (found) {
        return [found, taken];
      }
    }
    const [, head = "", glued = ""] = /^([0-9.,\/]*)([^]*)$/.exec(first) ?? [];
    const number = head.replace(/[.,]+$/, "");
    const { units } = globalThis.baybookCompute;
    if (!/[.,\/]/.test(number) || (glued && !units.known(glued)) || parses(`${number.replaceAll(",", ".")} mm`)) {
      return null;
    }
    const taken = glued ? 1 : ([3, 2].find((one) => one <= pieces.length && units.known(pieces.slice(1, one).join("-"))) ?? 1);
    return [`\`${number}\` is no number`, taken];
  }

  /** What a unit may mean that names several. @param {string} text */
  function ambiguous(text) {
    try {
      globalThis.baybookCompute.Value.parse(text);
    } catch (problem) {
      const refusal = /** @type {BaybookRefusal} */ (problem);
      return refusal.sort === "ambiguous" ? `${refusal.message}; ${refusal.help}` : null;
    }
    return null;
  }

  /** @param {string} piece @param {BaybookPiece} asked */
  function alone(piece, asked) {
    const number = piece.replaceAll(",", ".");
    if (WHOLE.test(piece) || (begins(piece) && parses(`${number} mm`))) {
      const found = yearOf(piece);
      if (found) {
        asked.years.push(found);
      }
      asked.bare.push(number);
      if (/[./]/.test(number)) {
        return;
      }
    }
    const folded = words(piece);
    const joined = folded.join("");
    if (/[0-9]/.test(joined) && /[a-z]/i.test(joined)) {
      asked.serials.push(joined);
    }
    asked.words.push(...folded);
  }

  /** @param {string} text */
  function parses(text) {
    try {
      return Boolean(globalThis.baybookCompute.Value.parse(text));
    } catch {
      return false;
    }
  }

  /** @param {string} text */
  const piecesOf = (text) => [...text].slice(0, LONGEST).join("").split(/[ \t\n\f\r]+/).filter(Boolean);

  /** A serial number that was typed in two pieces: `th22 500` is `th22-500` too. @param {BaybookAsked} asked */
  function joinSerials(asked) {
    asked.pieces.slice(1).forEach(([digits, piece], at) => {
      const head = asked.pieces[at]?.[1];
      if (head?.words.length === 1 && /^[0-9]+$/.test(digits) && (head.serials.length > 0 || digits.length >= LONG_NUMBER)) {
        const joined = `${head.words[0]}${digits}`;
        [head, piece, asked].forEach((one) => one.serials.push(joined));
      }
    });
  }

  /** What was typed. @param {string} text @param {boolean} inWords @returns {BaybookAsked} */
  function ask(text, inWords) {
    /** @type {BaybookAsked} */
    const asked = { words: [], quantities: [], bare: [], years: [], serials: [], refused: null, pieces: [] };
    let pieces = piecesOf(text);
    while (pieces.length > 0) {
      /** @type {BaybookPiece} what this piece alone asks */
      const piece = { words: [], quantities: [], bare: [], years: [], serials: [], refused: null };
      const found = quantity(pieces, inWords);
      const why = found ? null : refused(pieces);
      if (found) {
        piece.quantities.push(found[0]);
      } else if (why) {
        piece.refused = why[0];
      } else {
        alone(pieces[0] ?? "", piece);
      }
      const taken = found?.[1] ?? why?.[1] ?? 1;
      asked.words.push(...piece.words);
      asked.quantities.push(...piece.quantities);
      asked.bare.push(...piece.bare);
      asked.years.push(...piece.years);
      asked.serials.push(...piece.serials);
      // `of`, `the` or a dash asks nothing.
      if (piece.words.length + piece.quantities.length + piece.bare.length > 0 || piece.refused !== null) {
        asked.pieces.push([pieces.slice(0, taken).join(" "), piece]);
      }
      pieces = pieces.slice(taken);
    }
    asked.words = asked.words.slice(0, MOST);
    joinSerials(asked);
    return asked;
  }

  /** Whether what reads values is needed to read a text. @param {string} text */
  function needsNumbers(text) {
    const pieces = piecesOf(text);
    return pieces.some((piece, at) => begins(piece) && !isCount(pieces.slice(at)));
  }

  globalThis.baybookFindWords = { words, slips, apart, fit, key, unshared, ask, yearOf, mayBeSlip, needsNumbers };
})();
