// @ts-check
/*
 * The way to the field that finds: shows the field, and brings what works it when it is first touched, or, on the
 * home sheet, which is opened to find something, once that is there. What was typed meanwhile is then looked for.
 */
(() => {
  "use strict";
  const panel = /** @type {HTMLElement | null} */ (document.querySelector(".find"));
  const { root = "" } = document.body.dataset;
  if (!panel) {
    return;
  }
  panel.hidden = false;

  const touches = ["focusin", "pointerover"];
  /** Milliseconds that the sheet has for itself. */
  const SOON = 200;
  let opened = false;

  function open() {
    if (opened) {
      return;
    }
    opened = true;
    touches.forEach((event) => panel?.removeEventListener(event, open));
    const { panel: code = "", index = "" } = panel?.dataset ?? {};
    for (const src of [code, `${index}things.js`]) {
      const script = document.createElement("script");
      script.src = root + src;
      // Both on their way at once, and read in this order.
      script.async = false;
      document.head.append(script);
    }
  }
  touches.forEach((event) => panel.addEventListener(event, open));
  if ("soon" in panel.dataset) {
    addEventListener("load", () => setTimeout(open, SOON));
  }
})();
