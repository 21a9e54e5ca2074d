"""Makes every file of a bundle's JSON anew from its tables, once from the database and once from the CSV files, and holds
it to be the same in every part: what one of the three states, all three state.

Knows the tables by their descriptions alone; what the JSON leaves out where it is null is left out here too. The content
hash and the counts of `bundle.json` speak of the files themselves and are counted here. Standard library alone.

usage: same.py BUNDLE...
"""

import csv
import json
import sqlite3
import sys
from pathlib import Path


def of_database(bundle):
    """Every table of the database by name: rows as dictionaries, in order."""
    database = sqlite3.connect(f"file:{bundle / 'baybook.sqlite'}?mode=ro", uri=True)
    database.row_factory = sqlite3.Row
    package = json.loads((bundle / "datapackage.json").read_text(encoding="utf-8"))
    flags = {one["name"]: {field["name"] for field in one["schema"]["fields"] if field["type"] == "boolean"} for one in package["resources"]}
    tables = {}
    for name, truths in flags.items():
        rows = database.execute(f"SELECT * FROM {name} ORDER BY rowid")
        tables[name] = [{key: bool(row[key]) if key in truths else row[key] for key in row.keys()} for row in rows]
    return tables


def of_csv(bundle):
    """The same from the CSV files, typed as the package says. An empty cell is null, or an empty text where it must be one."""
    package = json.loads((bundle / "datapackage.json").read_text(encoding="utf-8"))
    types = {"string": str, "date": str, "integer": int, "number": float, "boolean": lambda text: {"true": True, "false": False}[text]}
    tables = {}
    for resource in package["resources"]:
        fields = {field["name"]: types[field["type"]] for field in resource["schema"]["fields"]}
        with open(bundle / resource["path"], encoding="utf-8", newline="") as file:
            tables[resource["name"]] = [{key: fields[key](cell) if cell else None for key, cell in row.items()} for row in csv.DictReader(file)]
    return tables


