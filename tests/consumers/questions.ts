// Ten questions to a bundle, answered from its JSON with the types that it ships. Checked by `tsc --strict`,
// and run as it stands after the types are taken out. usage: node questions.js BUNDLE

import { readFileSync, readdirSync } from "node:fs";
import type { Catalogue, Changes, Engine, Fit, Ids, Machines, Range, Sources, Spec, Unit } from "./baybook";

const bundle = process.argv[2] ?? "";
const part = <T>(name: string): T => JSON.parse(readFileSync(`${bundle}/${name}`, "utf8")) as T;
const engines = readdirSync(`${bundle}/engines`).sort().map((name) => part<Engine>(`engines/${name}`));
const builds = engines.flatMap((engine) => engine.builds);
const specs: Array<[string, Spec]> = builds.flatMap((build) => build.specs.map((spec): [string, Spec] => [build.id, spec]));
const kinds = new Map(part<Catalogue>("catalogue.json").groups.flatMap((group) => group.entries.map((entry) => [entry.id, entry.kind])));
const ids = part<Ids>("ids.json");
const sources = new Map(part<Sources>("sources.json").sources.map((source) => [source.id, source]));
const words = (pairs: Record<string, string>) => Object.keys(pairs).sort().map((key) => `${key}=${pairs[key]}`).join(";");
const unit: Unit<"length"> = "mm";

function now(old: string): string[] {
  const retired = ids.retired.find((one) => one.id === old);
  return retired ? retired.to.flatMap(now) : [old];
}

function fits(fit: Fit, prefix: string, number: number): boolean {
  const { serial } = fit;
  return serial !== null && serial.prefix === prefix && (serial.from ?? 0) <= number && number <= (serial.to ?? Infinity);
}

/** The builds of a serial number: by the span that names it, else by the row for all others. */
function mayHave(fitted: Fit[], year: number, prefix: string, number: number): string[] {
  const ofYear = fitted.filter((fit) => fit.from_year <= year && year <= fit.to_year);
  const named = ofYear.filter((fit) => fits(fit, prefix, number));
  return (named.length > 0 ? named : ofYear.filter((fit) => fit.serial === null)).map((fit) => fit.build);
}

/** True if an exact number is at most n/10^d: whole numbers alone, never a float. */
function atMost(exact: string, n: bigint, d: number): boolean {
  const [whole = "0", below = "1"] = exact.split("/");
  const [left = "0", right = ""] = whole.split(".");
  return BigInt(left + right) * 10n ** BigInt(d) <= n * BigInt(below) * 10n ** BigInt(right.length);
}

const unique = (all: string[]) => [...new Set(all)].sort();
const first = (range: Range<"length"> | undefined) => range?.printed[0]?.text ?? "";
const machine = part<Machines>("machines.json").machines.find((one) => one.id === "tarnhawk-887");
const named = (of: (spec: Spec) => boolean) => specs.filter(([, spec]) => of(spec)).map(([build, spec]) => `${build} ${spec.of} ${words(spec.where)}`).sort();
const isLength = (spec: Spec): spec is Spec<"length"> => kinds.get(spec.of) === "length";
const lash = (wanted: string, of: string) => specs.filter(([build, spec]) => build === wanted && spec.of === of).map(([, spec]) => spec).filter(isLength).map((spec) => `${words(spec.where)} ${first(spec.window ?? undefined)}`).sort();
const answers = {
  "lash of a build": lash("ox-887~sb-23-11", "lash.exhaust"),
  "build of a serial number": Object.fromEntries([500, 2500].map((number) => [`TH22-${number}`, mayHave(machine?.fits ?? [], 2022, "TH22-", number)])),
  "what a moved id is now": { id: now("clearance.inlet"), lash: now("ox-887~sb-21-09").flatMap((build) => now("clearance.inlet").flatMap((entry) => lash(build, entry))) },
  "what a split id is now": now("charging-and-drain").sort(),
  "unconfirmed torques": named((spec) => spec.of.startsWith("torque.") && ["read-once", "differs"].includes(spec.confirmation.state)),
  "statements by engine": Object.fromEntries(engines.map((engine) => [engine.id, engine.builds.reduce((sum, build) => sum + build.specs.length, 0)])),
  withheld: named((spec) => typeof spec.withheld === "string"),
  "where it was read": unique(specs.filter(([, spec]) => spec.of === "lash.exhaust" && spec.source.id !== null).map(([, spec]) => `${sources.get(spec.source.id ?? "")?.title}, page ${spec.source.page}`)),
  "plug gaps up to 0.75 mm": unique(specs.filter(([, spec]) => spec.of === "plug.gap" && spec.window?.max && atMost(spec.window.max.si, 75n, 5)).map(([build]) => build)),
  "limits tightened": part<Changes>("changes.json").changes.filter((one) => one.kind === "tightened").map((one) => `${one.engine} ${one.of} ${words(one.where)} ${one.after}`).sort(),
};
if (part<Catalogue>("catalogue.json").groups.length === 0 || unit !== "mm") throw new Error("no catalogue");
console.log(JSON.stringify(answers));
