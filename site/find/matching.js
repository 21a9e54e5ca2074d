// @ts-check
/*
 * How well typed words fit the words of a thing, a machine, a code: whole numbers only, the same as
 * the compiler's `find/matching.rs`.
 */
(() => {
  "use strict";
  const { words, slips, fit } = globalThis.baybookFindWords;

  const part = (/** @type {number} */ whole, /** @type {number} */ hit, /** @type {number} */ all) =>
    Math.floor((whole * hit) / Math.max(all, 1));
  const split = (/** @type {string} */ text) => text.split(" ").filter(Boolean);
  const sum = (/** @type {number[]} */ all) => all.reduce((total, one) => total + one, 0);

  /** How well it fits a word. @param {BaybookTyped} typed @param {string} word */
  const fits = (typed, word) => Math.max(fit(typed.word, word), typed.meant.get(word) ?? 0);

  /** One letter alone begins no word of a machine. @param {BaybookTyped} typed @param {string} word */
  const fitsWhole = (typed, word) => ([...typed.word].length < 2 && typed.word !== word ? 0 : fits(typed, word));

  /** @param {BaybookTyped} typed @param {string[]} all */
  const best = (typed, all) => Math.max(0, ...all.map((word) => fits(typed, word)));
  /** @param {BaybookTyped} typed @param {string[]} all */
  const bestWhole = (typed, all) => Math.max(0, ...all.map((word) => fitsWhole(typed, word)));

  /** The nearest words, as far as slips are forgiven. @param {string} typed @param {Iterable<string>} all */
  function near(typed, all) {
    /** @type {[string, number][]} */
    const found = [];
    for (const word of all) {
      const distance = slips(typed, word);
      if (distance !== null) {
        found.push([word, distance]);
      }
    }
    const least = Math.min(...found.map(([, distance]) => distance));
    return new Map(found.filter(([, distance]) => distance === least).map(([word]) => [word, 90 - 20 * least]));
  }

  /** Two neighbours written as one where the catalogue writes them so. @param {string[]} asked @param {Set<string>} known */
  function joined(asked, known) {
    /** @type {string[]} */
    const all = [];
    for (const word of asked) {
      const both = all.length > 0 ? `${all.at(-1)}${word}` : null;
      if (both && known.has(both)) {
        all.splice(-1, 1, both);
      } else {
        all.push(word);
      }
    }
    return all;
  }

  /** @param {string[]} name @param {BaybookTyped[]} typed @returns {[number[], number]} */
  function nameFits(name, typed) {
    const hit = name.map(() => false);
    const each = typed.map((one) => {
      let most = 0;
      name.forEach((word, at) => {
        const found = fits(one, word);
        const pair = at + 1 < name.length && one.word === `${word}${name[at + 1]}`;
        hit.fill(true, at, at + (pair ? 2 : found > 0 ? 1 : 0));
        most = Math.max(most, pair ? 100 : found);
      });
      return most;
    });
    return [each, hit.filter(Boolean).length];
  }

  /** What the names of a thing count. @param {string[][]} names @param {BaybookTyped[]} typed @returns {[number, number[]]} */
  function named(names, typed) {
    let most = -1;
    let share = 0;
    /** @type {number[]} */
    let chosen = [];
    const anywhere = typed.map(() => 0);
    names.forEach((name, at) => {
      const [each, hit] = nameFits(name, typed);
      const own = part(300, hit, name.length) + (at === 0 && hit > 0 ? 30 : 0);
      each.forEach((one, place) => {
        anywhere[place] = Math.max(anywhere[place] ?? 0, one);
      });
      if (hit > 0 && sum(each) * 10 + own > most) {
        [most, share, chosen] = [sum(each) * 10 + own, own, each];
      }
    });
    return [share, anywhere.map((one, at) => Math.max((chosen[at] ?? 0) * 10, one * 5))];
  }

  /** The score of a thing. @param {[number, number[]]} name @param {string[]} beside @param {BaybookTyped[]} typed */
  function thing(name, beside, typed) {
    const total = sum(typed.map((one, at) => Math.max(name[1][at] ?? 0, best(one, beside) * 6)));
    return total === 0 ? 0 : total + name[0];
  }

  /** The score of a machine by name, and by name and sort. @param {BaybookFitted} one @param {BaybookTyped[]} typed */
  function machine(one, typed) {
    const [own, sort] = [split(one[3]), split(`${one[4]} ${one[5]}`)];
    const name = words(one[1]);
    const hit = name.filter((word) => typed.some((typedWord) => fitsWhole(typedWord, word) > 0)).length;
    const share = part(100, hit, name.length);
    const weighed = (/** @type {number} */ weight) =>
      sum(typed.map((word) => Math.max(bestWhole(word, own) * 10, bestWhole(word, sort) * weight)));
    const [byName, whole] = [weighed(3), weighed(10)];
    return whole === 0 ? { byName: 0, whole: 0 } : { byName: byName + share, whole: whole + share };
  }

  /** A code, a manual or a bench sum with the words of its title among its own. @param {BaybookFixed} one @returns {BaybookFixed} */
  function titled([kind, of, title, text, sheet, others, sort, leading]) {
    const ofSort = split(`${sort} ${leading}`);
    const own = words(kind === "code" ? `${title} ${text}` : title).filter((word) => !ofSort.includes(word));
    return [kind, of, title, text, sheet, [...new Set(own), ...split(others)].join(" "), sort, leading];
  }

  /** All words of a code or a manual. @param {BaybookFixed} one */
  const wordsOf = (one) => split(`${one[5]} ${one[6]} ${one[7]}`);

  /** All words of a machine. @param {BaybookFitted} one */
  const wordsOfFitted = (one) => split(`${one[3]} ${one[4]} ${one[5]}`);

  /** The score of a code or a manual. @param {BaybookFixed} one @param {BaybookTyped[]} typed */
  function fixed(one, typed) {
    const own = wordsOf(one);
    const hit = own.filter((word) => typed.some((typedWord) => fitsWhole(typedWord, word) > 0)).length;
    const weight = one[0] === "source" ? 6 : 10;
    const total = sum(typed.map((word) => bestWhole(word, own) * weight));
    return total === 0 ? 0 : total + part(300, hit, own.length);
  }

  /** Whether a record is looked at: a word of its own fits, or one that leads to it. @param {string} own @param {string} sampled @param {BaybookTyped[]} typed */
  const leads = (own, sampled, typed) => typed.some((word) => bestWhole(word, split(`${own} ${sampled}`)) > 0);

  globalThis.baybookFindMatching = { near, joined, fits, named, thing, machine, fixed, leads, titled, best, bestWhole, wordsOf, wordsOfFitted };
})();
