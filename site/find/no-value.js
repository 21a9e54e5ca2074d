// @ts-check
/*
 * Why a text is no value is not said in the find, so the words for it are not loaded: whatever is wrong with it, it
 * is refused. Where the bench is, its own `compute/problems.js` takes this place.
 */
(() => {
  "use strict";
  const compute = globalThis.baybookCompute;
  const refuse = () => new compute.Refusal("this is no value", "");
  compute.problems ??= /** @type {any} */ (new Proxy({}, { get: () => refuse }));
})();
