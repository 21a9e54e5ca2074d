// @ts-check
/*
 * Rows of things, as the index tells them.
 */
(() => {
  "use strict";
  /** More rows than any thing has. */
  const ROWS = 2 ** 24;
  /** A row of a thing as one number. @param {number} thing @param {number} row */
  const placeOf = (thing, row) => thing * ROWS + row;
  /** @param {number} place */
  const thingOf = (place) => Math.floor(place / ROWS);
  /** @param {number} place */
  const rowOf = (place) => place % ROWS;

  /** Rows of things of a text as `by_thing` of the compiler writes it. @param {string} text */
  function rows(text) {
    let thing = 0;
    return text.split(",").filter(Boolean).flatMap((one) => {
      const [step, of = "0"] = one.split(":");
      thing += Number(step);
      let row = 0;
      return of.split(" ").map((more) => placeOf(thing, (row += Number(more))));
    });
  }

  globalThis.baybookFindPlaces = { placeOf, thingOf, rowOf, rows };
})();