class Made:
    """The JSON that some tables stand for."""

    def __init__(self, tables):
        self.tables = tables
        self.read = set()
        self.by = {}

    def rows(self, table, **keys):
        """The rows of a table with these keys, in order; looked up, so that large tables stay quick."""
        self.read.add(table)
        names = tuple(keys)
        if (table, names) not in self.by:
            found = self.by[table, names] = {}
            for row in self.tables[table]:
                found.setdefault(tuple(row[name] for name in names), []).append(row)
        return self.by[table, names].get(tuple(keys.values()), [])

    def column(self, table, name, **keys):
        return [row[name] for row in self.rows(table, **keys)]

    def one(self, table, **keys):
        rows = self.rows(table, **keys)
        assert len(rows) <= 1, f"{table} {keys} has {len(rows)} rows"
        return rows[0] if rows else None

    def printed(self, row):
        """A printed value from the columns that all of them have."""
        if row is None:
            return None

        def quantity(end):
            if row[end] is None:
                return None
            return {"text": row[end], "unit": row["unit"], "ucum": row["ucum"], "unece": row["unece"], "si": row[f"{end}_si"]}

        ends = {end: quantity(end) for end in ("min", "max", "nominal")}
        return {"text": row["text"], **ends, "min_inclusive": row["min_inclusive"], "max_inclusive": row["max_inclusive"]}

    def range(self, spec, part, step=1):
        forms = [self.printed(row) for row in self.rows("value", spec=spec, part=part, step=step)]
        return {"min": forms[0]["min"], "max": forms[0]["max"], "printed": forms} if forms else None

    def values(self, spec, part):
        return [self.printed(row) for row in self.rows("value", spec=spec, part=part)]

    def stepped(self, spec, part, step):
        return self.printed(self.one("value", spec=spec, part=part, step=step, form=1)) if step else None

    def all(self):
        """Every file, by name."""
        files = {
            "bundle.json": self.head(),
            "units.json": {"units": [{**{key: row[key] for key in ("symbol", "spoken", "kind", "ucum", "unece", "factor")}, "offset": row["offset_by"]} for row in self.rows("unit")]},
            "catalogue.json": {"groups": [{"id": row["id"], "title": row["title"], "entries": [self.entry(one) for one in self.rows("entry", service_group=row["id"])]} for row in self.rows("service_group")]},
            "relations.json": {"relations": [self.relation(row) for row in self.rows("relation")]},
            "machines.json": {"makers": [dict(row) for row in self.rows("maker")], "machines": [self.machine(row) for row in self.rows("machine")]},
            "sources.json": {"sources": [{**row, "supersedes": self.column("source_supersedes", "supersedes", source=row["id"])} for row in self.rows("source")]},
            "hazards.json": {"hazards": [dict(row) for row in self.rows("hazard")]},
            "gauges.json": {"gauges": [self.gauge(row) for row in self.rows("gauge")]},
            "procedures.json": {"procedures": [self.procedure(row) for row in self.rows("procedure")]},
            "complaints.json": {"complaints": [self.complaint(row) for row in self.rows("complaint")]},
            "codes.json": {"sets": [self.code_set(row) for row in self.rows("code_set")]},
            "ids.json": self.ids(),
        }
        if self.rows("since"):
            files["changes.json"] = self.changes()
        for row in self.rows("engine"):
            files[f"engines/{row['id']}.json"] = self.engine(row)
        return files

    def head(self):
        (about,) = self.rows("about")
        keys = ("title", "release", "date", "invented", "licence", "notice", "stale_after_days", "base_url")
        return {
            **{key: about[key] for key in keys},
            "publish": {key: about[key] for key in ("unconfirmed", "labels")},
            "units": {row["kind"]: row["shown_in"] for row in self.rows("kind") if row["shown_in"]},
            "si": {row["kind"]: row["si_unit"] for row in self.rows("kind")},
            "counts": {name: len(self.tables[table]) for name, table in (("machines", "machine"), ("engines", "engine"), ("builds", "build"), ("specs", "spec"), ("entries", "entry"), ("sources", "source"))},
        }

    def entry(self, row):
        same = ("id", "title", "kind", "input", "below", "above", "plausible_from", "gauge", "critical", "stop", "card", "note")
        of = {"entry": row["id"]}
        axes = {}
        for one in self.rows("entry_place", **of):
            axes.setdefault(one["axis"], []).append(one["word"])
        states = {one["state"]: {"words": self.column("entry_state_word", "word", state=one["state"], **of) or None, "kind": one["kind"]} for one in self.rows("entry_state", **of)}
        return {
            **{key: row[key] for key in same},
            "aka": self.column("other_name", "name", **of),
            "forms": self.column("entry_form", "form", **of),
            "axes": axes,
            "states": states,
            "needs_state": {one["thing"]: one["word"] for one in self.rows("entry_need", **of)},
            "plausible": self.printed(self.one("entry_value", part="plausible", **of)),
            "hazards": self.column("entry_hazard", "hazard", **of),
        }

    def relation(self, row):
        of = {"relation": row["id"]}
        says = {}
        for one in self.rows("relation_fits", sort="says", **of):
            says.setdefault(one["entry"], []).append(one["word"])
        fits = {sort: self.column("relation_fits", "entry", sort=sort, **of) for sort in ("has", "lacks")}
        same = ("id", "title", "holds", "source", "look", "arithmetic")
        return {**{key: row[key] for key in same}, "fits": {"cycle": row["fits_cycle"], "fuel": row["fits_fuel"], **fits, "says": says}}

    @staticmethod
    def serial(row):
        return None if row["serial_prefix"] is None else {"prefix": row["serial_prefix"], "from": row["serial_from"], "to": row["serial_to"]}

    def fit(self, row):
        return {**{key: row[key] for key in ("machine", "from_year", "to_year", "rest", "build")}, "serial": self.serial(row)}

    def machine(self, row):
        return {**row, "fits": [self.fit(one) for one in self.rows("fit", machine=row["id"])]}

    def gauge(self, row):
        part = {name: self.printed(self.one("gauge_value", gauge=row["id"], part=name)) for name in ("span", "resolution", "error")}
        return {**row, **part, "hazards": self.column("gauge_hazard", "hazard", gauge=row["id"])}

    def engine(self, row):
        part = {name: self.printed(self.one("engine_value", engine=row["id"], part=name)) for name in ("bore", "stroke", "displacement")}
        layout = {**{key: row[key] for key in ("cycle", "fuel", "cylinders")}, **part, "words": row["layout"]} if row["cycle"] else None
        return {
            **{key: row[key] for key in ("id", "title", "maker")},
            "layout": layout,
            "variants": [self.variant(one) for one in self.rows("variant", engine=row["id"])],
            "builds": [self.build(one) for one in self.rows("build", engine=row["id"])],
        }

    def variant(self, row):
        of = {"engine": row["engine"], "variant": row["id"]}
        applies = [{**{key: one[key] for key in ("machine", "from_year", "to_year")}, "serial": self.serial(one)} for one in self.rows("variant_reach", **of)]
        return {**{key: row[key] for key in ("id", "source", "note")}, "applies": applies, "replaces": self.column("variant_replaces", "replaces", **of)}

    def build(self, row):
        variants = self.column("build_variant", "variant", build=row["id"])
        assert row["variants"] == " ".join(variants)
        return {"id": row["id"], "variants": variants, "fits": [self.fit(one) for one in self.rows("fit", build=row["id"])], "specs": [self.spec(one) for one in self.rows("spec", build=row["id"])]}

    def spec(self, row):
        of = {"spec": row["id"]}
        id = row["id"]
        said = {sort: {one["name"]: one["word"] for one in self.rows("spec_word", sort=sort, **of)} for sort in ("place", "state")}
        for sort, words in said.items():
            assert row[sort] == ";".join(f"{name}={words[name]}" for name in words), f"{row}: {sort}"
        conditions = {one["name"]: self.stepped(id, "when", one["value_step"]) for one in self.rows("spec_word", sort="state", **of) if one["value_step"]}
        steps = {one["step"] for one in self.rows("value", part="stage", **of)}
        maker = self.one("misprint", **of)
        fastener = self.one("fastener", **of)
        spec = {
            "of": row["entry"],
            "where": said["place"],
            "when": said["state"],
            "conditions": conditions,
            "form": row["form"],
            **{part: self.range(id, part) for part in ("window", "set_to", "new", "wear_limit", "setting")},
            "stages": [self.range(id, "stage", step) for step in sorted(steps)] or None,
            "points": [{"at": at, "reads": reads} for at, reads in zip(self.values(id, "at"), self.values(id, "reads"), strict=True)] or None,
            "direction": row["direction"],
            "seen_from": row["seen_from"],
            **{part: self.values(id, part) or None for part in ("interval", "first", "severe")},
            "selection": self.selection(id),
            "pins": self.pins(id),
            # A direction, a selection and pins are put into words for people.
            "text": row["text"] if row["form"] == "text" else None,
            "absent": row["absent"],
            "fastener": fastener and {**{key: fastener[key] for key in ("thread", "class", "threads", "hand", "reuse")}, "count": fastener["pieces"], "into": fastener["goes_into"]},
            "pattern": [[one["across"], one["up"]] for one in self.rows("bolt", **of)] or None,
            "source": {"id": row["source"], "page": row["page"], "row": row["row_label"], "column": row["column_label"], "footnote": row["footnote"], "read_by": row["read_by"]},
            "variant": row["variant"],
            "confirmation": self.confirmation(row),
            "withheld": row["withheld"],
            "waivers": [{key: one[key] for key in ("rule", "value", "because", "until")} for one in self.rows("waiver", **of)],
            "misprint": maker and {key: maker[key] for key in ("printed", "meant", "because", "decided_by")},
            "note": row["note"],
        }
        always = ("where", "when")
        return {key: value for key, value in spec.items() if value not in (None, [], {}) or key in always}

    @staticmethod
    def confirmation(row):
        found = {key: row[f"found_{key}"] for key in ("page", "row", "column", "footnote")}
        confirmation = {"state": row["confirmation"], "by": row["confirmed_by"], "on": row["confirmed_on"]}
        if row["confirmation"] == "differs":
            confirmation["found"] = {"id": row["found_source"], **found, "read_by": row["confirmed_by"]}
        return confirmation

    def selection(self, id):
        by = self.column("selection_input", "name", spec=id)
        rows = []
        for row in self.rows("choice", spec=id):
            inputs = self.rows("choice_input", spec=id, choice=row["place"])
            rows.append({"inputs": [one["input"] for one in inputs], "exact": [self.stepped(id, "input", one["value_step"]) for one in inputs], "part": row["part"]})
        return {"by": by, "rows": rows} if by else None

    def pins(self, id):
        pins = []
        for row in self.rows("pin", spec=id):
            reads = self.rows("pin_read", spec=id, pin=row["place"])
            pin = {"cavity": row["cavity"], "wire": row["wire"], "function": row["carries"], "expect": {one["state"]: one["expect"] for one in reads}}
            measured = {one["state"]: self.stepped(id, "expect", one["value_step"]) for one in reads if one["value_step"]}
            pins.append({**pin, "measured": measured} if measured else pin)
        return pins or None

    def fitting(self, table, row):
        of = {table: row["id"]}
        return {"has": self.column(f"{table}_fits", "id", sort="has", **of), "engines": self.column(f"{table}_fits", "id", sort="engine", **of), "cycle": row["fits_cycle"], "fuel": row["fits_fuel"]}

    def procedure(self, row):
        of = {"procedure": row["id"]}
        return {
            **{key: row[key] for key in ("id", "title", "minutes", "state", "steps", "proof")},
            "gauges": self.column("procedure_need", "gauge", sort="gauge", **of),
            "tools": self.column("procedure_need", "tool", sort="tool", **of),
            "hazards": self.column("procedure_hazard", "hazard", **of),
            "uses": self.column("procedure_entry", "entry", **of),
            "body": [{**{key: one[key] for key in ("sort", "step", "depth")}, "parts": [self.part(part) for part in self.rows("part", block=one["place"], **of)]} for one in self.rows("block", **of)],
            "left_open": [{"what": one["what"], "from": one["from_step"], "until": one["until_step"]} for one in self.rows("left_open", **of)],
            "fits": self.fitting("procedure", row),
            "builds": self.column("procedure_build", "build", **of),
        }

    def part(self, row):
        of = {"procedure": row["procedure"], "block": row["block"], "part": row["place"]}
        part = {
            "style": row["style"],
            "of": row["entry"],
            "narrow": {one["name"]: one["word"] for one in self.rows("part_word", **of)} or None,
            "angle": self.printed(self.one("part_angle", **of)),
            "hazard": row["hazard"],
            "step": row["step"],
            "procedure": row["leads_to"],
            "complaint": row["complaint"],
            "set": row["code_set"],
            "code": row["code"],
        }
        return {"sort": row["sort"], "text": row["text"] or "", **{key: value for key, value in part.items() if value is not None}}

    def complaint(self, row):
        of = {"complaint": row["id"]}
        return {
            **{key: row[key] for key in ("id", "title")},
            "aka": self.column("complaint_name", "name", **of),
            "causes": [{key: one[key] for key in ("id", "title", "share", "residual")} for one in self.rows("cause", **of)],
            "access": [{**{key: one[key] for key in ("id", "title", "minutes")}, "needs": self.column("access_need", "needs", access=one["id"], **of)} for one in self.rows("access", **of)],
            "checks": [
                {
                    **{key: one[key] for key in ("id", "title", "minutes", "procedure", "state")},
                    "shows": self.column("check_shows", "cause", check_id=one["id"], **of),
                    "needs": self.column("check_need", "access", check_id=one["id"], **of),
                    **({"voids": ["cold"]} if one["voids_cold"] else {}),
                    **({"hazards": hazards} if (hazards := self.column("check_hazard", "hazard", check_id=one["id"], **of)) else {}),
                }
                for one in self.rows("complaint_check", **of)
            ],
            "fits": self.fitting("complaint", row),
            "builds": self.column("complaint_build", "build", **of),
        }

    def code_set(self, row):
        of = {"code_set": row["id"]}
        codes = [
            {
                **{key: one[key] for key in ("id", "title", "set_when")},
                "raises": [{key: raised[key] for key in ("complaint", "cause")} for raised in self.rows("code_raises", code=one["id"], **of)],
                "measure": self.column("code_measure", "entry", code=one["id"], **of),
            }
            for one in self.rows("code", **of)
        ]
        return {**{key: row[key] for key in ("id", "title", "source", "page")}, "read": row["how_read"], "clear": row["how_cleared"], "engines": self.column("code_set_engine", "engine", **of), "codes": codes}

    def changes(self):
        (since,) = self.rows("since")
        changes = [
            {**{key: row[key] for key in ("kind", "engine", "build", "of")}, "where": words(row["place"]), "when": words(row["state"]), "before": row["before_text"], "after": row["after_text"]}
            for row in self.rows("change")
        ]
        return {"since": {key: since[key] for key in ("release", "date", "content_hash")}, "step": since["step"], "changes": changes}

    def ids(self):
        retired = [{**{key: row[key] for key in ("id", "fate", "because", "release")}, "to": self.column("retired_id_now", "now", id=row["id"])} for row in self.rows("retired_id")]
        recall = [
            {"engine": row["engine"], "of": row["entry"], "where": words(row["place"]), "when": words(row["state"]), "value": row["value"], "releases": self.column("recall_release", "release", recall=row["id"]), "because": row["because"]}
            for row in self.rows("recall")
        ]
        return {"retired": retired, "recall": recall}


