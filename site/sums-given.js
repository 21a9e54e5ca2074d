// @ts-check
/*
 * What the engine sheet that one comes from gives the sums: those that it has values for stand at the head, and their
 * fields hold its values. Where an engine has several for one field, nobody but the technician knows which is meant:
 * they are offered beside it. What was typed is never overwritten.
 */
(() => {
  "use strict";
  const make = baybookMake;
  const of = new URLSearchParams(location.search).get("for") ?? "";
  const { root = "" } = document.body.dataset;

  /** Puts a value where it was typed, its unit where the field has that to choose. @param {Element} asks @param {string} text */
  function fill(asks, text) {
    const [field, unit] = /** @type {NodeListOf<HTMLInputElement | HTMLSelectElement>} */ (asks.querySelectorAll(".boxed > *"));
    if (!field) {
      return;
    }
    const units = unit instanceof HTMLSelectElement ? [...unit.options].map(({ value }) => value) : [unit?.textContent ?? ""];
    const signs = units.map((one) => [one, one.replace(/ \(.*/, "")]).filter(([, sign = ""]) => sign !== "" && text.endsWith(sign) && /^[-0-9.,/]+\s*$/.test(text.slice(0, -sign.length)));
    const [one, sign = ""] = signs[0] ?? [];
    if (unit instanceof HTMLSelectElement && one !== undefined) {
      unit.value = one;
    }
    field.value = sign === "" ? text : text.slice(0, -sign.length).trim();
    field.dispatchEvent(new Event("input", { bubbles: true }));
  }

  /** @param {Element} asks @param {[string, string][]} values @param {string} engine */
  function offer(asks, values, engine) {
    const field = /** @type {HTMLInputElement | HTMLSelectElement | null} */ (asks.querySelector(".boxed > *"));
    const [only, ...more] = values;
    if (field === null || only === undefined) {
      return;
    }
    const empty = field instanceof HTMLSelectElement || field.value === "";
    if (more.length === 0) {
      asks.querySelector(".boxed")?.after(make("p", { class: "fine given" }, `${engine}: ${only[0]}, ${only[1].replaceAll(" ", "\u00a0")}`));
      empty && fill(asks, only[1]);
      return;
    }
    const label = `value of ${engine}: ${asks.querySelector("label")?.textContent ?? ""}`;
    const options = values.map(([words, text], at) => make("option", { value: String(at) }, `${words}: ${text}`));
    const choice = make("select", { class: "given", "aria-label": label }, make("option", { value: "" }, `choose of ${engine} …`), ...options);
    choice.addEventListener("change", () => fill(asks, values[Number(choice.value || NaN)]?.[1] ?? ""));
    // Another value typed over it is no longer the engine's.
    field.addEventListener("input", (event) => event.isTrusted && (choice.value = ""));
    asks.querySelector(".boxed")?.after(choice);
  }

  globalThis.baybookGiven = ({ engine, machines, build, stops, sums }) => {
    document.querySelector(".frame")?.prepend(...baybookStops(stops));
    const parts = sums.flatMap(([id, fields]) => {
      const details = document.querySelector(`details[id="${CSS.escape(`sum-${id}`)}"]`);
      return details === null ? [] : [{ details, fields }];
    });
    for (const { details, fields } of parts) {
      Object.entries(fields).forEach(([input, values]) => details.querySelectorAll(`[data-input="${CSS.escape(input)}"]`).forEach((asks) => offer(asks, values, engine)));
    }
    const links = parts.map(({ details }) => make("li", {}, make("a", { class: "door", href: `#${details.id}` }, make("b", {}, details.querySelector("summary b")?.textContent ?? ""))));
    const back = make("a", { class: "plain-link", href: `${root}builds/${encodeURIComponent(build)}/engine.html` }, `Engine sheet of ${[engine, ...machines].join(", ")}`);
    document.querySelector("#index")?.before(make("section", { class: "part", id: "offered", "aria-labelledby": "offered-title" }, make("h2", { id: "offered-title" }, `Sums with values of ${engine}`), make("p", {}, back), make("ul", { class: "doors" }, ...links)));
  };

  if (/^[a-z0-9][a-z0-9~.-]*\/given-[0-9a-f]{10}$/.test(of)) {
    document.head.append(make("script", { src: `${root}builds/${of}.js` }));
  }
})();
