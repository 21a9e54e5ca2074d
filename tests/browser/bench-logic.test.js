// @ts-check
/* What the bench does without a page: the record, its words, the keys, the scale, what is stored. */
"use strict";

const assert = require("node:assert/strict");
const { describe, test } = require("node:test");
const { job, reading, verdict } = require("./bench.js");

const PLACE = { of: "lash.exhaust", where: "cylinder=front", when: "engine=cold" };

describe("the record", () => {
  test("typing goes on in one reading, a repeat is another, and the first stays", () => {
    const one = job();
    baybookRecord.write(one, reading({ text: "0.2 mm" }));
    baybookRecord.write(one, reading({ text: "0.27 mm" }));
    assert.equal(one.readings.length, 1);
    baybookRecord.settle(one);
    baybookRecord.write(one, reading({ text: "0.26 mm" }));
    assert.deepEqual(one.readings.map((read) => [read.no, read.text]), [[1, "0.27 mm"], [2, "0.26 mm"]]);
    assert.equal(baybookRecord.current(one, PLACE, 1)?.text, "0.26 mm");
    assert.deepEqual(baybookRecord.earlier(one, PLACE, 1).map((read) => read.text), ["0.27 mm"]);
  });

  test("a reading that was taken back is kept and marked; one never taken goes", () => {
    const one = job();
    baybookRecord.write(one, reading());
    baybookRecord.withdraw(one, PLACE, 1, "later");
    assert.equal(one.readings.length, 0);
    baybookRecord.write(one, reading());
    baybookRecord.settle(one);
    baybookRecord.withdraw(one, PLACE, 1, "later");
    assert.equal(one.readings.at(0)?.withdrawn, "later");
    assert.equal(baybookRecord.current(one, PLACE, 1), null);
    assert.deepEqual(baybookRecord.standing(one), []);
  });

  test("places of one row do not mix", () => {
    const one = job();
    baybookRecord.write(one, reading({ at: 1 }));
    baybookRecord.settle(one);
    baybookRecord.write(one, reading({ at: 2, judged: verdict({}) }));
    assert.deepEqual(baybookRecord.summary(one), { readings: 2, out: 1, undecided: 0, steps: 0, checks: 0 });
  });

  test("what was exported is read back as it was", () => {
    const one = job();
    baybookRecord.write(one, reading());
    baybookRecord.settle(one);
    one.states["engine=cold"] = { answer: "met", time: "now" };
    one.steps["valve-lash"] = { 3: "now" };
    const read = baybookRecord.parse(JSON.stringify(one));
    assert.deepEqual(read, { ok: true, job: one });
  });

  test("a damaged record is refused, whatever part of it is damaged", () => {
    const one = job();
    baybookRecord.write(one, reading({ gauge_facts: { title: "Feeler", kind: "length", span: "0.02..1 mm", resolution: null, error: "0.004 mm" } }));
    one.complaints["loses-charge"] = {
      title: "Battery goes flat",
      release: "2026.11",
      content: "abc",
      checks: [{ check: "load", title: "Load", result: "clear", time: "t", withdrawn: null }],
      found: { cause: "battery", title: "Battery weak", by: "said", time: "t" },
      confirmed: null,
    };
    const whole = JSON.stringify(one);
    /** @type {string[]} */
    const accepted = [];
    const damage = [7, "x".repeat(5000), null, [], {}, true];
    /** @param {any} node @param {(string | number)[]} way */
    const walk = (node, way) => {
      for (const key of Object.keys(node)) {
        for (const wrong of damage) {
          const copy = JSON.parse(whole);
          const parent = way.reduce((inner, step) => inner[step], copy);
          if (typeof wrong === typeof parent[key] && wrong !== null && Array.isArray(wrong) === Array.isArray(parent[key]) && typeof wrong !== "string") {
            continue;
          }
          parent[key] = wrong;
          const read = baybookRecord.parse(JSON.stringify(copy));
          // Nothing may be there, and be nothing; else a value of another shape is refused.
          if (read.ok && wrong !== null && !(key === "open" && way.length > 0)) {
            accepted.push([...way, key, JSON.stringify(wrong).slice(0, 9)].join("."));
          }
        }
        if (typeof node[key] === "object" && node[key] !== null) {
          walk(node[key], [...way, key]);
        }
      }
    };
    walk(one, []);
    assert.deepEqual(accepted, []);
    for (const text of ["", "null", "[]", "3", '{"format":"other"}', "{", '"baybook job record 1"']) {
      assert.equal(baybookRecord.parse(text).ok, false, text);
    }
  });
});

