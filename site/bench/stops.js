// @ts-check
/*
 * The panels of the bulletins that say not to run a machine, as they head its sheets, for a sheet that learns of the
 * machine only when it is open.
 */
(() => {
  "use strict";
  const make = baybookMake;

  globalThis.baybookStops = (stops) =>
    stops.map(({ title, date, note }) => {
      const words = note ?? "This bulletin says not to run the machine until its work is done.";
      const named = make("b", {}, `${[title, date].filter(Boolean).join(", ")}.`);
      return make("div", { class: "panel stop", role: "note" }, make("p", { class: "signal" }, make("strong", {}, "DO NOT RUN")), make("p", { class: "danger-text" }, named, ` ${words}`));
    });
})();
