// npm's ajv holds every JSON file of a bundle to the schema that is shipped beside it, and refuses the file once a
// key that must be there is gone or holds something else. usage: node valid.mjs BUNDLE...

import { readFileSync, readdirSync } from "node:fs";
import { createRequire } from "node:module";
import { join } from "node:path";

const require = createRequire(import.meta.url);
const Ajv = require("ajv/dist/2020").default;

// Described by its own standard, and held to it by `frictionless validate`.
const other = ["datapackage.json"];
const read = (path) => JSON.parse(readFileSync(path, "utf8"));
let passed = 0;
const failures = [];
const used = new Set();
for (const bundle of process.argv.slice(2)) {
  const names = [...readdirSync(bundle), ...readdirSync(join(bundle, "engines")).map((name) => `engines/${name}`)];
  for (const name of names.filter((one) => one.endsWith(".json") && !other.includes(one)).sort()) {
    const kind = name.startsWith("engines/") ? "engine" : name.replace(".json", "");
    const schema = read(join(bundle, "schemas", "bundle", `${kind}.schema.json`));
    const validate = new Ajv({ strict: true, strictTypes: false, strictRequired: false, validateFormats: false }).compile(schema);
    used.add(kind);
    const value = read(join(bundle, name));
    if (validate(value)) passed += 1;
    else failures.push(`${bundle}/${name}: ${JSON.stringify(validate.errors?.slice(0, 3))}`);
    for (const key of schema.required) {
      const { [key]: gone, ...less } = value;
      for (const [said, spoilt] of [[`without ${key}`, less], [`with another ${key}`, { ...value, [key]: 0.5 }]]) {
        if (validate(spoilt)) failures.push(`${bundle}/${name}: accepted ${said}`);
        else passed += 1;
      }
    }
  }
}
for (const failure of failures.slice(0, 40)) console.log("FAILED", failure);
console.log(`${passed} passed, ${failures.length} failed, ${used.size} schemas`);
// Every schema of a bundle has a file somewhere.
process.exit(failures.length || used.size < 15 ? 1 : 0);
