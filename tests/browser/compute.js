// @ts-check
/* Loads the scripts of `site/compute` as a sheet does: in the order of the table of assets. */
"use strict";

const fs = require("node:fs");
const path = require("node:path");
const vm = require("node:vm");

const site = path.join(__dirname, "../../site");
const table = fs.readFileSync(path.join(__dirname, "../../src/emit/handbook/assets.rs"), "utf8");
const listed = ["compute", "order", "sums", "shims"].map((name) => new RegExp(`"${name}\\.js": \\[([^\\]]*)\\]`).exec(table)?.[1] ?? "");
const files = [...listed.join("").matchAll(/"(compute\/[^"]+)"/g)];
const scripts = files.map((match) => path.join(site, match[1] ?? ""));
for (const script of scripts) {
  vm.runInThisContext(fs.readFileSync(script, "utf8"), script);
}

/**
 * What a file of `tests/vectors` holds.
 * @param {string} name
 */
const vectors = (name) => JSON.parse(fs.readFileSync(path.join(__dirname, "../vectors", name), "utf8"));

module.exports = { scripts, vectors };