describe("the results of checks", () => {
  const complaint = { id: "loses-charge", title: "Battery goes flat", release: "2026.11", content: "abc" };
  const titled = (/** @type {string} */ check) => check.toUpperCase();
  const found = { cause: "stator", title: "Stator burnt", by: /** @type {const} */ ("checks"), time: "t3" };

  test("a result that is taken back or given otherwise is marked and kept", () => {
    const one = job();
    baybookChecked.write(one, complaint, { load: "clear" }, titled, null, "t1");
    baybookChecked.write(one, complaint, { load: "shown", drain: "clear" }, titled, null, "t2");
    assert.deepEqual(one.complaints["loses-charge"]?.checks, [
      { check: "load", title: "LOAD", result: "clear", time: "t1", withdrawn: "t2" },
      { check: "load", title: "LOAD", result: "shown", time: "t2", withdrawn: null },
      { check: "drain", title: "DRAIN", result: "clear", time: "t2", withdrawn: null },
    ]);
    assert.deepEqual(baybookChecked.results(one, "loses-charge"), { load: "shown", drain: "clear" });
    assert.deepEqual(baybookChecked.results(one, "other"), {});
    assert.deepEqual(baybookChecked.results(null, "loses-charge"), {});
    assert.equal(baybookRecord.summary(one).checks, 2);
  });

  test("a proof holds for the cause it was given for, and for no other", () => {
    const one = job();
    baybookChecked.confirm(one, "loses-charge", "t0");
    baybookChecked.write(one, complaint, { volts: "shown" }, titled, null, "t1");
    baybookChecked.confirm(one, "loses-charge", "t2");
    assert.equal(one.complaints["loses-charge"]?.confirmed, null, "nothing is found that could be proved");
    baybookChecked.write(one, complaint, { volts: "shown", stator: "shown" }, titled, found, "t3");
    baybookChecked.confirm(one, "loses-charge", "t4");
    baybookChecked.write(one, complaint, { volts: "shown", stator: "shown" }, titled, { ...found, time: "t5" }, "t5");
    assert.deepEqual([one.complaints["loses-charge"]?.confirmed, one.complaints["loses-charge"]?.found?.time], ["t4", "t3"]);
    const read = baybookRecord.parse(JSON.stringify(one));
    assert.ok(read.ok);
    assert.deepEqual(read.job.complaints, one.complaints);
    baybookChecked.write(one, complaint, { volts: "shown" }, titled, null, "t6");
    assert.equal(one.complaints["loses-charge"]?.confirmed, null);
  });

  test("the papers say what was checked in words, without shares", () => {
    const one = job();
    baybookChecked.write(one, complaint, { load: "clear", volts: "shown" }, titled, found, "2026-11-25T10:00:00.000Z");
    const owner = Object.fromEntries(baybookReport.owner(one));
    assert.deepEqual(owner["Checked"], ["checked: LOAD, not showing", "checked: VOLTS, showing"]);
    assert.deepEqual(owner["You told us"]?.[0], "Battery goes flat");
    assert.match(String(owner["Found"]?.[0]), /^Stator burnt; not yet/);
    baybookChecked.confirm(one, "loses-charge", "2026-11-25T12:00:00.000Z");
    assert.match(String(Object.fromEntries(baybookReport.owner(one))["Found"]?.[0]), /^Stator burnt; repaired, and the complaint is gone$/);
    const shop = Object.fromEntries(baybookReport.shop(one));
    assert.match(shop["Checks"]?.join("|") ?? "", /Battery goes flat, by release 2026\.11\|.*LOAD: not showing\|.*Cause: Stator burnt, the only one the checks leave.*\|Repair proved/);
  });

  test("a record of the first format is read, and asks for no more than it did", () => {
    const one = JSON.parse(JSON.stringify(job()));
    baybookRecord.write(one, reading());
    one.format = "baybook job record 1";
    delete one.complaints;
    delete one.readings[0].asks;
    const read = baybookRecord.parse(JSON.stringify(one));
    assert.ok(read.ok);
    assert.deepEqual([read.job.format, read.job.readings[0]?.asks, read.job.complaints], ["baybook job record 2", "engine=cold", {}]);
    assert.equal(baybookRecord.parse('{"format":"baybook job record 1","readings":[null,3]}').ok, false);
  });
});

