// @ts-check
/*
 * Says how old the sheet is once it is past the age the base allows. The sheet itself is judged at
 * the date of the base; only this line looks at the clock of the device. Where the sheet comes from a
 * web host, what keeps it on the device and brings newer ones is loaded too (offline/kept.js); from a
 * disk it would be so much to read for nothing.
 */
(() => {
  "use strict";
  const DAY = 86_400_000;
  const { kept } = document.currentScript?.dataset ?? {};
  if (kept && /^https?:$/.test(location.protocol)) {
    const script = document.createElement("script");
    script.src = kept;
    document.head.append(script);
  }
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
