// @ts-check
/*
 * What opens from below while a reading is typed: value and verdict large enough for arm's length, and
 * our own keys. The keys never take the cursor out of the field, and the field never calls up the
 * system's keyboard while they are there.
 */
(() => {
  "use strict";
  const { make, shape } = baybookDraw;

  /** Name, face, and what a screen reader says where that is not the face. @type {[string, string, string][]} */
  const KEYS = [
    ...[..."1234567890"].map((digit) => /** @type {[string, string, string]} */ ([`k${digit}`, digit, digit])),
    ["point", ".", "point"],
    ["back", "⌫", "take back the last digit"],
    ["unit", "unit", ""],
    ["more", "+ place", ""],
    ["undo", "Undo", ""],
    ["next", "Next", ""],
  ];

  /** @param {Bench} bench */
  function keypad({ settings }) {
    const touch = matchMedia("(any-pointer: coarse)").matches || matchMedia("(max-width: 48rem)").matches;
    return settings.keypad ?? touch;
  }

  /** @param {Bench} bench */
  function build(bench) {
    const what = make("p", { class: "dock-what" });
    const value = make("p", { class: "dock-value" });
    const close = make("button", { type: "button", class: "dock-close" }, "Close");
    const sun = make("button", { type: "button", class: "dock-sun" }, "Bright");
    const verdict = make("p", { class: "dock-verdict" });
    const detail = make("p", { class: "dock-detail" });
    const stop = make("p", { class: "dock-stop must-stop" }, shape("stop"), "Do not run");
    const options = make("div", { class: "dock-options" });
    const keys = make("div", { class: "keys" }, ...KEYS.map(([name, face, words]) => make("button", { type: "button", class: `key ${name}`, "data-key": name, "aria-label": words || null }, face)));
    const minus = make("button", { type: "button", class: "key minus", "data-key": "minus", "aria-label": "change the sign" }, "±");
    const dock = make("section", { class: "dock", "aria-label": "Reading", hidden: true }, make("div", { class: "dock-head" }, what, sun, close), make("div", { class: "dock-said" }, value, verdict, stop, detail), options, keys);
    document.body.append(dock);

    // A press on the dock leaves the cursor in its field.
    dock.addEventListener("pointerdown", (event) => {
      if (!(event.target instanceof HTMLSelectElement)) {
        event.preventDefault();
      }
    });
    keys.addEventListener("click", (event) => {
      const key = /** @type {HTMLElement} */ (event.target).closest("button")?.dataset.key;
      if (key) {
        pressed(bench, key);
      }
    });
    close.addEventListener("click", () => leave(bench));
    sun.addEventListener("click", () => /** @type {HTMLElement | null} */ (document.querySelector('[data-theme-name="sun"]'))?.click());
    document.addEventListener("focusin", ({ target }) => {
      const inside = dock.contains(/** @type {Node} */ (target)) || bench.active?.fields.includes(/** @type {any} */ (target));
      if (!inside && bench.active) {
        leave(bench);
      }
    });
    document.addEventListener("pointerdown", ({ target }) => {
      const near = /** @type {Element} */ (target).closest(".dock, .entry, .bench-bar, .themes");
      if (!near && bench.active) {
        leave(bench);
      }
    });

    /** @type {Slot | null} */
    let shown = null;
    bench.painters.push(() => {
      const slot = bench.active;
      dock.hidden = slot === null;
      document.body.classList.toggle("docked", slot !== null);
      document.body.classList.toggle("with-keys", keypad(bench));
      document.body.dataset.hand = bench.settings.hand;
      if (!slot) {
        shown = null;
        return;
      }
      for (const field of slot.fields) {
        field.inputMode = keypad(bench) ? "none" : "decimal";
      }
      keys.hidden = !keypad(bench);
      const held = baybookRecord.current(bench.shelf.job, slot.row, slot.at);
      const title = [slot.row.title, slot.row.places, slot.row.slots.length > 1 ? `place ${slot.at}` : ""].filter(Boolean).join(" · ");
      what.replaceChildren(make("b", {}, title), make("span", { class: "dock-limit" }, limit(slot)));
      value.textContent = held?.text ?? "–";
      const said = held?.judged ? baybookWords.say(held.judged) : null;
      dock.dataset.shown = said?.mark ?? "";
      dock.dataset.side = held ? baybookVerdict.side(held) : "none";
      verdict.replaceChildren(...(said ? [shape(said.mark), said.word] : []));
      stop.hidden = !held || !baybookVerdict.mustStop(held);
      const unanswered = baybookJudging.state(bench.shelf.job, slot.row.asks) === "unanswered";
      detail.textContent = unanswered ? "" : said?.detail ?? "";
      key(keys, "unit").textContent = slot.row.units.length > 1 ? `→ ${other(slot)}` : slot.unit;
      key(keys, "unit").setAttribute("aria-label", `read in ${other(slot)}`);
      key(keys, "unit").disabled = slot.row.units.length < 2;
      key(keys, "more").disabled = !slot.row.several;
      // The sign stands where one more place would, or has a line of its own below.
      slot.row.signed ? keys.append(minus) : minus.remove();
      key(keys, "more").hidden = slot.row.signed && !slot.row.several;
      keys.classList.toggle("with-sign", slot.row.signed && slot.row.several);
      key(keys, "undo").disabled = bench.shelf.undo === null;
      key(keys, "next").textContent = "Next";
      baybookOptions.paint(bench, slot, options);
      if (shown !== slot) {
        shown = slot;
        show(slot, dock);
      }
    });
  }

  /** @param {HTMLElement} keys @param {string} name */
  const key = (keys, name) => /** @type {HTMLButtonElement} */ (keys.querySelector(`[data-key="${name}"]`));

  /** The unit that the unit key goes to. @param {Slot} slot */
  function other({ row, unit }) {
    return row.units[(row.units.indexOf(unit) + 1) % row.units.length] ?? unit;
  }

  /** The limit as printed, in the unit of the reading where the maker prints it. @param {Slot} slot */
  function limit({ row: { limits }, unit }) {
    const printed = (/** @type {string[]} */ forms) => forms.find((one) => one.endsWith(` ${unit}`)) ?? forms[0] ?? "";
    /** @type {[string, string[]][]} */
    const fit = [["", limits.window], ["new ", limits.new], ["wear limit ", limits.wear_limit]];
    return fit.flatMap(([word, forms]) => (forms.length > 0 ? [(word + printed(forms)).replaceAll(" ", "\u00a0")] : [])).join(" · ");
  }

  /**
   * Brings the row above the dock: all of it where there is room, else from its drawing on. What is
   * typed stands in the dock too, so the field itself may be covered.
   * @param {Slot} slot @param {HTMLElement} dock
   */
  function show({ row, element }, dock) {
    const room = innerHeight - dock.offsetHeight;
    const field = element.getBoundingClientRect();
    const { top } = row.element.getBoundingClientRect();
    const drawing = row.element.querySelector(".drawn svg")?.getBoundingClientRect() ?? field;
    const wide = matchMedia("(min-width: 48.01rem)").matches;
    const covered = top < 0 || (wide ? field.bottom > innerHeight : field.bottom > room);
    if (covered) {
      scrollBy({ top: (field.bottom - top < room - 16 || wide ? top : drawing.top) - 8 });
    }
  }

  /** @param {Bench} bench */
  function leave(bench) {
    const slot = bench.active;
    bench.active = null;
    slot?.fields.forEach((field) => field.blur());
    bench.paint();
  }

  /** @param {Bench} bench @param {string} name */
  function pressed(bench, name) {
    const slot = bench.active;
    if (!slot) {
      return;
    }
    const field = slot.fields.find((one) => one === document.activeElement) ?? slot.fields[0];
    if (!field) {
      return;
    }
    if (name === "undo") {
      bench.undo();
    } else if (name === "next") {
      baybookFields.next(bench, slot, 1);
    } else if (name === "more") {
      /** @type {HTMLElement | null} */ (slot.row.element.querySelector(".more"))?.click();
    } else if (name === "unit") {
      slot.unit = other(slot);
      baybookFields.typed(bench, slot);
      bench.paint(slot.row);
    } else {
      digit(bench, slot, field, name);
    }
  }

  /** @param {Bench} bench @param {Slot} slot @param {HTMLInputElement} field @param {string} name */
  function digit(bench, slot, field, name) {
    const { value, selectionStart, selectionEnd } = field;
    const face = name === "point" ? "." : name.replace(/^k/, "");
    const { text, at } = baybookKeys.press(value, selectionStart ?? value.length, selectionEnd ?? value.length, face);
    field.focus();
    field.value = text;
    field.setSelectionRange(at, at);
    baybookFields.typed(bench, slot);
    bench.paint(slot.row);
  }

  globalThis.baybookPanel = { build };
})();
