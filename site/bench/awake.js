// @ts-check
/* Keeps the screen awake while a procedure is open, and says honestly when it cannot. */
(() => {
  "use strict";

  function build() {
    const facts = document.querySelector("main[data-procedure] .facts");
    if (!facts) {
      return;
    }
    const word = baybookDraw.make("dd", { class: "awake" }, "not kept awake yet");
    facts.append(baybookDraw.make("div", {}, baybookDraw.make("dt", {}, "Screen"), word));
    const { wakeLock } = navigator;

    async function ask() {
      if (document.visibilityState !== "visible") {
        return;
      }
      try {
        if (!wakeLock) {
          throw new Error("none");
        }
        const lock = await wakeLock.request("screen");
        word.textContent = "kept awake while this sheet is open";
        lock.addEventListener("release", () => {
          word.textContent = "no longer kept awake";
        });
      } catch {
        word.textContent = "not kept awake: this browser does not allow it. Set the device to stay on.";
      }
    }
    document.addEventListener("visibilitychange", ask);
    void ask();
  }

  globalThis.baybookAwake = { build };
})();
