// @ts-check
/*
 * The signs of a verdict, and the marks of readings on a drawn scale. The signs differ in outline and lining, so that none needs a colour.
 */
(() => {
  "use strict";
  const SVG = "http://www.w3.org/2000/svg";

  /** @param {string} tag @param {Record<string, string | number>} attributes */
  function part(tag, attributes) {
    const element = document.createElementNS(SVG, tag);
    for (const [name, value] of Object.entries(attributes)) {
      element.setAttribute(name, String(value));
    }
    return element;
  }

  /** @type {Record<Said["mark"] | "stop", [string, Record<string, string | number>][]>} */
  const SHAPES = {
    // A point inside its circle.
    in: [["circle", { cx: 12, cy: 12, r: 9.5 }], ["circle", { cx: 12, cy: 12, r: 4, class: "full" }]],
    // A hatched square.
    out: [["path", { d: "M3 3H21V21H3Z" }], ["path", { d: "M3 9 9 3M3 15 15 3M3 21 21 3M9 21 21 9M15 21 21 15" }]],
    // A circle that is not closed.
    close: [["circle", { cx: 12, cy: 12, r: 9.5, class: "broken" }], ["path", { d: "M12 2.5V21.5" }]],
    // An empty box, struck through.
    none: [["path", { d: "M3 3H21V21H3Z" }], ["path", { d: "M3 12H21" }]],
    // The bar of a prohibition (ISO 3864-1).
    stop: [["circle", { cx: 12, cy: 12, r: 9.5 }], ["path", { d: "M5.3 5.3 18.7 18.7" }]],
  };

  /** The sign of a verdict; its word always stands beside it. @param {Said["mark"] | "stop"} mark */
  function shape(mark) {
    const svg = /** @type {SVGSVGElement} */ (part("svg", { viewBox: "0 0 24 24", class: `sign sign-${mark}`, "aria-hidden": "true" }));
    svg.append(...SHAPES[mark].map(([tag, attributes]) => part(tag, attributes)));
    return svg;
  }

  /** The height of the ruled line in a drawing of limits. */
  const RULE = 46;

  /** @param {{ from: number, to: number, off: "below" | "above" | null }} at @param {Said["mark"]} mark */
  function flag({ from, to, off }, mark) {
    const group = part("g", { class: `m-reading m-${mark}` });
    if (off !== null) {
      const [x, way, anchor] = off === "below" ? [6, -1, "start"] : [354, 1, "end"];
      group.append(part("path", { class: "m-tip", d: `M${x} ${RULE - 14}l${way * 8} 7l${-way * 8} 7Z` }));
      const words = part("text", { class: "m-off", x: off === "below" ? 4 : 356, y: RULE - 20, "text-anchor": anchor });
      words.textContent = off === "below" ? "below the scale" : "beyond the scale";
      group.append(words);
      return group;
    }
    const middle = (from + to) / 2;
    if (to - from > 3) {
      group.append(part("path", { class: "m-span", d: `M${from} ${RULE - 5}V${RULE + 5}M${from} ${RULE}H${to}M${to} ${RULE - 5}V${RULE + 5}` }));
    }
    group.append(part("path", { class: "m-tip", d: `M${middle} ${RULE}l-7 -15h14Z` }));
    group.append(part("path", { class: "m-stem", d: `M${middle} ${RULE - 15}V14` }));
    return group;
  }

  /**
   * Puts the readings on a drawing of limits, in the place of those that were there.
   * @param {SVGSVGElement} drawing
   * @param {{ low: number, high: number, mark: Said["mark"] }[]} readings
   */
  function marks(drawing, readings) {
    for (const old of drawing.querySelectorAll(".m-reading")) {
      old.remove();
    }
    const axis = drawing.getAttribute("data-axis");
    for (const { low, high, mark } of readings) {
      const place = baybookScale.place(axis, low, high);
      if (place) {
        drawing.append(flag(place, mark));
      }
    }
    drawing.classList.toggle("read", readings.length > 0);
  }

  globalThis.baybookDraw = { make: baybookMake, shape, marks };
})();
