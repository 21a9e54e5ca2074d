// @ts-check
/*
 * What stands on a sheet before anything is touched: a field at each row that can be judged, the question for
 * the state its limits hold in, and the bar. The bench comes with the first touch and takes over these very
 * elements, so that nothing moves, and neither the cursor, nor what was typed or pressed meanwhile, is lost. It
 * comes at once to a procedure and to a job that is kept.
 */
(() => {
  "use strict";
  const make = baybookMake;
  const sheet = /** @type {HTMLElement | null} */ (document.querySelector("main[data-build]"));
  const { scripts = "", sheet: style = "" } = /** @type {HTMLScriptElement} */ (document.currentScript).dataset;
  if (!sheet) {
    return;
  }
  const touch = matchMedia("(any-pointer: coarse)").matches || matchMedia("(max-width: 48rem)").matches;

  /** One place of a row: a field, or one for each leaf, and room for the verdict. @param {number} at @param {boolean} pair */
  function slot(at, pair) {
    const boxes = (pair ? ["goes", "stops"] : ["value"]).map((name) => {
      const field = make("input", { type: "text", autocomplete: "off", spellcheck: "false", maxlength: "40", "data-reading": name, enterkeyhint: "next", inputmode: touch && "none" });
      return make("div", { class: "box" }, ...(pair ? [make("span", { class: "leaf" }, name)] : []), field, make("span", { class: "unit" }));
    });
    const number = make("span", { class: "place-no", "aria-hidden": "true" }, String(at));
    return make("div", { class: pair ? "slot pair" : "slot" }, number, make("div", { class: "boxes" }, ...boxes), make("output", { class: "verdict" }), make("p", { class: "earlier" }));
  }

  /** @param {HTMLElement} row */
  const title = (row) => [...row.querySelectorAll("h3, h3 + p, .asked b")].map((one) => one.textContent).join(", ");

  /** @param {HTMLElement} row */
  function entry(row) {
    const first = slot(1, false);
    first.querySelector("input")?.setAttribute("aria-label", title(row));
    first.querySelector(".unit")?.append(row.dataset.unit ?? "");
    (row.querySelector(".drawn") ?? row.querySelector(".value, .limit"))?.after(make("div", { class: "entry" }, make("div", { class: "slots" }, first)));
  }

  /** The question for the state, before the first of the rows that ask for the same. @param {HTMLElement} row @param {string} asks @param {boolean} again */
  function ask(row, asks, again) {
    const answers = [["met", "Yes, it is so"], ["unmet", "No, not now"]].map(([answer = "", words = ""]) =>
      make("button", { type: "button", "data-state": answer, "aria-pressed": "false" }, words));
    const said = make("p", { class: "holds" }, "These limits hold with: ", make("b", {}, baybookCondition.words(asks).join(" · ")), ". Is it so?");
    const named = { role: "group", "aria-label": `State for ${title(row)}`, "data-asks": asks, "data-answer": "unanswered", "data-again": again };
    row.before(make("div", { class: "state", ...named }, said, make("div", { class: "answers" }, ...answers), make("p", { class: "answered" })));
  }

  function stand() {
    /** @type {Set<string>} */
    const asked = new Set();
    /** @type {HTMLElement | null} */
    let before = null;
    for (const row of /** @type {NodeListOf<HTMLElement>} */ (sheet?.querySelectorAll("[data-unit]"))) {
      const asks = baybookCondition.asks(row);
      if (asks !== "" && !(before !== null && baybookCondition.asks(before) === asks && before.parentElement === row.parentElement)) {
        ask(row, asks, asked.has(asks));
        asked.add(asks);
      }
      before = row;
      entry(row);
    }
  }

  /** @param {string} name @param {string} words @param {string} fine */
  const door = (name, words, fine) => make("button", { type: "button", class: name }, make("b", {}, words), make("span", { class: "fine" }, fine));

  const undo = door("undo", "Undo", "nothing yet");
  const sun = make("button", { type: "button", class: "sun" }, "Bright");
  const job = door("open-job", "Job", "none open");
  undo.disabled = true;
  sun.addEventListener("click", () => /** @type {HTMLElement | null} */ (document.querySelector('[data-theme-name="sun"]'))?.click());
  const section = make("section", { class: "bench-bar", "aria-label": "Bench" }, undo, sun, job);
  stand();
  document.body.append(section);
  document.body.classList.add("benched");

  /** @param {HTMLElement} element */
  const loaded = (element) =>
    new Promise((done) => {
      element.onload = element.onerror = done;
      // A style sheet stands behind the first, before those that have the last word.
      element instanceof HTMLLinkElement ? document.querySelector("link[rel=stylesheet]")?.after(element) : document.head.append(element);
    });

  /** @param {string} src */
  function script(src) {
    const element = document.createElement("script");
    element.async = false;
    element.src = src;
    return loaded(element);
  }

  let asked = false;
  let there = false;
  /** @type {(() => void)[]} */
  const waiting = [];

  /** Brings the bench, once; `then` is done when it is there. @param {() => void} [then] */
  function open(then) {
    if (then) {
      there ? then() : waiting.push(then);
    }
    if (!asked) {
      asked = true;
      const link = make("link", { rel: "stylesheet", href: style });
      const all = scripts.split(" ");
      // What the keys measure, they measure styled.
      void Promise.all([loaded(link), ...all.slice(0, -1).map(script)]).then(() => script(all.at(-1) ?? ""));
    }
  }

  /** The bench is there and has taken over. */
  function taken() {
    there = true;
    waiting.splice(0).forEach((then) => then());
  }

  /** Whether this browser keeps a job or settings of this handbook. */
  function kept() {
    try {
      return ["job", "bench"].some((name) => localStorage.getItem(`baybook.${name}.${document.body.dataset.base ?? ""}`) !== null);
    } catch {
      return false;
    }
  }

  globalThis.baybookOpening = { slot, open, taken, bar: { section, undo, job } };
  if (sheet.dataset.procedure || kept()) {
    open();
    return;
  }
  for (const event of ["pointerover", "pointerdown", "focusin", "input"]) {
    document.addEventListener(event, ({ target }) => {
      if (target instanceof Element && target.closest(".entry, .state, .undo, .open-job")) {
        open();
      }
    });
  }
  // Pressed before anybody listens: pressed again when somebody does.
  document.addEventListener("click", ({ target }) => {
    const pressed = target instanceof Element && /** @type {HTMLElement | null} */ (target.closest(".state button, .open-job"));
    if (pressed && !there) {
      open(() => pressed.click());
    }
  });
  // Another sheet of the same job, in another tab, has written.
  addEventListener("storage", () => open());
})();
