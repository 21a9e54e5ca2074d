// @ts-check
/*
 * The shim planner of an engine sheet. Lashes that were read on the sheet's own fields are taken from there;
 * the fitted shims are typed here, and the plan stands below at every key.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;
  const MOST = 16;

  /**
   * @template {keyof HTMLElementTagNameMap} Tag
   * @param {Tag} tag
   * @param {string} name
   * @param {(string | Node)[]} inside
   * @returns {HTMLElementTagNameMap[Tag]}
   */
  function part(tag, name, ...inside) {
    const made = document.createElement(tag);
    if (name !== "") {
      made.className = name;
    }
    made.append(...inside);
    return made;
  }

  /**
   * A length as typed; in millimetres where no unit is.
   * @param {string} text
   */
  function length(text) {
    const read = compute.reading(text, "mm");
    return read.ok ? read.text : text;
  }

  /** The planner's own: windows, the valves under each, and what is said. */
  class Planner {
    /** @param {HTMLElement} section */
    constructor(section) {
      this.section = section;
      this.windows = [...section.querySelectorAll("[data-plans]")].map((one) => /** @type {HTMLElement} */ (one));
      // The sizes stand here, or in the row of the shims.
      const here = [...section.querySelectorAll(".plan-sizes li")].map((one) => (one.textContent ?? "").split(" = "));
      const row = [...document.querySelectorAll('[data-spec="lash.shim"] .picks > div')].map((one) => [...one.children].map((part) => (part.textContent ?? "").replace(/\s+/g, " ")));
      this.marks = new Map((here.length > 0 ? here : row).map(([mark = "", size = ""]) => [mark, size]));
      const template = section.querySelector("template");
      template?.replaceWith(template.content);
      this.output = /** @type {HTMLOutputElement} */ (section.querySelector("output"));
      this.stock = /** @type {HTMLInputElement} */ (section.querySelector("#plan-stock"));
      for (const window of this.windows) {
        const more = part("button", "more", "One more valve");
        more.type = "button";
        more.addEventListener("click", () => {
          this.valve(window)?.focus();
          more.hidden = this.valves(window).length >= MOST;
        });
        window.append(part("ol", "plan-valves"), more);
        this.valve(window);
      }
      this.section.addEventListener("input", () => this.show());
      // What is read on the sheet is a measured lash, unless another was typed here.
      document.addEventListener("input", (event) => {
        if (event.target instanceof Element && event.target.matches("[data-reading]")) {
          this.take();
        }
      });
      this.take();
    }

    /** @param {HTMLElement} window */
    valves(window) {
      return [...window.querySelectorAll(".plan-valve")].map((one) => [...one.querySelectorAll("input")]);
    }

    /**
     * One more valve under a window; gives its first field.
     * @param {HTMLElement} window
     */
    valve(window) {
      const number = this.valves(window).length + 1;
      const title = window.dataset.name ?? "";
      const fields = ["lash measured", "shim fitted, size or mark"].map((name, place) => {
        const field = part("input", "");
        Object.assign(field, { type: "text", autocomplete: "off", spellcheck: false, inputMode: "decimal" });
        field.setAttribute("aria-label", `${title} ${number}, ${name}`);
        const unit = place === 0 ? [part("span", "sum-unit", "mm")] : [];
        return part("label", "plan-field", part("span", "", name), part("span", "boxed", field, ...unit));
      });
      const made = part("li", "plan-valve", part("b", "", `${title} ${number}`), ...fields);
      window.querySelector(".plan-valves")?.append(made);
      return made.querySelector("input");
    }

    /** Takes the lashes that were read on the sheet. */
    take() {
      for (const window of this.windows) {
        const { plans, where } = window.dataset;
        const rows = [...document.querySelectorAll(`[data-spec="${plans}"]`)];
        const row = rows.find((one) => one.getAttribute("data-where") === where);
        const read = [...(row?.querySelectorAll('[data-reading="value"]') ?? [])];
        read.slice(0, MOST).forEach((field, place) => {
          while (this.valves(window).length <= place) {
            this.valve(window);
          }
          const measured = this.valves(window)[place]?.[0];
          const { value } = /** @type {HTMLInputElement} */ (field);
          const unit = field.nextElementSibling?.textContent ?? "";
          const text = value !== "" && unit !== "" && unit !== "mm" ? `${value} ${unit}` : value;
          if (measured !== undefined && text !== "" && (measured.value === "" || measured.dataset.read === measured.value)) {
            measured.value = text;
            measured.dataset.read = text;
          }
        });
      }
      this.show();
    }

    /** @returns {BaybookShimValve[]} */
    job() {
      return this.windows.flatMap((window) => {
        const { window: limits = "", target } = window.dataset;
        const all = this.valves(window).map(([measured, fitted], place) => ({
          name: `${window.dataset.name ?? ""} ${place + 1}`,
          measured: measured?.value.trim() ?? "",
          fitted: fitted?.value.trim() ?? "",
        }));
        const known = all.filter(({ measured, fitted }) => measured !== "" && fitted !== "");
        return known.map((valve) => ({
          name: valve.name,
          measured: /^under /.test(valve.measured) ? valve.measured : length(valve.measured),
          fitted: this.marks.get(valve.fitted) ?? length(valve.fitted),
          window: limits,
          ...(target !== undefined && { target }),
        }));
      });
    }

    /** What the maker asks a valve to be set to. @param {string} valve */
    setTo(valve) {
      return this.windows.find(({ dataset }) => dataset.name === valve.replace(/ [0-9]+$/, ""))?.dataset.setTo ?? null;
    }

    /** Whether a lash lies within the limits and off what the maker asks to set. @param {BaybookShimPlan} plan @param {BaybookShimPlan["plan"][number]} line */
    isOff({ unit }, { valve, from, lash_after: after }) {
      const setTo = this.setTo(valve);
      if (setTo === null || from === "kept" || after === null) {
        return false;
      }
      const [asked, lash] = [compute.Value.parse(setTo), compute.units.parse(unit).toSi(/** @type {BaybookRational} */ (compute.Rational.parse(after)))];
      const [least, most] = [asked.min(), asked.max()].map((end) => end && asked.unit.toSi(end.exact));
      return Boolean((least && lash.compare(least) < 0) || (most && lash.compare(most) > 0));
    }

    /** @returns {BaybookShimJob["stock"]} */
    sizes() {
      const typed = this.stock.value.trim();
      if (typed === "") {
        return [...this.marks.values()];
      }
      return typed.split(/[;\n]|(?<![0-9]),|, |,(?![0-9])/).flatMap((one) => {
        const [, size = "", pieces] = /^\s*(.*?)\s*(?:[×x]\s*([0-9]+))?\s*$/.exec(one) ?? [];
        const text = this.marks.get(size) ?? length(size);
        return size === "" ? [] : [pieces === undefined ? text : { size: text, pieces: Number(pieces) }];
      });
    }

    show() {
      const valves = this.job();
      this.output.hidden = valves.length === 0;
      const [first] = valves;
      if (first?.window === undefined) {
        return;
      }
      const stock = this.sizes() ?? [];
      const plan = compute.shims({ window: first.window, ...(first.target !== undefined && { target: first.target }), stock, valves });
      this.output.replaceChildren(...("error" in plan ? this.refused(plan) : this.planned(plan)));
    }

    /** @param {BaybookFailed} failed */
    refused({ error: { message, help } }) {
      return [part("p", "no-answer", `${message[0]?.toUpperCase() ?? ""}${message.slice(1)}.`), part("p", "fine", help)];
    }

    /** @param {BaybookShimPlan} plan */
    planned(plan) {
      const shown = (/** @type {string} */ number, /** @type {string} */ unit, /** @type {number} */ least) => {
        const exact = compute.Rational.parse(number);
        const rounded = exact?.roundedTo(compute.Rational.tenTo(-4), "half-even");
        return rounded === undefined ? "" : `${rounded.textAtLeast(least)} ${unit}`;
      };
      const mark = (/** @type {string} */ size) => [...this.marks].find(([, text]) => text === size)?.[0];
      const rows = plan.plan.map((line) => {
        const open = plan.unsolved.includes(line.valve);
        const size = shown(line.shim, plan.shim_unit, 2);
        const marked = mark(size);
        const fit = line.from === "kept" ? (open ? "not solved" : "stays") : size;
        const from = line.from === "engine" ? `from ${line.moved_from ?? ""}` : line.from === "stock" ? "from stock" : "";
        const words = [marked !== undefined && line.from !== "kept" ? `marked ${marked}` : "", from].filter((word) => word !== "");
        const after = open || line.lash_after === null ? "" : `lash after ${shown(line.lash_after, plan.unit, 2)}`;
        return part("li", "", part("span", "what", line.valve), part("b", "number", fit), part("span", "", words.join(", ")), part("span", "after", after));
      });
      const list = part("ol", "plan-lines", ...rows);
      const off = plan.plan.filter((line) => !plan.unsolved.includes(line.valve) && this.isOff(plan, line));
      const said = [part("p", "line", part("b", "", plan.bought === 0 ? "Nothing from stock" : `From stock: ${plan.bought}`))];
      if (plan.unsolved.length > 0) {
        said.push(part("p", "note", "Not solved: no size at hand fits, or no leaf goes in. Where none goes in, fit a thinner shim and measure again."));
      }
      for (const setTo of new Set(off.map(({ valve }) => this.setTo(valve)))) {
        const valves = off.filter(({ valve }) => this.setTo(valve) === setTo).map(({ valve }) => valve);
        said.push(part("p", "note", `${valves.join(", ")}: within the limits, but off the ${setTo} it is to be set to. Look for a size that comes nearer.`));
      }
      if (plan.plan.some(({ from }) => from === "engine")) {
        said.push(part("p", "note", "Take out every shim that moves before one goes back, and mark each with its valve."));
      }
      return [list, ...said];
    }
  }

  const section = document.getElementById("shim-plan");
  if (section !== null) {
    new Planner(section);
    new baybookKeypad(section, "#shim-plan");
  }
})();
