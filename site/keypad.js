// @ts-check
/*
 * Our own keys for fields that no reading stands in: those of the sums and of the shim plan. The same keys
 * as at a reading, in the same places; what the sum or the plan answers stands above them. The keys never
 * take the cursor out of its field, and the system's keyboard stays away while they are there.
 */
(() => {
  "use strict";
  const make = baybookMake;

  /** Name, face, and what a screen reader says where that is not the face. @type {[string, string, string][]} */
  const KEYS = [
    ...[..."1234567890"].map((digit) => /** @type {[string, string, string]} */ ([`k${digit}`, digit, digit])),
    ["point", ".", "point"],
    ["back", "⌫", "take back the last digit"],
    ["unit", "unit", ""],
    ["more", "±", "change the sign"],
    ["undo", "Undo", ""],
    ["next", "Next", ""],
  ];

  /** Whether the technician wants our keys: as set at the bench, else where there is a touch screen. */
  function wanted() {
    try {
      const { keypad } = JSON.parse(localStorage.getItem(`baybook.bench.${document.body.dataset["base"] ?? ""}`) ?? "{}") ?? {};
      if (typeof keypad === "boolean") {
        return keypad;
      }
    } catch {
      // Nothing is kept here: the screen decides.
    }
    return matchMedia("(any-pointer: coarse)").matches || matchMedia("(max-width: 48rem)").matches;
  }

  /** The unit that is chosen beside a field, if there is a choice. @param {HTMLElement} field */
  const unitOf = (field) => /** @type {HTMLSelectElement | null} */ (field.parentElement?.querySelector("select") ?? null);

  class Keypad {
    /**
     * @param {HTMLElement} root what holds the fields
     * @param {string} scope a field's part of it: where its next field and its answer are
     */
    constructor(root, scope) {
      this.root = root;
      this.scope = scope;
      /** @type {HTMLInputElement | null} */
      this.field = null;
      /** Texts before each key, the last first. @type {[HTMLInputElement, string][]} */
      this.before = [];
      this.what = make("p", { class: "dock-what" });
      this.value = make("p", { class: "dock-value" });
      this.answer = make("p", { class: "dock-detail" });
      const close = make("button", { type: "button", class: "dock-close" }, "Close");
      close.addEventListener("click", () => this.leave());
      this.keys = make("div", { class: "keys" }, ...KEYS.map(([name, face, words]) => make("button", { type: "button", class: `key ${name}`, "data-key": name, "aria-label": words || null }, face)));
      this.keys.addEventListener("click", ({ target }) => this.press(/** @type {HTMLElement} */ (target).closest("button")?.dataset["key"] ?? ""));
      this.dock = make("section", { class: "dock sum-keys", "aria-label": "Keys", hidden: true }, make("div", { class: "dock-head" }, this.what, close), make("div", { class: "dock-said" }, this.value, this.answer), this.keys);
      this.dock.addEventListener("pointerdown", (event) => event.preventDefault());
      document.body.append(this.dock);
      root.addEventListener("focusin", ({ target }) => this.enter(target));
      root.addEventListener("input", () => this.paint());
      document.addEventListener("focusin", ({ target }) => {
        const stays = target === this.field || this.dock.contains(/** @type {Node} */ (target));
        if (this.field && !stays && !(target instanceof HTMLInputElement && this.fits(target))) {
          this.leave();
        }
      });
    }

    /** @param {HTMLInputElement} field */
    fits(field) {
      return this.root.contains(field) && field.type === "text";
    }

    /** @param {EventTarget | null} target */
    enter(target) {
      if (target instanceof HTMLInputElement && this.fits(target) && wanted()) {
        target.inputMode = "none";
        this.field = target;
        target.select();
        // On an engine sheet the keys are dressed by the style of the bench.
        globalThis.baybookOpening?.open();
        document.body.classList.add("docked", "with-keys");
        this.dock.hidden = false;
        this.paint();
        this.show(target);
      }
    }

    leave() {
      const { field } = this;
      this.field = null;
      this.dock.hidden = true;
      document.body.classList.remove("docked");
      field?.blur();
    }

    /** Brings the field above the keys. @param {HTMLElement} field */
    show(field) {
      const { top, bottom } = field.getBoundingClientRect();
      if (bottom > innerHeight - this.dock.offsetHeight || top < 0) {
        scrollBy({ top: top - 72 });
      }
    }

    paint() {
      const { field } = this;
      if (!field) {
        return;
      }
      const unit = unitOf(field);
      const own = unit?.value ?? field.parentElement?.querySelector(".sum-unit")?.textContent ?? "";
      const part = field.closest(this.scope) ?? this.root;
      const answer = part.querySelector("output:not([hidden]) .line, output:not([hidden]) .no-answer");
      const name = field.labels?.[0]?.textContent ?? "";
      this.what.textContent = field.getAttribute("aria-label") ?? name;
      this.value.textContent = field.value === "" ? "–" : `${field.value} ${own}`.trim();
      this.answer.textContent = answer?.textContent ?? "";
      this.key("unit").disabled = unit === null;
      this.key("unit").textContent = own || "unit";
      this.key("undo").disabled = this.before.length === 0;
      const [face = "", words = ""] = this.several(field) ? ["+ value", "one more value in this field"] : ["±", "change the sign"];
      this.key("more").textContent = face;
      this.key("more").setAttribute("aria-label", words);
    }

    /** True for a field of several values. @param {HTMLInputElement} field */
    several(field) {
      return field.closest('[data-sort="quantities"]') !== null || field.id === "plan-stock";
    }

    /** @param {string} name */
    key(name) {
      return /** @type {HTMLButtonElement} */ (this.keys.querySelector(`[data-key="${name}"]`));
    }

    /** @param {string} key */
    press(key) {
      const { field } = this;
      if (!field || key === "") {
        return;
      }
      const unit = unitOf(field);
      if (key === "next") {
        this.next(field);
      } else if (key === "undo") {
        const [last, text] = this.before.shift() ?? [field, field.value];
        last.focus();
        this.write(last, text, text.length);
      } else if (key === "unit" && unit) {
        unit.selectedIndex = (unit.selectedIndex + 1) % unit.options.length;
        unit.dispatchEvent(new Event("input", { bubbles: true }));
      } else {
        this.type(field, key);
      }
    }

    /** @param {HTMLInputElement} field @param {string} key */
    type(field, key) {
      const { value, selectionStart, selectionEnd } = field;
      const [start, end] = [selectionStart ?? value.length, selectionEnd ?? value.length];
      this.before.unshift([field, value]);
      this.before.length = Math.min(this.before.length, 40);
      if (key === "more" && !this.several(field)) {
        // A night in winter is below nought.
        const turned = value.startsWith("-") ? value.slice(1) : `-${value}`;
        this.write(field, turned, turned.length);
        return;
      }
      if (key === "more") {
        this.write(field, `${value.replace(/[;\s]*$/, "")}; `, value.length + 2);
        return;
      }
      // Of several values, the last one is being typed: a point in another is no second point.
      const from = this.several(field) ? Math.min(value.lastIndexOf(";") + 1 + Number(/; /.test(value)), start) : 0;
      const { text, at } = baybookKeys.press(value.slice(from), start - from, end - from, key === "point" ? "." : key.replace(/^k/, ""));
      this.write(field, value.slice(0, from) + text, from + at);
    }

    /** @param {HTMLInputElement} field @param {string} text @param {number} at */
    write(field, text, at) {
      field.value = text;
      field.setSelectionRange(at, at);
      field.dispatchEvent(new Event("input", { bubbles: true }));
    }

    /** To the next field that is seen; after the last one the keys go. @param {HTMLInputElement} field */
    next(field) {
      const part = field.closest(this.scope) ?? this.root;
      const all = [...part.querySelectorAll("input")].filter((one) => this.fits(one) && one.checkVisibility());
      const to = all[all.indexOf(field) + 1];
      to ? to.focus() : this.leave();
    }
  }

  globalThis.baybookKeypad = Keypad;
})();
