// @ts-check
/*
 * Which row of serial ranges a typed serial number falls in. No DOM here: the same vectors test this
 * and the compiler's own matching. A number is never guessed into a row: what only looks like a named
 * range is answered as unsure, so that a slip of the finger does not open the sheet of another build.
 */
(() => {
  "use strict";

  /**
   * One row: a span has a prefix and running numbers, both ends inclusive, each open if null.
   * @typedef {{ kind: "span" | "rest" | "all", prefix?: string, from?: number | null, to?: number | null }} SerialRow
   *
   * The row a serial number falls in, counted from 0; or why none is answered.
   * @typedef {{ row: number } | { row: null, unsure: boolean }} SerialAnswer
   */

  /**
   * Capitals, one sort of dash, no spaces.
   * @param {string} text
   */
  function normal(text) {
    return text
      .replace(/[ \t\r\n\u00a0]/g, "")
      .replace(/[\u2010-\u2015\u2212]/g, "-")
      .replace(/[a-z]/g, (letter) => letter.toUpperCase());
  }

  /** @param {string} text */
  function folded(text) {
    return normal(text).replace(/-/g, "");
  }

  /**
   * The running number behind a prefix, or null if that is not what stands there.
   * @param {string} prefix
   * @param {string} serial
   */
  function running(prefix, serial) {
    const [head, whole] = [normal(prefix), normal(serial)];
    const digits = whole.startsWith(head) ? whole.slice(head.length) : "";
    if (!/^[0-9]+$/.test(digits)) {
      return null;
    }
    const significant = digits.replace(/^0+/, "");
    return significant.length > 12 ? Infinity : Number(significant);
  }

  /**
   * @param {SerialRow} row
   * @param {string} serial
   */
  function contains(row, serial) {
    if (row.kind !== "span") {
      return row.kind === "all";
    }
    const number = running(row.prefix ?? "", serial);
    return number !== null && number >= (row.from ?? 0) && number <= (row.to ?? Infinity);
  }

  /**
   * True if it begins like a named range without being one of its numbers, or is not yet typed out.
   * @param {SerialRow} row
   * @param {string} serial
   */
  function looksLike(row, serial) {
    const [head, typed] = [folded(row.prefix ?? ""), folded(serial)];
    if (row.kind !== "span" || head === "" || running(row.prefix ?? "", serial) !== null) {
      return false;
    }
    return typed.startsWith(head) || head.startsWith(typed);
  }

  /**
   * @param {SerialRow[]} rows
   * @param {string} serial
   * @returns {SerialAnswer}
   */
  function which(rows, serial) {
    if (folded(serial) === "") {
      return { row: null, unsure: false };
    }
    const named = rows.findIndex((row) => row.kind === "span" && contains(row, serial));
    if (named >= 0) {
      return { row: named };
    }
    if (rows.some((row) => looksLike(row, serial))) {
      return { row: null, unsure: true };
    }
    const other = rows.findIndex((row) => row.kind !== "span");
    return other >= 0 ? { row: other } : { row: null, unsure: false };
  }

  globalThis.baybookSerial = { contains, which };
})();
