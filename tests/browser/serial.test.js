// @ts-check
/* The handbook's script is held against the same vectors as the compiler. */
"use strict";

const assert = require("node:assert/strict");
const fs = require("node:fs");
const path = require("node:path");
const test = require("node:test");
const vm = require("node:vm");

const script = path.join(__dirname, "../../site/serial.js");
vm.runInThisContext(fs.readFileSync(script, "utf8"), script);

const file = path.join(__dirname, "../vectors/serial.json");
const { tables, vectors } = JSON.parse(fs.readFileSync(file, "utf8"));

test("there are vectors", () => {
  assert.ok(vectors.length > 30);
});

for (const { table, serial, row, unsure = false } of vectors) {
  test(`${JSON.stringify(serial)} in ${table}`, () => {
    const expected = row === null ? { row: null, unsure } : { row };
    assert.deepEqual(baybookSerial.which(tables[table], serial), expected);
  });
}
