// @ts-check
/* The handbook's script reads and converts values as the compiler does: the same vectors hold both. */
"use strict";

const assert = require("node:assert/strict");
const test = require("node:test");
const { scripts, vectors } = require("./compute.js");

const { units, conversions } = vectors("convert.json");
const { Rational, Value } = baybookCompute;

/** @param {string | null} text */
const exact = (text) => (text === null ? null : (Rational.parse(text)?.text() ?? "unread"));

test("the scripts are listed and there are vectors", () => {
  assert.ok(scripts.length >= 4);
  assert.ok(conversions.length > 1000 && units.length > 100);
});

test("every unit has its exact size", () => {
  assert.deepEqual(
    baybookCompute.units.all.map((unit) => [unit.symbol, unit.kind, unit.factor.text(), unit.offset.text()]),
    units.map((/** @type {Record<string, string>} */ unit) => [unit.symbol, unit.kind, unit.factor, unit.zero]),
  );
});

test("a value is read with its limits and written one way", () => {
  for (const row of conversions) {
    const value = Value.parse(row.value);
    assert.equal(value.text(), row.value);
    assert.equal(value.unit.symbol, row.unit, row.value);
    assert.equal(value.min()?.exact.text() ?? null, exact(row.min), row.value);
    assert.equal(value.max()?.exact.text() ?? null, exact(row.max), row.value);
    assert.equal(value.ulp().text(), row.finest, row.value);
  }
});

test("what does not convert says what both units measure, in the command's words", () => {
  const refused = baybookCompute.convert("+90°", "turns");
  const error = { message: "`°` does not convert into `turns`", help: "° is a unit of angle, turns is a unit of turns" };
  assert.deepEqual(refused, { error });
});

test("a conversion has the same text and the same exact ends", () => {
  for (const row of conversions) {
    const expected = { ...row.shown, unit: row.to, exact: row.exact };
    assert.deepEqual(baybookCompute.convert(row.value, row.to), expected, `${row.value} in ${row.to}`);
  }
});
