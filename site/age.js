// @ts-check
/*
 * Says how old the sheet is once it is past the age the base allows. The sheet itself is judged at
 * the date of the base; only this line looks at the clock of the device.
 */
(() => {
  "use strict";
  const DAY = 86_400_000;
  const { date, staleAfter } = document.body.dataset;
  const limit = Number(staleAfter);
  const released = Date.parse(`${date ?? ""}T00:00:00Z`);
  if (!staleAfter || Number.isNaN(limit) || Number.isNaN(released)) {
    return;
  }
  const days = Math.floor((Date.now() - released) / DAY);
  if (days <= limit) {
    return;
  }
  for (const slot of document.querySelectorAll(".age")) {
    slot.textContent = `${days} days old: ask for a newer copy`;
    slot.removeAttribute("hidden");
  }
})();
