// npm's ajv accepts and refuses the same files by our schemas as Baybook does.
//
// usage: node validate.mjs REPOSITORY

import { readFileSync, readdirSync } from "node:fs";
import { createRequire } from "node:module";
import { join, resolve } from "node:path";
import { parse } from "smol-toml";

const require = createRequire(import.meta.url);
const Ajv = require("ajv/dist/2020").default;

const KINDS = [
  "base", "catalogue", "hazards", "sources", "gauges", "machines", "engine", "codes", "procedure", "complaint",
  "rereads", "ids", "relations", "shims",
];

/** A file as JSON: dates are strings, a procedure is its front matter. */
function read(path) {
  const text = readFileSync(path, "utf8");
  const toml = path.endsWith(".md") ? text.split("+++\n")[1] : text;
  return asJson(parse(toml));
}

function asJson(value) {
  if (value instanceof Date) return value.toISOString();
  if (Array.isArray(value)) return value.map(asJson);
  if (value && typeof value === "object") {
    return Object.fromEntries(Object.entries(value).map(([key, one]) => [key, asJson(one)]));
  }
  return value;
}

const root = resolve(process.argv[2]);
let passed = 0;
const failures = [];
for (const kind of KINDS) {
  const schema = JSON.parse(readFileSync(join(root, "schemas", `${kind}.schema.json`), "utf8"));
  const validate = new Ajv({ strict: true, strictTypes: false, strictRequired: false }).compile(schema);
  for (const verdict of ["accept", "refuse"]) {
    const folder = join(root, "tests/outside/schemas", kind, verdict);
    for (const name of readdirSync(folder)) {
      if (validate(read(join(folder, name))) === (verdict === "accept")) passed += 1;
      else failures.push(`${kind}/${verdict}/${name}`);
    }
  }
}
for (const failure of failures) console.log("FAILED", failure);
console.log(`${passed} passed, ${failures.length} failed`);
process.exit(failures.length || passed < 100 ? 1 : 0);
