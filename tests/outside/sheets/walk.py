"""Walks bundle and handbook side by side, as a reader without scripts would: every value, caution, step and index
entry of the bundle stands on its sheet, and no withheld value does.

Knows the pinned shapes only: the bundle's JSON and the sheets' data- attributes. Standard library alone.

usage: walk.py PUBLIC
"""

import json
import sys
from html.parser import HTMLParser
from pathlib import Path

VOID = {"area", "base", "br", "col", "embed", "hr", "img", "input", "link", "meta", "source", "track", "wbr"}


class Sheet(HTMLParser):
    """The text below every element that carries one of the stable hooks, and the text of the whole page."""

    HOOKS = ("data-spec", "data-hazard", "data-step", "data-build")

    def __init__(self, path):
        super().__init__(convert_charrefs=True)
        self.found = []
        self.open = []
        self.words = []
        self.ids = set()
        self.hrefs = []
        self.feed(path.read_text(encoding="utf-8"))
        self.text = plain("".join(self.words))

    def handle_starttag(self, tag, attrs):
        self.begin(tag, dict(attrs), closed=tag in VOID)

    def handle_startendtag(self, tag, attrs):
        self.begin(tag, dict(attrs), closed=True)

    def begin(self, tag, attrs, closed):
        if "id" in attrs:
            self.ids.add(attrs["id"])
        if tag == "a" and "href" in attrs:
            self.hrefs.append(attrs["href"])
        if closed:
            return
        entry = None
        if any(hook in attrs for hook in self.HOOKS):
            entry = (attrs, [])
            self.found.append(entry)
        self.open.append((tag, entry))

    def handle_endtag(self, tag):
        if tag in [opened for opened, _ in self.open]:
            while self.open.pop()[0] != tag:
                pass

    def handle_data(self, data):
        self.words.append(data)
        for _, entry in self.open:
            if entry:
                entry[1].append(data)

    def with_hook(self, hook):
        return [(attrs, plain("".join(words))) for attrs, words in self.found if hook in attrs]


def plain(text):
    """One kind of space, one of each: what a reader sees."""
    for space in "\u00a0\u2009\u202f\n\t":
        text = text.replace(space, " ")
    text = text.replace("\u2060", "").replace("\u200b", "")
    return " ".join(text.split())


def words(pairs):
    return ";".join(f"{key}={pairs[key]}" for key in sorted(pairs))


def texts_of(spec):
    """Every text of a statement's value, as printed."""
    for key in ("window", "set_to", "new", "wear_limit", "setting"):
        for form in (spec.get(key) or {}).get("printed", []):
            yield form["text"]
    for stage in spec.get("stages") or []:
        for form in stage["printed"]:
            yield form["text"]
    for point in spec.get("points") or []:
        yield point["at"]["text"]
        yield point["reads"]["text"]
    for key in ("interval", "first", "severe"):
        for form in spec.get(key) or []:
            yield form["text"]
    if spec.get("direction"):
        yield spec["direction"]
    if spec.get("seen_from"):
        yield spec["seen_from"]
    for row in (spec.get("selection") or {}).get("rows", []):
        yield from row["inputs"]
        yield row["part"]
    for pin in spec.get("pins") or []:
        yield from (text for text in (pin["cavity"], pin["wire"], pin["function"], *pin["expect"].values()) if text)
    if spec.get("text"):
        yield spec["text"]
    if spec.get("note"):
        yield spec["note"]
    misprint = spec.get("misprint")
    if misprint:
        yield from (misprint["printed"], misprint["meant"])
    for waiver in spec.get("waivers", []):
        yield waiver["because"]