describe("the words of a verdict", () => {
  test("each has its own sign and word", () => {
    const say = (/** @type {Partial<Verdict>} */ parts) => baybookWords.say(verdict(parts));
    assert.deepEqual(say({}), { mark: "in", word: "In spec", detail: "Judged by the window" });
    assert.deepEqual(say({ verdict: "out of spec", direction: "tight", by: { min: "0.03", max: "0.05", unit: "mm" } }), {
      mark: "out",
      word: "Out of spec",
      detail: "Tight by 0.03 to 0.05 mm · judged by the window",
    });
    assert.equal(say({ verdict: "out of spec", direction: "loose", by: { min: "0.1", max: null, unit: "mm" } }).detail, "Loose by at least 0.1 mm · judged by the window");
    assert.equal(say({ against: "wear_limit", left: { min: "0.02", max: "0.02", unit: "mm" } }).detail, "0.02 mm left to the wear limit");
    assert.deepEqual(say({ verdict: "too close to call", as_read: "in spec", direction: "high", settle: "a finer gauge" }), {
      mark: "close",
      word: "Too close to call",
      detail: "As read in spec · a finer gauge",
    });
    assert.deepEqual(say({ verdict: "cannot judge", because: "nobody said" }), { mark: "none", word: "Cannot judge", detail: "Nobody said" });
  });

  test("a number without an end is cut, and says so", () => {
    assert.equal(baybookWords.number("0.06"), "0.06");
    assert.equal(baybookWords.number("127/5000"), "about 0.0254");
    assert.equal(baybookWords.number("1/3"), "about 0.333");
  });

  test("a condition reads as people say it", () => {
    assert.deepEqual(baybookWords.condition("air=under 30 °C;engine=cold"), ["air under 30 °C", "engine cold"]);
    assert.deepEqual(baybookWords.condition(""), []);
  });
});

describe("the keys", () => {
  test("digits, one point, and back, at the cursor and over what is marked", () => {
    const press = baybookKeys.press;
    assert.deepEqual(press("", 0, 0, "."), { text: ".", at: 1 });
    assert.deepEqual(press("0.2", 3, 3, "7"), { text: "0.27", at: 4 });
    assert.deepEqual(press("0.2", 3, 3, "."), { text: "0.2", at: 3 });
    assert.deepEqual(press("0,2", 3, 3, "."), { text: "0,2", at: 3 });
    assert.deepEqual(press("0.27", 0, 4, "3"), { text: "3", at: 1 });
    assert.deepEqual(press("0.27", 1, 1, "back"), { text: ".27", at: 0 });
    assert.deepEqual(press("", 0, 0, "back"), { text: "", at: 0 });
    assert.deepEqual(press("0.27", 9, -3, "x"), { text: "0.27", at: 4 });
  });

  test("the sign turns the whole number, wherever the cursor stands", () => {
    const { press } = baybookKeys;
    assert.deepEqual(press("2.5", 1, 1, "minus"), { text: "-2.5", at: 4 });
    assert.deepEqual(press("-2.5", 0, 4, "minus"), { text: "2.5", at: 3 });
    assert.deepEqual(press("\u22122.5", 4, 4, "minus"), { text: "2.5", at: 3 });
    assert.deepEqual(press("", 0, 0, "minus"), { text: "-", at: 1 });
    assert.deepEqual(press("-", 1, 1, "3"), { text: "-3", at: 2 });
  });

  test("only a digit is something to judge", () => {
    assert.deepEqual(["", ".", "-", " ", "0", ".3"].map(baybookKeys.complete), [false, false, false, false, true, true]);
  });
});

