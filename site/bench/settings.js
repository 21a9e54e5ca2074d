// @ts-check
/* Which hand, which keyboard, which form of a value stands first. None of them changes what is true. */
(() => {
  "use strict";
  const { make } = baybookDraw;

  /**
   * @param {Bench} bench
   */
  function build(bench) {
    /** @type {[string, [string, Partial<Settings>][]][]} */
    const all = [
      ["Function keys for the", [["right hand", { hand: "right" }], ["left hand", { hand: "left" }]]],
      ["Keys", [["our keypad", { keypad: true }], ["the device’s keyboard", { keypad: false }]]],
      ["Values stand first", [["as printed", { form: "printed" }], ["in the other unit", { form: "other" }]]],
    ];
    const box = make("div", { class: "settings" });
    for (const [title, choices] of all) {
      const buttons = choices.map(([words, value]) => {
        const button = make("button", { type: "button" }, words);
        button.addEventListener("click", () => bench.set(value));
        const name = /** @type {keyof Settings} */ (Object.keys(value)[0]);
        bench.painters.push(() => {
          const now = name === "keypad" ? document.body.classList.contains("with-keys") : bench.settings[name];
          button.setAttribute("aria-pressed", String(now === value[name]));
        });
        return button;
      });
      box.append(make("div", { class: "setting", role: "group", "aria-label": title }, make("p", { class: "caption" }, title), ...buttons));
    }
    return box;
  }

  globalThis.baybookSettings = { build };
})();
