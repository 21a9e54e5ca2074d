// @ts-check
/* What a script means, however it is written: for what is slimmed when the handbook is. */
"use strict";

const { parse } = require("acorn");
const { analyze } = require("eslint-scope");

/** Where a tree holds how it is written and not what it means; `{ a }` may have become `{ a: b }`. */
const WRITING = new Set(["start", "end", "range", "raw", "shorthand"]);

/** A script's tree, where each name of its own is the place of its declaration. @param {string} text */
function tree(text) {
  const program = parse(text, { ecmaVersion: 2022, ranges: true });
  const { scopes } = analyze(/** @type {any} */ (program), { ecmaVersion: 2022, sourceType: "script" });
  scopes.forEach((scope, at) => {
    // The names of all scripts on a sheet meet in the outermost scope: those stay.
    const own = scope.type === "global" ? [] : scope.variables;
    own.forEach((variable, place) => {
      const uses = [...variable.identifiers, ...variable.references.map((one) => one.identifier)];
      uses.forEach((node) => Object.assign(node, { name: `${at}.${place}` }));
    });
  });
  return JSON.stringify(program, (key, value) => {
    if (WRITING.has(key)) {
      return undefined;
    }
    // A text is the same in whatever quotes.
    const isText = value?.type === "TemplateLiteral" && value.expressions.length === 0;
    return isText ? { type: "Literal", value: value.quasis[0].value.cooked } : typeof value === "bigint" ? `${value}n` : value;
  });
}

module.exports = { tree };
