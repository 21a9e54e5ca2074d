// @ts-check
/*
 * The sheet of bench sums: what is typed is worked out at every key. Without scripts the sheet keeps its
 * formulas, tables and cautions; the fields only show where they can answer.
 */
(() => {
  "use strict";

  const compute = globalThis.baybookCompute;

  /**
   * @template {keyof HTMLElementTagNameMap} Tag
   * @param {Tag} tag
   * @param {string} name
   * @param {string} words
   */
  function part(tag, name, words) {
    const made = document.createElement(tag);
    made.className = name;
    made.textContent = words;
    return made;
  }

  /**
   * What is typed in a field, with the unit that is chosen beside it where none is typed.
   * @param {Element} asks
   */
  function typed(asks) {
    const [field, unit] = asks.querySelectorAll(".boxed > input, .boxed > select, .boxed > textarea");
    const text = /** @type {HTMLInputElement} */ (field).value.trim();
    const chosen = unit instanceof HTMLSelectElement ? unit.value.replace(/ \(.*/, "") : (asks.querySelector(".sum-unit")?.textContent ?? "");
    if (text === "" || chosen === "") {
      return text;
    }
    const whole = compute.units.parse(chosen);
    const add = (/** @type {string} */ member) => (/^[-0-9.,/ ]+$/.test(member) ? whole.after(member.trim()) : member);
    const list = asks.getAttribute("data-sort") === "quantities";
    return list ? text.split(/[;\n]|(?<![0-9]),|, |,(?![0-9])/).filter((one) => one.trim() !== "").map(add).join("; ") : add(text);
  }

  /** @param {BaybookSumResult} result */
  function line({ of, title, text, word, unit }) {
    const made = part("p", "line", "");
    // Pound-inches are a twelfth of the pound-feet they are taken for: the sign never stands alone.
    const spoken = unit === "lbf·in" ? ` (${compute.units.parse(unit).spoken})` : "";
    const number = part("b", "number", text + spoken);
    made.append(part("span", "what", of === null ? title : `${of}: ${title}`), " ", number);
    if (word !== null) {
      made.append(" ", part("span", "word", word));
    }
    return made;
  }

  /**
   * @param {BaybookSum} sum
   * @param {Element} details
   */
  function show(sum, details) {
    const output = details.querySelector("output");
    const fields = [...details.querySelectorAll(".sum-field")];
    if (output === null) {
      return;
    }
    const given = Object.fromEntries(fields.map((asks) => [asks.getAttribute("data-input") ?? "", typed(asks)]));
    const waiting = sum.inputs.some(({ key, unless }) => unless === undefined && !given[key]);
    const touched = fields.some((asks) => asks.getAttribute("data-sort") !== "word" && typed(asks) !== "");
    fields.forEach((asks) => asks.querySelector("input, textarea")?.removeAttribute("aria-invalid"));
    output.hidden = waiting;
    output.replaceChildren();
    if (waiting || !touched) {
      return;
    }
    const outcome = compute.sums.work(sum, given);
    if ("refused" in outcome) {
      const { input, message, help } = outcome.refused;
      const wrong = fields.find((asks) => asks.getAttribute("data-input") === input);
      wrong?.querySelector("input, textarea")?.setAttribute("aria-invalid", "true");
      output.append(part("p", "no-answer", `${message[0]?.toUpperCase() ?? ""}${message.slice(1)}.`), part("p", "fine", help));
      return;
    }
    // What holds whatever is typed stands on the sheet already.
    const always = sum.notes.filter(([when]) => when === "1").map(([, note]) => note);
    const notes = outcome.notes.filter((note) => !always.includes(note));
    output.append(...outcome.results.map(line), ...notes.map((note) => part("p", "note", note)));
  }

  /** Opens the sum that the address names. */
  function open() {
    const details = document.getElementById(location.hash.slice(1));
    if (details instanceof HTMLDetailsElement) {
      details.open = true;
      details.scrollIntoView();
    }
  }

  for (const details of document.querySelectorAll("details[data-sum]")) {
    const sum = compute.sumTable.find(({ id }) => id === details.getAttribute("data-sum"));
    const fields = details.querySelector("template");
    if (sum !== undefined && fields !== null) {
      fields.replaceWith(fields.content);
      details.addEventListener("input", () => show(sum, details));
    }
  }
  addEventListener("keydown", (event) => {
    const field = event.target;
    if (event.key === "Enter" && field instanceof HTMLInputElement) {
      const fields = [...(field.closest(".sum-fields")?.querySelectorAll("input") ?? [])];
      fields[fields.indexOf(field) + 1]?.focus();
    }
  });
  new baybookKeypad(document.querySelector("main") ?? document.body, "details");
  addEventListener("hashchange", open);
  open();
})();
