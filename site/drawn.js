// @ts-check
/*
 * Brings the drawings of limits and curves to the rows of an engine sheet as they come into view,
 * four rows at a time: a sheet is read before it is looked at. Without scripts, and on paper, the
 * sheet of drawings shows them all. A row that will get one keeps room of its height ("room-70"), so that
 * nothing moves when it comes; it then says so with the event "baybook-drawn", for whoever draws on it.
 */
(() => {
  "use strict";
  /** So many rows have their drawings in one script. */
  const BLOCK = 4;
  /** The script with what all drawings refer to, where the sheet does not hold it. */
  const { linings } = /** @type {HTMLScriptElement} */ (document.currentScript).dataset;
  /** @type {Map<Element, string>} the script of each row */
  const sources = new Map();
  /** @type {Set<string>} */
  const loaded = new Set();

  /** What keeps the room: the row, or what holds its bolts, which stand there from the start. @param {Element} row */
  const keeper = (row) => row.querySelector(":scope > .drawn") ?? row;

  /** @param {Element} row */
  const rooms = (row) => [...keeper(row).classList].filter((name) => name.startsWith("room-"));

  /** @param {string} text of a drawing */
  const parsed = (text) => new DOMParser().parseFromString(text, "text/html").body.firstElementChild;

  /** @param {Record<string, string>} drawings by the id of the row */
  function take(drawings) {
    for (const [id, text] of Object.entries(drawings)) {
      const row = document.getElementById(id);
      const drawing = parsed(text);
      const value = row?.querySelector(".value");
      if (row && value && drawing && rooms(row).length > 0) {
        keeper(row) === row ? value.after(drawing) : keeper(row).prepend(drawing);
        keeper(row).classList.remove(...rooms(row));
        row.dispatchEvent(new CustomEvent("baybook-drawn", { bubbles: true }));
      }
    }
  }

  /** @param {string} source */
  function load(source) {
    if (!loaded.has(source)) {
      loaded.add(source);
      const script = document.createElement("script");
      script.src = source;
      document.head.append(script);
    }
  }

  const watch = new IntersectionObserver((entries) => {
    for (const { isIntersecting, target } of entries) {
      const source = sources.get(target);
      if (isIntersecting && source) {
        linings !== undefined && load(linings);
        load(source);
        watch.unobserve(target);
      }
    }
  });
  globalThis.baybookDrawings = take;
  globalThis.baybookLinings = (text) => document.body.prepend(parsed(text) ?? "");

  // A part that works with a style and a script of its own gets them as it comes near, in that order, and
  // after the bench, which it counts on.
  const near = new IntersectionObserver(
    (entries) => {
      for (const { isIntersecting, target } of entries) {
        const style = target.getAttribute("data-sheet");
        const script = target.getAttribute("data-script");
        if (isIntersecting && style !== null && script !== null) {
          near.unobserve(target);
          const sheet = document.createElement("link");
          sheet.rel = "stylesheet";
          sheet.href = style;
          sheet.addEventListener("load", () => globalThis.baybookOpening?.open(() => load(script)));
          document.head.append(sheet);
        }
      }
    },
    { rootMargin: "600px" },
  );
  document.querySelectorAll("[data-sheet][data-script]").forEach((part) => near.observe(part));
  for (const group of document.querySelectorAll("[data-drawings]")) {
    [...group.querySelectorAll(".row")].forEach((row, at) => {
      if (rooms(row).length > 0) {
        sources.set(row, `${group.getAttribute("data-drawings")}-${Math.floor(at / BLOCK)}.js`);
        watch.observe(row);
      }
    });
  }
})();
