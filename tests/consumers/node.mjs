// Ten questions to a bundle, answered from its JSON by plain JavaScript. usage: node node.mjs BUNDLE

import { readFileSync, readdirSync } from "node:fs";

const bundle = process.argv[2];
const part = (name) => JSON.parse(readFileSync(`${bundle}/${name}`, "utf8"));
const engines = readdirSync(`${bundle}/engines`).sort().map((name) => part(`engines/${name}`));
const specs = engines.flatMap((engine) => engine.builds.flatMap((build) => build.specs.map((spec) => ({ build: build.id, ...spec }))));
const titles = Object.fromEntries(part("sources.json").sources.map((source) => [source.id, source.title]));
const retired = Object.fromEntries(part("ids.json").retired.map((one) => [one.id, one.to]));
const now = (id) => retired[id]?.flatMap(now) ?? [id];
const words = (pairs) => Object.keys(pairs).sort().map((key) => `${key}=${pairs[key]}`).join(";");
const name = (spec) => `${spec.build} ${spec.of} ${words(spec.where)}`;
const machine = part("machines.json").machines.find((one) => one.id === "tarnhawk-887");
const has = ({ serial }, number) => serial?.prefix === "TH22-" && number >= (serial.from ?? 0) && number <= (serial.to ?? Infinity);
const lash = specs.filter((spec) => spec.of === "lash.exhaust");
const lashOf = (build, entry) => specs.filter((spec) => spec.build === build && spec.of === entry).map((spec) => `${words(spec.where)} ${spec.window.printed[0].text}`).sort();
// The span that names a serial number, else the row for all others.
const ofYear = machine.fits.filter((fit) => fit.from_year <= 2022 && fit.to_year >= 2022);
const mayHave = (number) => {
  const named = ofYear.filter((fit) => has(fit, number));
  return (named.length > 0 ? named : ofYear.filter((fit) => fit.serial === null)).map((fit) => fit.build);
};

console.log(JSON.stringify({
  "lash of a build": lashOf("ox-887~sb-23-11", "lash.exhaust"),
  "build of a serial number": Object.fromEntries([500, 2500].map((number) => [`TH22-${number}`, mayHave(number)])),
  "what a moved id is now": { id: now("clearance.inlet"), lash: now("ox-887~sb-21-09").flatMap((build) => now("clearance.inlet").flatMap((entry) => lashOf(build, entry))) },
  "what a split id is now": now("charging-and-drain").sort(),
  "unconfirmed torques": specs.filter((spec) => /^torque\./.test(spec.of) && /^(read-once|differs)$/.test(spec.confirmation.state)).map(name).sort(),
  "statements by engine": Object.fromEntries(engines.map((engine) => [engine.id, engine.builds.flatMap((build) => build.specs).length])),
  withheld: specs.filter((spec) => spec.withheld).map(name).sort(),
  "where it was read": [...new Set(lash.filter((spec) => spec.source.id).map((spec) => `${titles[spec.source.id]}, page ${spec.source.page}`))].sort(),
  // A plain number will do for a list; what is judged takes the exact text.
  "plug gaps up to 0.75 mm": [...new Set(specs.filter((spec) => spec.of === "plug.gap" && Number(spec.window?.max?.si) <= 0.00075).map((spec) => spec.build))].sort(),
  "limits tightened": part("changes.json").changes.filter((one) => one.kind === "tightened").map((one) => `${one.engine} ${one.of} ${words(one.where)} ${one.after}`).sort(),
}));
