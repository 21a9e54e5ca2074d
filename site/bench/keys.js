// @ts-check
/*
 * What a key of our own keypad does to the text of a field. No DOM here. A key never makes a text that
 * is no number: a second point is not taken.
 */
(() => {
  "use strict";

  /**
   * The text after a key, and where the cursor stands then.
   * @param {string} text
   * @param {number} start of what is marked
   * @param {number} end of what is marked
   * @param {string} key a digit, `.`, `minus`, or `back`
   * @returns {{ text: string, at: number }}
   */
  function press(text, start, end, key) {
    const [from, to] = [Math.max(0, Math.min(start, end)), Math.min(text.length, Math.max(start, end))];
    const [head, tail] = [text.slice(0, from), text.slice(to)];
    if (key === "back") {
      const kept = from === to ? [...head].slice(0, -1).join("") : head;
      return { text: kept + tail, at: kept.length };
    }
    if (key === "minus") {
      // A minus may have been typed as such; nothing else stands before a number.
      const turned = /^[-\u2212]/.test(text) ? text.slice(1) : `-${text}`;
      return { text: turned, at: turned.length };
    }
    const second = key === "." && /[.,]/.test(head + tail);
    if (!/^[0-9.]$/.test(key) || second || head.length + tail.length >= 24) {
      return { text, at: to };
    }
    return { text: head + key + tail, at: from + 1 };
  }

  /** True if the text holds a digit: before that there is nothing to judge. @param {string} text */
  function complete(text) {
    return /[0-9]/.test(text);
  }

  globalThis.baybookKeys = { press, complete };
})();
