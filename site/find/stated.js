// @ts-check
/*
 * What builds state, in parts by engine and stretches of things, as the compiler's `find/stated.rs` writes them.
 */
(() => {
  "use strict";
  const { rows: rowsIn } = globalThis.baybookFindPlaces;
  const STRETCH = 120;

  /** @typedef {[string, number, number]} Line text, how many builds share it, 1 if it is open */
  /** @type {WeakMap<BaybookStated, { lines: Map<number, Line>, of: Map<number, Set<number>> }>} */
  const read = new WeakMap();

  /** The part with the lines of an engine's builds on a thing; those of a procedure stand with the first entry that it uses. @param {BaybookFindHead} head @param {string} engine @param {number} thing */
  const partOf = (head, engine, thing) => `b-${engine}-${Math.floor((head.firstUsed.get(thing) ?? thing) / STRETCH)}`;

  /** The engine of a build, by what the build is called. @param {string} called */
  const engineOf = (called) => called.split(/[ ~]/, 1)[0] ?? "";

  /** @param {BaybookStated} part */
  function linesOf(part) {
    const known = read.get(part);
    if (known) {
      return known;
    }
    const lines = new Map(rowsIn(part[0]).map((row, at) => {
      const told = part[1][at] ?? "";
      const [text, builds = 1, open = 0] = typeof told === "string" ? [told] : told;
      return /** @type {[number, Line]} */ ([row, [text, builds, open]]);
    }));
    const made = { lines, of: new Map() };
    read.set(part, made);
    return made;
  }

  /** The rows that a build of the engine states. @param {BaybookStated} part @param {number} build @returns {Set<number>} */
  function rowsOf(part, build) {
    const { lines, of } = linesOf(part);
    const lacks = part[2][build];
    const own = of.get(build) ?? new Set(lines.keys());
    if (!of.has(build)) {
      lacks === undefined ? own.clear() : rowsIn(lacks).forEach((row) => own.delete(row));
      of.set(build, own);
    }
    return own;
  }

  /** A row that a build states. @param {BaybookStated} part @param {number} row @returns {Line} */
  const lineOf = (part, row) => linesOf(part).lines.get(row) ?? ["", 1, 0];

  /** The parts of an engine. @param {BaybookFindHead} head @param {string} engine */
  const partsOf = (head, engine) => Array.from({ length: Math.ceil(head.things.length / STRETCH) }, (_, at) => `b-${engine}-${at}`);

  /** All that a build states. @param {BaybookLoad} load @param {BaybookFindHead} head @param {string} engine @param {number} build @returns {Promise<number[]>} */
  async function all(load, head, engine, build) {
    const parts = await Promise.all(partsOf(head, engine).map((name) => load(name)));
    return parts.flatMap((part) => [...rowsOf(part, build)]);
  }

  globalThis.baybookFindStated = { partOf, partsOf, engineOf, rowsOf, lineOf, all };
})();
