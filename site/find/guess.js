// @ts-check
/*
 * What the next key may be: the letters that go on what was typed to a word, a unit or a number of the index, the
 * likeliest first.
 */
(() => {
  "use strict";
  const { key } = globalThis.baybookFindWords;
  const { wordsOf, wordsOfFitted } = globalThis.baybookFindMatching;
  const FIGURES = [..."0123456789"];
  const NUMBER = /^[-+]?[0-9.,/]+$/;

  /** How often each letter goes on. */
  class Letters {
    /** @type {Map<string, number>} */
    #count = new Map();

    /** @param {string} letter @param {number} by */
    add(letter, by) {
      this.#count.set(letter, (this.#count.get(letter) ?? 0) + by);
    }

    /** @param {string} begun @param {Iterable<string>} words @param {number} by */
    after(begun, words, by) {
      for (const word of words) {
        if (word.length > begun.length && word.startsWith(begun)) {
          this.add(word.charAt(begun.length), by);
        }
      }
    }

    get all() {
      return [...this.#count].sort((one, other) => other[1] - one[1]).map(([letter]) => letter);
    }
  }

  /** Letters after a begun word, of catalogue, machines, codes and manuals. @param {Letters} letters @param {BaybookFindHead} head @param {BaybookRows | undefined} found @param {string} begun */
  function ofWords(letters, head, found, begun) {
    letters.after(begun, head.known, 1);
    letters.after(begun, new Set([...(found?.fitted.values() ?? [])].flatMap(wordsOfFitted)), 1);
    letters.after(begun, new Set([...(found?.fixed.values() ?? [])].flatMap(wordsOf)), 1);
    if (begun.length < 2) {
      letters.after(begun, [...head.leads.keys()].filter((name) => !name.includes("_")), 1);
    } else if (begun.length === 2) {
      [...(head.leads.get(key(begun)) ?? "")].filter((third) => third !== "*").forEach((third) => letters.add(third, 1));
    }
  }

  /** Letters after a begun unit, by how many names print it. @param {Letters} letters @param {BaybookFindHead} head @param {string} begun */
  const ofUnits = (letters, head, begun) => letters.after(begun, head.units.flat().map((symbol) => symbol.toLowerCase()), 1);

  /**
   * What may be typed with the next key.
   * @param {string} text with the space that ends a word @param {BaybookFindHead} head @param {BaybookRows} [found] what the text led to
   */
  function guesses(text, head, found) {
    const [last = "", before = ""] = text.toLowerCase().split(/\s+/).reverse();
    const letters = new Letters();
    const [, number = "", glued = ""] = /^([-+]?[0-9.,/]*)([^]*)$/.exec(last) ?? [];
    if (/[0-9]$/.test(number)) {
      ofUnits(letters, head, glued);
    } else if (NUMBER.test(before)) {
      ofUnits(letters, head, last);
    }
    ofWords(letters, head, found, last);
    const figures = number && !glued ? FIGURES : [];
    return [...new Set([...figures, ...letters.all])].map((letter) => (text + letter).trimStart());
  }

  globalThis.baybookFindGuess = { guesses };
})();