class Walk:
    def __init__(self, public):
        self.public = public
        self.bundle = public / "bundle"
        self.passed = 0
        self.failures = []
        self.sheets = {}

    def json(self, name):
        return json.loads((self.bundle / name).read_text(encoding="utf-8"))

    def sheet(self, path):
        if path not in self.sheets:
            self.sheets[path] = Sheet(self.public / path)
        return self.sheets[path]

    def hold(self, truth, message):
        if truth:
            self.passed += 1
        else:
            self.failures.append(message)

    def run(self):
        self.entries = {e["id"]: e for group in self.json("catalogue.json")["groups"] for e in group["entries"]}
        self.hazards = {hazard["id"]: hazard for hazard in self.json("hazards.json")["hazards"]}
        self.sources = {source["id"]: source for source in self.json("sources.json")["sources"]}
        engines = [json.loads(path.read_text(encoding="utf-8")) for path in sorted((self.bundle / "engines").iterdir())]
        stated = set()
        for engine in engines:
            for build in engine["builds"]:
                self.build(build)
                stated.update(spec["of"] for spec in build["specs"])
        self.index(stated)
        self.machines()
        self.procedures()
        self.cautions()

    def build(self, build):
        path = f"builds/{build['id']}/engine.html"
        sheet = self.sheet(path)
        marked = sheet.with_hook("data-build")
        self.hold([attrs["data-build"] for attrs, _ in marked] == [build["id"]], f"{path}: data-build")
        rows = {(a["data-spec"], a["data-where"], a["data-when"]): text for a, text in sheet.with_hook("data-spec")}
        self.hold(len(rows) == len(build["specs"]), f"{path}: {len(rows)} rows, {len(build['specs'])} statements")
        for spec in build["specs"]:
            name = (spec["of"], words(spec["where"]), words(spec["when"]))
            row = rows.get(name)
            self.hold(row is not None, f"{path}: no row for {name}")
            if row is not None:
                self.row(path, name, spec, row)
        for hazard in {hazard for spec in build["specs"] if "absent" not in spec for hazard in self.entries[spec["of"]]["hazards"]}:
            self.hold(hazard in {a["data-hazard"] for a, _ in sheet.with_hook("data-hazard")}, f"{path}: hazard {hazard}")

    def row(self, path, name, spec, row):
        self.hold(plain(self.entries[spec["of"]]["title"]) in row, f"{path}: {name} has no title")
        if spec.get("withheld"):
            self.hold("withheld" in row.lower(), f"{path}: {name} does not say that it is withheld")
            self.hold(not any(char.isdigit() for char in row.split("page")[0]), f"{path}: {name} shows a withheld number: {row}")
            return
        for text in texts_of(spec):
            self.hold(plain(text) in row, f"{path}: {name} lacks {text!r}: {row!r}")
        source = spec["source"]
        if source["id"]:
            self.hold(plain(self.sources[source["id"]]["title"]) in row, f"{path}: {name} lacks its source")
        if source["page"]:
            self.hold(plain(source["page"]) in row, f"{path}: {name} lacks its page")
        if spec["confirmation"]["state"] in ("read-once", "differs") and "absent" not in spec:
            self.hold("read once" in row.lower(), f"{path}: {name} is not marked as read once")

    def index(self, stated):
        sheet = self.sheet("az.html")
        for of in stated:
            for title in (self.entries[of]["title"], *self.entries[of]["aka"]):
                self.hold(plain(title).lower() in sheet.text.lower(), f"az.html: no {title!r}")

    def machines(self):
        machines = self.json("machines.json")["machines"]
        index = self.sheet("machines.html")
        for machine in machines:
            self.hold(plain(machine["name"]) in index.text, f"machines.html: no {machine['name']}")
            path = f"machines/{machine['id']}.html"
            sheet = self.sheet(path)
            for fit in machine["fits"]:
                href = f"../builds/{fit['build']}/engine.html"
                self.hold(any(h.split("#")[0] == href for h in sheet.hrefs), f"{path}: no way to {fit['build']}")
                for year in range(fit["from_year"], fit["to_year"] + 1):
                    self.hold(str(year) in sheet.text, f"{path}: no {year}")
                if fit["serial"]:
                    self.hold(fit["serial"]["prefix"] in sheet.text, f"{path}: no {fit['serial']['prefix']}")

    def procedures(self):
        for procedure in self.json("procedures.json")["procedures"]:
            for build in procedure["builds"]:
                path = f"builds/{build}/{procedure['id']}.html"
                sheet = self.sheet(path)
                self.hold(plain(procedure["title"]) in sheet.text, f"{path}: no title")
                self.hold(len(sheet.with_hook("data-step")) == procedure["steps"], f"{path}: steps")
                shown = {a["data-hazard"] for a, _ in sheet.with_hook("data-hazard")}
                self.hold(set(procedure["hazards"]) <= shown, f"{path}: lacks {set(procedure['hazards']) - shown}")
                if procedure["proof"]:
                    self.hold(plain(procedure["proof"]) in sheet.text, f"{path}: no proof")

    def cautions(self):
        about = self.sheet("about.html")
        panels = {a["data-hazard"]: text for a, text in about.with_hook("data-hazard")}
        for hazard in self.hazards.values():
            panel = panels.get(hazard["id"], "")
            for key in ("signal", "hazard", "consequence", "avoid"):
                self.hold(plain(hazard[key]) in panel, f"about.html: {hazard['id']} lacks its {key}")


def main():
    walk = Walk(Path(sys.argv[1]))
    walk.run()
    for failure in walk.failures[:40]:
        print("FAILED", failure)
    print(f"{walk.passed} passed, {len(walk.failures)} failed")
    sys.exit(1 if walk.failures or not walk.passed else 0)


if __name__ == "__main__":
    main()