describe("the scale of a drawing", () => {
  test("a reading stands where the drawing has it", () => {
    const middle = baybookScale.place("0.095 0.305", 0.2, 0.2);
    assert.deepEqual([Math.round(middle?.from ?? 0), middle?.off], [180, null]);
    assert.deepEqual(baybookScale.place("0 1", 2, 2), { from: 356, to: 356, off: "above" });
    assert.equal(baybookScale.place("0 1", -2, -1)?.off, "below");
    assert.deepEqual([baybookScale.place("", 1, 1), baybookScale.place(null, 1, 1), baybookScale.place("1 1", 1, 1)], [null, null, null]);
  });

  test("exact numbers become places", () => {
    assert.deepEqual(["0.25", "1/4", "-2", "x", null, "1/0"].map((one) => baybookScale.value(one)), [0.25, 0.25, -2, null, null, null]);
  });
});

describe("what is stored", () => {
  /** @param {Map<string, string>} kept @returns {any} */
  const storage = (kept) => ({ getItem: (/** @type {string} */ key) => kept.get(key) ?? null, setItem: (/** @type {string} */ key, /** @type {string} */ value) => kept.set(key, value) });

  test("a job comes back, and another handbook does not see it", () => {
    const kept = new Map();
    const one = job();
    baybookRecord.write(one, reading());
    baybookStorage.open(() => storage(kept), "A").save({ job: one, closed: [job()], undo: { words: "did", job: null, away: null } }, true);
    const read = baybookStorage.open(() => storage(kept), "A").load();
    assert.equal(read.job?.readings[0]?.text, "0.27 mm");
    assert.deepEqual([read.closed.length, read.undo], [1, { words: "did", job: null, away: null }]);
    assert.deepEqual(baybookStorage.open(() => storage(kept), "B").load(), { job: null, closed: [], undo: null });
  });

  test("what is damaged is as nothing, and a refusal is said", () => {
    for (const text of ["", "{", "null", '{"job":{"format":"x"}}', '{"job":7,"closed":3,"undo":4}']) {
      const kept = new Map([["baybook.job.A", text], ["baybook.closed.A", text], ["baybook.bench.A", text]]);
      const store = baybookStorage.open(() => storage(kept), "A");
      assert.deepEqual(store.load(), { job: null, closed: [], undo: null });
      assert.deepEqual(store.settings(), { hand: "right", keypad: null, form: "printed" });
    }
    const denied = baybookStorage.open(() => {
      throw new Error("denied");
    }, "A");
    denied.save({ job: null, closed: [], undo: null });
    assert.equal(denied.works(), false);
  });
});

describe("the end of a procedure", () => {
  const OPEN = [{ what: "Plug out", from: "2", until: "4" }];

  test("what a ticked step opened stays open until its step closes it", () => {
    assert.deepEqual(baybookEnds.leftOpen(OPEN, { 1: "t" }), []);
    assert.deepEqual(baybookEnds.leftOpen(OPEN, { 1: "t", 2: "t", 3: "t" }), OPEN);
    assert.deepEqual(baybookEnds.leftOpen(OPEN, { 2: "t", 4: "t" }), []);
  });

  test("whatever is missing is named, and nothing is missing only when all is there", () => {
    const steps = ["1", "2", "3"];
    const whole = { 1: "t", 2: "t", 3: "t" };
    const missing = baybookEnds.missing;
    assert.deepEqual(missing({ steps, ticked: whole, open: [], readings: [{ title: "Lash", judged: "in spec" }] }), []);
    assert.deepEqual(missing({ steps, ticked: { 1: "t" }, open: [], readings: [] }), ["steps 2, 3 not ticked"]);
    assert.deepEqual(missing({ steps, ticked: whole, open: OPEN, readings: [{ title: "Lash", judged: null }, { title: "Gap", judged: "out of spec" }, { title: "Volts", judged: "cannot judge" }] }), [
      "left open: Plug out (step 4)",
      "no reading of Lash",
      "out of spec: Gap",
      "not judged: Volts",
    ]);
  });
});