def words(text):
    """`name=word;name=word` as a table."""
    return dict(pair.split("=", 1) for pair in text.split(";")) if text else {}


def differences(one, other, path=""):
    """Where two values differ, by path."""
    if isinstance(one, dict) and isinstance(other, dict):
        for key in sorted({*one, *other}):
            if key not in one or key not in other:
                yield f"{path}.{key}: only in {'the JSON' if key in one else 'the tables'}"
            else:
                yield from differences(one[key], other[key], f"{path}.{key}")
    elif isinstance(one, list) and isinstance(other, list) and len(one) == len(other):
        for at, (left, right) in enumerate(zip(one, other)):
            yield from differences(left, right, f"{path}[{at}]")
    elif one != other or type(one) is not type(other):
        yield f"{path}: {one!r} in the JSON, {other!r} in the tables"


# What states nothing of its own: it describes the tables, or is what the find works by.
ELSEWHERE = {"datapackage.json", "find.json"}
failed = False
for bundle in map(Path, sys.argv[1:]):
    written = {path.relative_to(bundle).as_posix(): json.loads(path.read_text(encoding="utf-8")) for path in [*bundle.glob("*.json"), *bundle.glob("engines/*.json")] if path.name not in ELSEWHERE}
    del written["bundle.json"]["content_hash"]
    written["bundle.json"].pop("signed_by", None)
    for source, tables in (("database", of_database(bundle)), ("CSV", of_csv(bundle))):
        # An empty text and none are the same in CSV: of what is never null, it is the text.
        if source == "CSV":
            for row in tables["spec"]:
                row["place"], row["state"] = row["place"] or "", row["state"] or ""
            for row in tables["recall"]:
                row["place"], row["state"] = row["place"] or "", row["state"] or ""
            for row in tables["build"]:
                row["variants"] = row["variants"] or ""
        made = Made(tables)
        files = made.all()
        found = [f"{name}{line}" for name in sorted({*written, *files}) for line in differences(written.get(name), files.get(name))]
        unread = {name for name in tables if tables[name]} - made.read
        found += [f"nothing is made from table {name}" for name in sorted(unread)]
        rows = sum(len(rows) for rows in tables.values())
        print(f"{bundle}: {source}, {len(files)} files from {rows} rows of {len(tables)} tables: {'the same' if not found else f'{len(found)} differences'}")
        for line in found[:20]:
            print(f"FAILED {line}")
        failed = failed or bool(found) or rows < 300
sys.exit(failed)
