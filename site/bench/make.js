// @ts-check
/* Makes elements. Texts are set as texts, never as markup. */
(() => {
  "use strict";

  /**
   * @template {keyof HTMLElementTagNameMap} K
   * @param {K} tag
   * @param {Record<string, string | boolean | null>} [attributes] false and null are left out
   * @param {...(Node | string)} children
   * @returns {HTMLElementTagNameMap[K]}
   */
  function make(tag, attributes = {}, ...children) {
    const element = document.createElement(tag);
    for (const [name, value] of Object.entries(attributes)) {
      if (value !== false && value !== null) {
        element.setAttribute(name, value === true ? "" : value);
      }
    }
    element.append(...children);
    return element;
  }

  globalThis.baybookMake = make;
})();
