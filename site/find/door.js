// @ts-check
/*
 * The way to the field that finds: shows the field, and brings what works it when it is first touched. What was
 * typed meanwhile is then looked for.
 */
(() => {
  "use strict";
  const panel = /** @type {HTMLElement | null} */ (document.querySelector(".find"));
  const { root = "" } = document.body.dataset;
  if (!panel) {
    return;
  }
  panel.hidden = false;

  function open() {
    ["focusin", "pointerover"].forEach((event) => panel?.removeEventListener(event, open));
    const { panel: code = "", index = "" } = panel?.dataset ?? {};
    for (const src of [code, `${index}things.js`]) {
      const script = document.createElement("script");
      script.src = root + src;
      // Both on their way at once, and read in this order.
      script.async = false;
      document.head.append(script);
    }
  }
  ["focusin", "pointerover"].forEach((event) => panel.addEventListener(event, open));
})();
