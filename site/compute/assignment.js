// @ts-check
/*
 * The cheapest assignment of rows to columns, each column taken once at most (Kuhn 1955, Munkres 1957; by
 * shortest augmenting paths). Costs are whole numbers of any size, so that several aims fit into one.
 *
 * Invariant: after each row is placed, the rows placed so far are placed as cheaply as they can be.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;

  class Column {
    constructor() {
      this.potential = 0n;
      /** @type {number | null} */
      this.row = null;
      /** @type {bigint | null} */
      this.least = null;
      /** @type {Column | null} */
      this.before = null;
      this.seen = false;
    }
  }

  /**
   * The column of each row in the cheapest assignment; every row must have a column that it shares with no
   * other, so that all can be placed.
   * @param {(bigint | null)[][]} costs null where a row may not stand
   */
  function cheapest(costs) {
    const dearest = costs.map((row) => row.reduce((most, cost) => (cost !== null && cost > (most ?? 0n) ? cost : most), 0n));
    const barred = dearest.reduce((sum, cost) => (sum ?? 0n) + (cost ?? 0n), 1n) ?? 1n;
    const rows = costs.map(() => 0n);
    const columns = (costs[0] ?? []).map(() => new Column());
    const risen = (/** @type {number | null} */ row, /** @type {bigint} */ step) => {
      if (row !== null) {
        rows[row] = (rows[row] ?? 0n) + step;
      }
    };
    costs.forEach((_, fresh) => {
      for (const column of columns) {
        Object.assign(column, { least: null, before: null, seen: false });
      }
      let [row, at] = [fresh, /** @type {Column | null} */ (null)];
      for (;;) {
        /** @type {Column | null} */
        let nearest = null;
        columns.forEach((column, place) => {
          if (column.seen) {
            return;
          }
          const reduced = (costs[row]?.[place] ?? barred) - (rows[row] ?? 0n) - column.potential;
          if (column.least === null || reduced < column.least) {
            column.least = reduced;
            column.before = at;
          }
          if (nearest === null || column.least < (nearest.least ?? 0n)) {
            nearest = column;
          }
        });
        const found = /** @type {Column | null} */ (nearest);
        if (found === null) {
          break;
        }
        const step = found.least ?? 0n;
        risen(fresh, step);
        for (const column of columns) {
          if (column.seen) {
            column.potential -= step;
            risen(column.row, step);
          } else if (column.least !== null) {
            column.least -= step;
          }
        }
        found.seen = true;
        at = found;
        if (found.row === null) {
          break;
        }
        row = found.row;
      }
      while (at !== null) {
        at.row = at.before === null ? fresh : at.before.row;
        at = at.before;
      }
    });
    return costs.map((_, row) => columns.findIndex((column) => column.row === row));
  }

  compute.assignment = { cheapest };
})();
