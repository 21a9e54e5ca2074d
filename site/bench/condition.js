// @ts-check
/* The state that a limit asks for, in words. No DOM here. */
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

  globalThis.baybookCondition = condition;
})();
