// @ts-check
/* The state that a reading asks for, and how people say it. No DOM here but the hooks of a row. */
(() => {
  "use strict";

  /**
   * `engine=cold;air=under 35 °C` as people say it.
   * @param {string} when
   */
  function condition(when) {
    const pairs = when.split(";").filter((pair) => pair !== "");
    return pairs.map((pair) => pair.replace("=", " ").replace(/([a-z])-(?=[a-z])/g, "$1 "));
  }

  /**
   * Asked in one question: the state that the limits are meant for, and what any reading of it needs.
   * @param {HTMLElement} row
   */
  const asks = ({ dataset: { when = "", needs = "" } }) => [when, needs].filter((one) => one !== "").join(";");

  globalThis.baybookCondition = { words: condition, asks };
})();
