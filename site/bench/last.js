// @ts-check
/* Remembers which machine was last looked at, for the home sheet: on this device, and nowhere else. */
(() => {
  "use strict";
  const main = /** @type {HTMLElement | null} */ (document.querySelector("main[data-build]"));
  const machine = document.querySelector(".cell.subject .lead")?.textContent?.trim() ?? "";
  if (main) {
    try {
      localStorage.setItem(`baybook.machine.${document.body.dataset["base"] ?? ""}`, JSON.stringify({ build: main.dataset["build"], machine }));
    } catch {
      // Nothing is kept here; the machines stand on the home sheet all the same.
    }
  }
})();
