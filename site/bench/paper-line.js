// @ts-check
/*
 * A reading beyond its limits drawn for the owner: the limits on a line, and where it was read, before and
 * now, all at their true places. Places are for the eye alone, so they may be binary numbers; what is
 * lettered is what was printed and read.
 */
(() => {
  "use strict";
  const SVG = "http://www.w3.org/2000/svg";
  const [WIDTH, EDGE, ZONE, RULE, LINE, LABELS] = [360, 14, 24, 46, 58, 79];

  /** @param {string} tag @param {Record<string, string | number>} attributes @param {string} [text] */
  function part(tag, attributes, text) {
    const made = document.createElementNS(SVG, tag);
    Object.entries(attributes).forEach(([name, value]) => made.setAttribute(name, typeof value === "number" ? String(Math.round(value * 10) / 10) : value));
    made.textContent = text ?? null;
    return made;
  }

  /** The limits that decided, in the unit that was read. @param {Reading} reading */
  function limits({ limits: { window, new: fresh, wear_limit }, judged, typed: { unit } }) {
    const forms = judged?.against === "wear_limit" ? wear_limit : judged?.against === "new" ? fresh : window;
    const form = forms.find((one) => one.endsWith(unit)) ?? forms[0];
    const found = form === undefined ? null : baybookCompute.convert(form, unit);
    return found === null || "error" in found ? null : found;
  }

  /** Both ends of what was read, in the unit of the limits. @param {Reading} reading @param {string} unit @returns {[number, number] | null} */
  function ends({ typed }, unit) {
    const at = (/** @type {string | undefined} */ text) => {
      const read = text === undefined ? null : baybookCompute.reading(text, typed.unit);
      const same = read?.ok ? baybookCompute.convert(read.text, unit) : null;
      return same && !("error" in same) ? baybookScale.value(same.exact.min) : null;
    };
    const [low, high] = typed.value === undefined ? [at(typed.goes), at(typed.stops)] : [at(typed.value), at(typed.value)];
    const one = low ?? high;
    return one === null ? null : [low ?? one, high ?? one];
  }

  /** The flag of a reading: filled as it is now, open as it was. @param {(at: number) => number} x @param {[number, number]} span @param {boolean} now */
  function flag(x, [low, high], now) {
    const [from, to] = [x(low), x(high)];
    const middle = (from + to) / 2;
    const group = part("g", { class: now ? "m-reading m-out" : "m-reading m-none" });
    group.append(part("path", { class: "m-stem", d: `M${middle.toFixed(1)} ${RULE - 15}V${now ? 10 : -8}`, ...(now ? {} : { "stroke-dasharray": "3 3" }) }));
    group.append(part("path", { class: "m-tip", d: `M${middle.toFixed(1)} ${RULE}l-7 -15h14Z` }));
    if (to - from > 3) {
      group.append(part("path", { class: "m-span", d: `M${from.toFixed(1)} ${RULE}H${to.toFixed(1)}` }));
    }
    return { group, middle };
  }

  /** @param {SVGElement} svg @param {string} text @param {number} x @param {number} y @param {string} [name] */
  function letter(svg, text, x, y, name = "") {
    const half = (text.length * 8.4) / 2;
    svg.append(part("text", { class: name, x: Math.min(WIDTH - half, Math.max(half, x)), y }, text));
  }

  /**
   * The drawing, or none where nothing was read beyond the limits or they cannot be drawn.
   * @param {Reading} reading as it stands
   * @param {Reading | null} first what was read at the same place before
   * @returns {SVGSVGElement | null}
   */
  function draw(reading, first) {
    const read = [first, reading].filter((one) => one !== null);
    const beyond = read.some((one) => one.judged?.verdict === "out of spec");
    const drawn = beyond && typeof baybookCompute !== "undefined" ? limits(reading) : null;
    const spans = drawn === null ? [] : read.map((one) => ends(one, drawn.unit));
    const [low, high] = [baybookScale.value(drawn?.exact.min ?? null), baybookScale.value(drawn?.exact.max ?? null)];
    const places = [low, high, ...spans.flat()].filter((one) => one !== null);
    const [least, most] = [Math.min(...places), Math.max(...places)];
    if (drawn === null || spans.includes(null) || (low === null && high === null) || !(most > least)) {
      return null;
    }
    const room = (most - least) * 0.18;
    const x = (/** @type {number} */ at) => EDGE + ((at - least + room) / (most - least + 2 * room)) * (WIDTH - 2 * EDGE);
    const said = `${reading.title}: ${first ? `before ${first.text}, now ${reading.text}` : reading.text}; limits ${drawn.text}`;
    const svg = /** @type {SVGSVGElement} */ (part("svg", { class: "drawing paper-line", viewBox: `0 -28 ${WIDTH} ${LABELS + 36}`, role: "img", "aria-label": said }));
    const [left, right] = [low === null ? EDGE - 8 : x(low), high === null ? WIDTH - EDGE + 8 : x(high)];
    svg.append(part("path", { class: "d-rule", d: `M${EDGE - 8} ${RULE}H${WIDTH - EDGE + 8}` }));
    svg.append(part("path", { class: "d-zone", fill: "url(#lining)", d: `M${left.toFixed(1)} ${ZONE}H${right.toFixed(1)}V${RULE}H${left.toFixed(1)}Z` }));
    for (const [at, side, text] of /** @type {[number | null, number, string | null][]} */ ([[low, left, drawn.min], [high, right, drawn.max]])) {
      if (at !== null) {
        svg.append(part("path", { class: "d-edge", d: `M${side.toFixed(1)} ${ZONE - 6}V${LINE + 6}` }));
        letter(svg, text ?? "", side, LABELS);
      }
    }
    spans.forEach((span, at) => {
      const now = at === spans.length - 1;
      const { group, middle } = flag(x, /** @type {[number, number]} */ (span), now);
      svg.append(group);
      const word = spans.length === 1 ? "read" : now ? "now" : "before";
      letter(svg, `${word} ${read[at]?.text ?? ""}`, middle, now ? 4 : -14, now ? "" : "d-small");
    });
    return svg;
  }

  globalThis.baybookPaperLine = { draw };
})();
