// @ts-check
/* Loads scripts of the bench that know no DOM, in the order of the table of assets. */
"use strict";

const fs = require("node:fs");
const path = require("node:path");
const vm = require("node:vm");

const site = path.join(__dirname, "../../site/bench");
for (const name of ["record", "condition", "words", "recall", "keys", "scale", "storage", "ends", "checked", "report", "verdict", "today"]) {
  const script = path.join(site, `${name}.js`);
  vm.runInThisContext(fs.readFileSync(script, "utf8"), script);
}

/** A reading as the bench writes it. @param {Partial<Reading>} parts */
function reading(parts = {}) {
  return /** @type {Omit<Reading, "no" | "open" | "withdrawn">} */ ({
    of: "lash.exhaust",
    where: "cylinder=front",
    when: "engine=cold",
    asks: "engine=cold",
    at: 1,
    typed: { value: "0.27", unit: "mm" },
    text: "0.27 mm",
    gauge: null,
    gauge_facts: null,
    fitting: null,
    state: "met",
    time: "2026-11-25T10:00:00.000Z",
    initials: null,
    title: "Exhaust valve lash",
    limits: { window: ["0.23 ± 0.02 mm"], new: [], wear_limit: [], below: "tight", above: "loose" },
    judged: verdict({ verdict: "out of spec", direction: "loose", by: { min: "0.02", max: "0.02", unit: "mm" } }),
    release: "2026.11",
    content: "abc",
    ...parts,
  });
}

/** @param {Partial<Verdict>} parts @returns {Verdict} */
function verdict(parts) {
  return { verdict: "in spec", as_read: null, direction: null, by: null, against: "window", left: null, settle: null, because: null, ...parts };
}

const base = { title: "Base", release: "2026.11", date: "2026-11-25", content: "abc" };
const build = { id: "ox-887", hash: "123", engine: "Oxbarrow 887", machine: "Tarnhawk 887" };
const job = () => baybookRecord.create(base, build, "2026-11-25T09:00:00.000Z");

module.exports = { reading, verdict, job };
