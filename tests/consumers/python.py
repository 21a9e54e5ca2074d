"""Ten questions to a bundle, answered from its JSON with Python's standard library alone.

usage: python.py BUNDLE
"""

import json
import sys
from fractions import Fraction
from pathlib import Path

bundle = Path(sys.argv[1])
part = lambda name: json.loads((bundle / name).read_text(encoding="utf-8"))
engines = [json.loads(path.read_text(encoding="utf-8")) for path in sorted((bundle / "engines").iterdir())]
builds = {build["id"]: build for engine in engines for build in engine["builds"]}
entries = {entry["id"]: entry for group in part("catalogue.json")["groups"] for entry in group["entries"]}
sources = {source["id"]: source for source in part("sources.json")["sources"]}
ids = part("ids.json")
words = lambda pairs: ";".join(f"{key}={pairs[key]}" for key in sorted(pairs))
specs = [(build, spec) for build in builds for spec in builds[build]["specs"]]


def now(old):
    """What an id is now: itself unless it was retired."""
    for retired in ids["retired"]:
        if retired["id"] == old:
            return [new for to in retired["to"] for new in now(to)]
    return [old]


def fits(fit, prefix, number):
    serial = fit["serial"]
    return serial and serial["prefix"] == prefix and (serial["from"] or 0) <= number and (serial["to"] is None or number <= serial["to"])


def may_have(machine, year, prefix, number):
    """The builds of a serial number: by the span that names it, else by the row for all others."""
    of_year = [fit for fit in machine["fits"] if fit["from_year"] <= year <= fit["to_year"]]
    named = [fit for fit in of_year if fits(fit, prefix, number)]
    return [fit["build"] for fit in named or [fit for fit in of_year if fit["serial"] is None]]


def lash(build, entry):
    return sorted(f"{words(s['where'])} {s['window']['printed'][0]['text']}" for b, s in specs if b == build and s["of"] == entry)


machine = next(one for one in part("machines.json")["machines"] if one["id"] == "tarnhawk-887")
gap = [(build, spec["window"]) for build, spec in specs if spec["of"] == "plug.gap" and "window" in spec]
answers = {
    "lash of a build": lash("ox-887~sb-23-11", "lash.exhaust"),
    "build of a serial number": {f"TH22-{number}": may_have(machine, 2022, "TH22-", number) for number in (500, 2500)},
    "what a moved id is now": {"id": now("clearance.inlet"), "lash": [said for build in now("ox-887~sb-21-09") for entry in now("clearance.inlet") for said in lash(build, entry)]},
    "what a split id is now": sorted(now("charging-and-drain")),
    "unconfirmed torques": sorted(f"{b} {s['of']} {words(s['where'])}" for b, s in specs if s["of"].startswith("torque.") and s["confirmation"]["state"] in ("read-once", "differs")),
    "statements by engine": {engine["id"]: sum(len(build["specs"]) for build in engine["builds"]) for engine in engines},
    "withheld": sorted(f"{b} {s['of']} {words(s['where'])}" for b, s in specs if "withheld" in s),
    "where it was read": sorted({f"{sources[s['source']['id']]['title']}, page {s['source']['page']}" for b, s in specs if s["of"] == "lash.exhaust" and s["source"]["id"]}),
    "plug gaps up to 0.75 mm": sorted({b for b, window in gap if window["max"] and Fraction(window["max"]["si"]) <= Fraction("0.00075")}),
    "limits tightened": sorted(f"{c['engine']} {c['of']} {words(c['where'])} {c['after']}" for c in part("changes.json")["changes"] if c["kind"] == "tightened"),
}
print(json.dumps(answers, ensure_ascii=False, sort_keys=True))
