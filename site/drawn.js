// @ts-check
/*
 * Brings the drawings of limits and curves to the rows of an engine sheet as they come into view,
 * a dozen rows at a time: a sheet is read before it is looked at. Without scripts, and on paper, the
 * sheet of drawings shows them all. A row that will get one keeps room of its height ("room-70"), so that
 * nothing moves when it comes; it then says so with the event "baybook-drawn", for whoever draws on it.
 */
(() => {
  "use strict";
  /** So many rows have their drawings in one script. */
  const BLOCK = 12;
  /** @type {Map<Element, string>} the script of each row */
  const sources = new Map();
  /** @type {Set<string>} */
  const loaded = new Set();

  /** @param {Element} row */
  const rooms = (row) => [...row.classList].filter((name) => name.startsWith("room-"));

  /** @param {Record<string, string>} drawings by the id of the row */
  function take(drawings) {
    for (const [id, text] of Object.entries(drawings)) {
      const row = document.getElementById(id);
      const drawing = new DOMParser().parseFromString(text, "text/html").body.firstElementChild;
      const value = row?.querySelector(".value");
      if (row && value && drawing && !row.querySelector(":scope > .drawing")) {
        value.after(drawing);
        row.classList.remove(...rooms(row));
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
        load(source);
        watch.unobserve(target);
      }
    }
  });
  globalThis.baybookDrawings = take;

  // A part that works with a style and a script of its own gets them as it comes near, in that order.
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
          sheet.addEventListener("load", () => load(script));
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