describe("the papers", () => {
  test("the age of the data is an age, by the device’s own day", () => {
    const one = job();
    const age = (/** @type {[number, number, number]} */ ...day) => Object.fromEntries(baybookReport.owner(one, new Date(...day)))["Age of the data"]?.[0];
    one.base.date = "2026-11-25";
    assert.equal(age(2026, 10, 25), "Release 2026.11 of 2026-11-25, 0 days old on 2026-11-25");
    assert.equal(age(2026, 10, 26), "Release 2026.11 of 2026-11-25, 1 day old on 2026-11-26");
    assert.equal(age(2027, 0, 24), "Release 2026.11 of 2026-11-25, 60 days old on 2027-01-24");
    assert.equal(age(2027, 0, 25), "Release 2026.11 of 2026-11-25, 2 months old on 2027-01-25");
    assert.equal(age(2028, 10, 24), "Release 2026.11 of 2026-11-25, 23 months old on 2028-11-24");
    assert.equal(age(2026, 10, 24), "Release 2026.11 of 2026-11-25, dated later than this device’s day, 2026-11-24");
    one.base.date = "soon";
    assert.match(age(2026, 10, 24) ?? "", /of an unknown age/);
  });

  test("a job that nobody wrote in says so in plain words, and claims nothing of what was seen", () => {
    const text = [...baybookReport.owner(job()), ...baybookReport.shop(job())].map(([head, lines]) => `${head}: ${lines.join("; ")}`).join("\n");
    assert.doesNotMatch(text, /written in|nothing seen/);
    assert.match(text, /^Do not ride: nothing noted$/m);
    assert.match(text, /Serial number: not noted/);
  });

  test("the owner reads before and now in plain words; the shop keeps every reading", () => {
    const one = job();
    baybookRecord.write(one, reading({ text: "0.27 mm" }));
    baybookRecord.settle(one);
    baybookRecord.write(one, reading({ text: "0.24 mm", typed: { value: "0.24", unit: "mm" }, judged: verdict({}), initials: "mk" }));
    baybookRecord.settle(one);
    one.open["valve-lash"] = ["Spark plugs out"];
    one.written["complaint"] = "Ticks when cold";
    const owner = new Map(baybookReport.owner(one));
    const plain = (/** @type {string | undefined} */ text) => text?.replaceAll("\u00a0", " ");
    assert.match(String(owner.get("Measured")), /now 0\.24\u00a0mm, .*\(0\.23\u00a0±\u00a00\.02\u00a0mm\)/);
    assert.deepEqual(owner.get("Measured")?.map(plain), ["Exhaust valve lash, cylinder front: before 0.27 mm, now 0.24 mm, within the maker’s limits (0.23 ± 0.02 mm)"]);
    assert.match(String(owner.get("You told us")), /Ticks when cold/);
    assert.deepEqual(owner.get("Not checked"), ["nothing noted"]);
    const rows = baybookReport.readings(one);
    assert.deepEqual(rows.map((cells) => cells.length), [baybookReport.HEADS.length, baybookReport.HEADS.length]);
    assert.deepEqual(rows.map((cells) => [plain(cells[2]), cells[4]]), [
      ["0.27 mm (repeated later)", "Out of spec. Loose by 0.02 mm · judged by the window"],
      ["0.24 mm", "In spec. Judged by the window"],
    ]);
    assert.deepEqual(new Map(baybookReport.shop(one)).get("Left open"), ["STILL OPEN: valve-lash: Spark plugs out"]);
  });
});
