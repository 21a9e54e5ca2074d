// @ts-check
/*
 * The head of the index as it is searched: names, places and conditions, and what tells which parts there are. The
 * compiler's `find/shards.rs` writes it.
 */
(() => {
  "use strict";
  const { words, key, unshared } = globalThis.baybookFindWords;
  const { rows: rowsIn, thingOf, rowOf } = globalThis.baybookFindPlaces;

  /** @type {WeakMap<object, BaybookFindHead>} */
  const heads = new WeakMap();

  /** The head of the index as it is searched. @param {BaybookThings} raw @returns {BaybookFindHead} */
  function headOf(raw) {
    const made = heads.get(raw);
    if (made) {
      return made;
    }
    /** @type {BaybookNamed[]} */
    const rows = [];
    unshared(raw.ids.split(" ")).forEach((of, at) => {
      const [kind, ...others] = raw.named.slice(at * 5, at * 5 + 5);
      rows.push(/** @type {BaybookNamed} */ ([kind, of, ...others]));
    });
    const names = rows.map(([, , title, others]) => [words(title), ...unshared(others.split(",")).map((name) => name.split(" "))]);
    const scopes = rows.map((one) => one[5].split(" ").filter(Boolean).map(Number));
    const places = unshared(raw.scopes).map(placeOf);
    /** @type {BaybookThing[]} */
    const things = rows.flatMap(([kindAt, of, title], at) => {
      const kind = raw.kinds[kindAt] ?? "";
      const own = kind === "procedure" ? ["procedure", "how", "do"] : kind === "complaint" ? ["complaint"] : words(of);
      return (scopes[at] ?? []).map((scope) => {
        const { where = {}, when = {}, spelt = [] } = places[scope] ?? {};
        return { kind, of, title, where, when, named: at, beside: kind === "statement" ? [...spelt, ...own] : own };
      });
    });
    // Which names and things have a word: few of them fit what is typed.
    /** @type {Map<string, { names: number[], things: number[] }>} */
    const having = new Map();
    const has = (/** @type {string} */ word, /** @type {"names" | "things"} */ where, /** @type {number} */ at) => {
      const known = having.get(word) ?? { names: [], things: [] };
      having.set(word, known);
      known[where].push(at);
    };
    names.forEach((each, at) => each.forEach((name) => name.forEach((word) => has(word, "names", at))));
    things.forEach((one, at) => one.beside.forEach((word) => has(word, "things", at)));
    const known = new Set(having.keys());
    const pairs = new Set(names.flat().flatMap((name) => name.slice(1).map((word, at) => `${name[at]}${word}`)));
    const units = rows.map((one) => (raw.units[one[4]] ?? "").split(",").filter(Boolean));
    const short = new Map(raw.short.split(",").map((one) => one.split(" ")).map(([from = "", ...to]) => [from, to]));
    /** @type {Map<number, number[]>} */
    const uses = new Map();
    for (const use of rowsIn(raw.uses)) {
      const [at, name] = [thingOf(use), rowOf(use)];
      uses.set(at, [...(uses.get(at) ?? []), name]);
    }
    /** @type {Map<string, Set<number>>} */
    const printing = new Map();
    // The first thing of each name, and of the first name that a procedure uses.
    const firsts = new Map(things.map((one, at) => /** @type {const} */ ([one.named, at])).reverse());
    const firstUsed = new Map([...uses].flatMap(([at, [name = -1]]) => (firsts.has(name) ? [[at, firsts.get(name) ?? 0]] : [])));
    const head = {
      /** @param {string} symbol */
      printing: (symbol) => {
        const known = printing.get(symbol) ?? new Set(units.flatMap((own, at) => (own.includes(symbol) ? [at] : [])));
        printing.set(symbol, known);
        return known;
      },
      names, uses, firstUsed, things, having, known, pairs, units, short,
      scopes: scopes.map((one) => one.length),
      leads: leadsOf(raw),
      packs: raw.packs,
      rows: raw.rows.replace(/(.)\((\d+)\)/g, (_, figure, times) => figure.repeat(Number(times))),
      /** @type {Set<string> | null} */
      sizes: null,
      // Only numbers ask for them.
      get values() {
        return (this.sizes ??= sizesOf(raw));
      },
    };
    heads.set(raw, head);
    return head;
  }

  /** The letters that follow the first two of words that lead to a machine, a code or a manual. @param {BaybookThings} raw */
  const leadsOf = (raw) => new Map(raw.words.split(" ").map((one) => /** @type {[string, string]} */ (one.split(":"))));

  /** Whether such a word begins with the typed one. @param {Map<string, string>} leads @param {string} word */
  function isLed(leads, word) {
    const [thirds, third] = [leads.get(key(word)), [...word][2]];
    return thirds !== undefined && (third === undefined || thirds.includes(third) || thirds.includes("*"));
  }

  /** The parts of numbers that there are. @param {BaybookThings} raw */
  function sizesOf(raw) {
    const all = raw.values.split(",").flatMap((one) => {
      const [kind, ...powers] = one.split(" ");
      return powers.flatMap((of) => {
        const [power, digits = ""] = of.split(":");
        return digits.split(".").flatMap((run) => {
          const [first = 0, last = first] = run.split("~").map(Number);
          return Array.from({ length: last - first + 1 }, (_, more) => `${kind}${first + more}e${power}`);
        });
      });
    });
    return new Set(all);
  }

  /** Place and condition of a text `cylinder=rear;ring=top|engine=cold`, and their words. @param {string} text */
  function placeOf(text) {
    const [where = [], when = []] = text.split("|").map((each) => each.split(";").filter(Boolean).map((pair) => pair.split("=")));
    return { where: Object.fromEntries(where), when: Object.fromEntries(when), spelt: words([...where, ...when].flat().join(" ")) };
  }

  globalThis.baybookFindHead = { headOf, isRead: (raw) => heads.has(raw), leadsOf, isLed };
})();
