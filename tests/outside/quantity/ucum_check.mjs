// Checks the UCUM codes of the vectors against ucum-lhc, an independent reader of that code.
//
//     npm install --no-save @lhncbc/ucum-lhc
//     node tests/outside/quantity/ucum_check.mjs tests/vectors/convert.json
//
// Every code must be valid UCUM and of our size to 1e-9 relative (the library is binary floating
// point). Its metre of mercury is UCUM's own, 2.9e-6 off the conventional one: held to 1e-5.

import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { resolve } from "node:path";

const require = createRequire(resolve("package.json"));
const ucum = require("@lhncbc/ucum-lhc").UcumLhcUtils.getInstance();

const SI = {
  "m²": "m2", "m³": "m3", "N·m": "N.m", "°": "deg", "rpm": "{rev}/min", "Ω": "Ohm", "m³/s": "m3/s",
  "turns": "{turn}",
};

/** @param {string} text a decimal or a fraction `n/d` */
function number(text) {
  const [numerator, denominator = "1"] = text.split("/");
  return Number(numerator) / Number(denominator);
}

/** What is wrong with a unit's code, or null. */
function fault(unit) {
  const state = ucum.validateUnitString(unit.ucum);
  if (state.status !== "valid") return `"${unit.ucum}" is ${state.status}: ${state.msg}`;
  const found = ucum.convertUnitTo(unit.ucum, 100, SI[unit.si] ?? unit.si);
  if (found.status !== "succeeded") return `"${unit.ucum}" into ${unit.si}: ${found.msg}`;
  const due = 100 * number(unit.factor) + number(unit.zero);
  const allowed = unit.ucum.includes("Hg") ? 1e-5 : 1e-9;
  const off = Math.abs(found.toVal - due) / Math.abs(due);
  return off <= allowed ? null : `"${unit.ucum}" is ${found.toVal}, ours ${due}`;
}

let passed = 0;
let failed = 0;
for (const unit of JSON.parse(readFileSync(process.argv[2], "utf8")).units) {
  const wrong = fault(unit);
  if (wrong === null) {
    passed += 1;
  } else {
    failed += 1;
    console.error(`FAILED ${unit.symbol}: ${wrong}`);
  }
}
console.log(`${passed} passed, ${failed} failed`);
process.exit(failed > 0 || passed === 0 ? 1 : 0);
