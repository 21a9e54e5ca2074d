"""Walks bundle and handbook side by side, as a reader without scripts would: every value, caution, step and index
entry of the bundle stands on its sheet, and no withheld value does.

Knows the pinned shapes only: the bundle's JSON and the sheets' data- attributes. Standard library alone.

usage: walk.py PUBLIC
"""

import csv
import hashlib
import json
import re
import sqlite3
import sys
from fractions import Fraction
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


def tenths(minutes):
    """To a tenth, half to even, without a needless zero."""
    tenth = round(minutes * 10)
    return f"{tenth // 10}.{tenth % 10}".removesuffix(".0")


def called(source):
    """What a row calls a manual or bulletin: what the shop calls it, or else its title."""
    return source["short"] or source["title"]


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


def forms_of(spec):
    """Every printed form of a statement, by part, step and place in its list, from 1."""
    for part in ("window", "set_to", "new", "wear_limit", "setting"):
        for at, form in enumerate((spec.get(part) or {}).get("printed", []), 1):
            yield (part, 1, at), form
    for step, stage in enumerate(spec.get("stages") or [], 1):
        for at, form in enumerate(stage["printed"], 1):
            yield ("stage", step, at), form
    for step, point in enumerate(spec.get("points") or [], 1):
        yield ("at", step, 1), point["at"]
        yield ("reads", step, 1), point["reads"]
    for part in ("interval", "first", "severe"):
        for step, form in enumerate(spec.get(part) or [], 1):
            yield (part, step, 1), form
    # What stands among words, where it is a quantity, counted through the statement.
    conditions = spec.get("conditions", {})
    inputs = [exact for row in (spec.get("selection") or {}).get("rows", []) for exact in row["exact"] if exact]
    measured = [pin["measured"][state] for pin in spec.get("pins") or [] for state in sorted(pin.get("measured", {}))]
    for part, forms in (("when", [conditions[state] for state in sorted(conditions)]), ("input", inputs), ("expect", measured)):
        for step, form in enumerate(forms, 1):
            yield (part, step, 1), form


class Walk:
    def __init__(self, public):
        self.public = public
        self.bundle = public / "bundle"
        self.passed = 0
        self.failures = []
        self.sheets = {}
        self.database = sqlite3.connect(f"file:{self.bundle / 'baybook.sqlite'}?mode=ro", uri=True)

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
        self.specs = {build["id"]: build["specs"] for engine in engines for build in engine["builds"]}
        stated = set()
        for engine in engines:
            for build in engine["builds"]:
                self.build(build)
                stated.update(spec["of"] for spec in build["specs"])
        self.index(stated)
        self.machines()
        self.procedures()
        self.cautions()
        self.sources_read(engines)
        self.codes()
        self.complaints()
        self.gauges()
        self.coverage(engines)
        self.tables(engines)
        self.hashes(engines)

    def hashes(self, engines):
        """Each sheet of a build has the hash of that build's data, the page about the handbook that of all content."""
        for build in (build for engine in engines for build in engine["builds"]):
            data = json.dumps(build, separators=(",", ":"), ensure_ascii=False).encode()
            own = hashlib.sha256(data).hexdigest()[:12]
            for page in sorted((self.public / "builds" / build["id"]).glob("*.html")):
                self.hold(own in page.read_text(encoding="utf-8"), f"{page}: lacks the hash of its own build, {own}")
        whole = hashlib.sha256()
        for path in sorted(path.relative_to(self.bundle).as_posix() for path in self.bundle.rglob("*") if path.is_file()):
            if path not in ("bundle.json", "SHA256SUMS", "SHA256SUMS.minisig"):
                whole.update(f"{hashlib.sha256((self.bundle / path).read_bytes()).hexdigest()}  {path}\n".encode())
        self.hold(self.json("bundle.json")["content_hash"] == whole.hexdigest(), "bundle.json: another content hash")
        self.hold(whole.hexdigest() in self.sheet("about.html").text, "about.html: lacks the hash of the content")

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
        for source in {spec["source"]["id"] for spec in build["specs"] if spec["source"]["id"]}:
            for text in (self.sources[source][key] for key in ("title", "edition", "date")):
                self.hold(not text or plain(text) in sheet.text, f"{path}: read from {source}, and lacks {text!r}")
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
            self.hold(plain(called(self.sources[source["id"]])) in row, f"{path}: {name} lacks its source")
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
                self.steps(path, sheet, procedure, build)

    def steps(self, path, sheet, procedure, build):
        """Every word of the typed steps stands in its step on the sheet, and what a value means there, in the database too."""
        steps = {attrs["data-step"]: text for attrs, text in sheet.with_hook("data-step")}
        by_view = {}
        for block, part, spec in self.database.execute("SELECT block, part, spec FROM procedure_value WHERE procedure = ? AND build = ?", (procedure["id"], build)):
            by_view.setdefault((block, part), set()).add(spec)
        numbers = [number for (number,) in self.database.execute("SELECT id FROM spec WHERE build = ? ORDER BY id", (build,))]
        for at, block in enumerate(procedure["body"], 1):
            text = sheet.text if block["step"] is None else steps.get(str(block["step"]), "")
            for place, part in enumerate(block["parts"], 1):
                where = f"{path}: step {block['step']}"
                if part["sort"] == "text":
                    self.hold(plain(part["text"]) in text, f"{where} does not say {part['text']!r}")
                if part["sort"] not in ("spec", "reading"):
                    continue
                means = self.meant(build, part)
                self.hold(bool(means), f"{where}: {part['of']} means nothing")
                self.hold(by_view.get((at, place)) == {numbers[index] for index in means}, f"baybook.sqlite: {where}: {part['of']} means others")
                for spec in (self.specs[build][index] for index in means):
                    said = spec.get("window") or spec.get("setting")
                    self.hold(not said or plain(said["printed"][0]["text"]) in text, f"{where}: no value of {part['of']}")

    def meant(self, build, part):
        """Places of the statements that a part means: by its words, those with a value; where there is none, all of its entry."""
        def within(spec):
            said = {**spec["when"], **spec["where"]}
            return "absent" not in spec and all(said.get(name, word) == word for name, word in part.get("narrow", {}).items())

        own = [index for index, spec in enumerate(self.specs[build]) if spec["of"] == part["of"]]
        return [index for index in own if within(self.specs[build][index])] or own

    def sources_read(self, engines):
        """The sheet of a source holds every value read from it, under its page, pages in the order of the book."""
        index = self.sheet("sources.html")
        specs = {}
        for engine in engines:
            for build in engine["builds"]:
                for spec in build["specs"]:
                    specs.setdefault(spec["source"]["id"], []).append((build["id"], spec))
        for source in self.sources.values():
            path = f"sources/{source['id']}.html"
            sheet = self.sheet(path)
            self.hold(path in index.hrefs, f"sources.html: no way to {path}")
            for text in (source["title"], source["edition"], source["date"], source["note"]):
                self.hold(not text or plain(text) in sheet.text, f"{path}: lacks {text!r}")
            for other in source["supersedes"]:
                self.hold(f"../sources/{other}.html" in sheet.hrefs, f"{path}: no way to {other}, which it supersedes")
                self.hold(f"../sources/{source['id']}.html" in self.sheet(f"sources/{other}.html").hrefs, f"sources/{other}.html: no way to {source['id']}")
            for build, spec in specs.get(source["id"], []):
                self.read_value(path, sheet, build, spec)
            pages = [page for page in sheet.ids if page.startswith("page-") and not page.endswith("-title")]
            wanted = {spec["source"]["page"] for _, spec in specs.get(source["id"], []) if spec["source"]["page"]}
            self.hold(len(pages) >= len(wanted), f"{path}: {len(pages)} pages, {len(wanted)} in the bundle")

    def read_value(self, path, sheet, build, spec):
        name = (spec["of"], words(spec["where"]), words(spec["when"]))
        found = [text for a, text in sheet.with_hook("data-spec") if (a["data-spec"], a["data-where"], a["data-when"]) == name]
        title = plain(self.entries[spec["of"]]["title"])
        self.hold(any(title in text for text in found), f"{path}: no value for {name}")
        if spec.get("withheld"):
            self.hold(any("withheld" in text.lower() for text in found), f"{path}: {name} does not say that it is withheld")
            return
        labels = [f"“{spec['source'][key]}”" for key in ("row", "column", "footnote") if spec["source"][key]]
        wanted = [plain(text) for text in [*texts_of({**spec, "note": None}), *labels]]
        confirmation = spec["confirmation"]
        if confirmation["state"] == "confirmed":
            wanted.append(f"again by {confirmation['by']}" + (f" on {confirmation['on']}" if confirmation["on"] else ""))
        if spec["source"]["read_by"]:
            wanted.append(f"read by {spec['source']['read_by']}")
        self.hold(any(all(text in one for text in wanted) for one in found), f"{path}: {name} lacks one of {wanted}: {found}")
        engine, of = re.escape(build.split("~")[0]), re.escape(spec["of"].replace(".", "_"))
        row = re.compile(rf"\.\./builds/{engine}(~[^/]*)?/engine\.html#{of}(--|$)")
        self.hold(any(row.match(href) for href in sheet.hrefs), f"{path}: {name} leads to no row of {build}")

    def codes(self):
        complaints = {one["id"]: one for one in self.json("complaints.json")["complaints"]}
        builds = {build["id"]: {spec["of"] for spec in build["specs"]} for path in (self.bundle / "engines").iterdir() for build in json.loads(path.read_text(encoding="utf-8"))["builds"]}
        for set_ in self.json("codes.json")["sets"]:
            path = f"codes/{set_['id']}.html"
            sheet = self.sheet(path)
            self.hold(path in self.sheet("codes.html").hrefs, f"codes.html: no way to {path}")
            self.hold(plain(set_["read"]) in sheet.text and plain(set_["clear"]) in sheet.text, f"{path}: how to read or clear")
            mine = {build: of for build, of in builds.items() if build.split("~")[0] in set_["engines"]}
            for build in mine:
                self.hold(f"../../{path}" in self.sheet(f"builds/{build}/engine.html").hrefs, f"builds/{build}: no way to {path}")
            for code in set_["codes"]:
                self.hold(f"code-{code['id']}" in sheet.ids, f"{path}: no place for {code['id']}")
                for text in (code["title"], code["set_when"], *(self.entries[of]["title"] for of in code["measure"])):
                    self.hold(plain(text) in sheet.text, f"{path}: {code['id']} lacks {text!r}")
                for raised in code["raises"]:
                    for build in set(complaints[raised["complaint"]]["builds"]) & set(mine):
                        href = f"../builds/{build}/complaint-{raised['complaint']}.html#cause-{raised['cause']}"
                        self.hold(href in sheet.hrefs, f"{path}: {code['id']} does not lead to {href}")
                for of in code["measure"]:
                    for build in (build for build, stated in mine.items() if of in stated):
                        row = f"../builds/{build}/engine.html#{of.replace('.', '_')}"
                        self.hold(any(href.startswith(row) for href in sheet.hrefs), f"{path}: {code['id']} does not lead to {row}")

    def complaints(self):
        index = self.sheet("complaints.html")
        for complaint in self.json("complaints.json")["complaints"]:
            name = f"complaint-{complaint['id']}"
            self.hold(name in index.ids, f"complaints.html: no {name}")
            self.hold(f"complaints.html#{name}" in self.sheet("index.html").hrefs, f"index.html: no way to {name}")
            written = {build.parent.name for build in (self.public / "builds").glob(f"*/{name}.html")}
            self.hold(written == set(complaint["builds"]), f"{name}: written for {written}")
            for build in complaint["builds"]:
                path = f"builds/{build}/{name}.html"
                self.hold(path in index.hrefs, f"complaints.html: no way to {path}")
                # Beside the engine sheet, which leads there by its name alone.
                self.hold(f"{name}.html" in self.sheet(f"builds/{build}/engine.html").hrefs, f"builds/{build}: no way to {path}")
                self.complaint(path, self.sheet(path), complaint)

    def complaint(self, path, sheet, complaint):
        total = sum(Fraction(cause["share"]) for cause in complaint["causes"])
        for cause in complaint["causes"]:
            self.hold(f"cause-{cause['id']}" in sheet.ids, f"{path}: no place for {cause['id']}")
            said = f"{plain(cause['title'])}{cause['share']} of {total} past jobs"
            self.hold(said in sheet.text, f"{path}: does not say {said!r}")
        places = {}
        shown = {a["data-hazard"] for a, _ in sheet.with_hook("data-hazard")}
        for check in complaint["checks"]:
            self.hold(set(check.get("hazards", [])) <= shown, f"{path}: {check['id']} lacks a hazard")
            said = f"{plain(check['title'])} {check['minutes']} min"
            self.hold(said in sheet.text, f"{path}: {said!r} is missing")
            places[check["id"]] = sheet.text.find(said)
        shown = sorted(complaint["checks"], key=lambda check: places[check["id"]])
        best, written = self.minutes(complaint, shown), self.minutes(complaint, complaint["checks"])
        said = f"{tenths(best)} min on average, {tenths(written)} min as the shop wrote them down"
        self.hold(best <= written and said in sheet.text, f"{path}: does not say {said!r}")
        for access in complaint["access"]:
            used = any(access["id"] in self.opened(complaint, check) for check in complaint["checks"])
            first = f"First: {plain(access['title'] or access['id'].replace('-', ' '))}, {access['minutes']} min"
            self.hold(sheet.text.count(first) == (1 if used else 0), f"{path}: {first!r} is not said once")

    def minutes(self, complaint, checks):
        """Minutes to the cause on average, straight from the definition: access is opened once."""
        shares = {one["id"]: Fraction(one["share"]) for one in complaint["causes"] if not one["residual"]}
        opening = {one["id"]: Fraction(one["minutes"]) for one in complaint["access"]}
        gone, opened, seen, total = Fraction(0), set(), set(), Fraction(0)
        for check in checks:
            needed = self.opened(complaint, check) - opened
            gone += Fraction(check["minutes"]) + sum(opening[one] for one in needed)
            opened |= needed
            found = set(check["shows"]) & set(shares) - seen
            total += gone * sum(shares[one] for one in found)
            seen |= found
        return total / sum(shares.values())

    def opened(self, complaint, check):
        needs = {access["id"]: access["needs"] for access in complaint["access"]}
        wanted, done = list(check["needs"]), set()
        while wanted:
            one = wanted.pop()
            if one not in done:
                done.add(one)
                wanted.extend(needs[one])
        return done

    def gauges(self):
        sheet = self.sheet("gauges.html")
        shown = {a["data-hazard"] for a, _ in sheet.with_hook("data-hazard")}
        for gauge in self.json("gauges.json")["gauges"]:
            self.hold(f"gauge-{gauge['id']}" in sheet.ids, f"gauges.html: no {gauge['id']}")
            for text in (gauge["title"], *(gauge[key]["text"] for key in ("span", "resolution", "error") if gauge[key])):
                self.hold(plain(text) in sheet.text, f"gauges.html: {gauge['id']} lacks {text!r}")
            self.hold(set(gauge["hazards"]) <= shown, f"gauges.html: {gauge['id']} lacks a hazard")

    def coverage(self, engines):
        """Counts what the bundle states: a value counts once, however many builds hold it."""
        index = self.sheet("coverage.html")
        for engine in engines:
            path = f"coverage/{engine['id']}.html"
            self.hold(path in index.hrefs, f"coverage.html: no way to {path}")
            values = {}
            for build in engine["builds"]:
                for spec in build["specs"]:
                    if "absent" not in spec:
                        name = (spec["of"], words(spec["where"]), words(spec["when"]), spec.get("variant"))
                        values[name] = spec["confirmation"]["state"]
            confirmed = sum(state == "confirmed" for state in values.values())
            # A value that a bulletin replaces in every build is in no build of the bundle; its source sheet says so.
            nowhere = [text for source in self.sources for a, text in self.sheet(f"sources/{source}.html").with_hook("data-spec") if f"{plain(engine['title'])}: in no build" in text]
            confirmed += sum("again by" in text for text in nowhere)
            said = f"{len(values) + len(nowhere)} values, {confirmed} confirmed by a second reading"
            self.hold(said in self.sheet(path).text, f"{path}: does not say {said!r}")
            for (of, *_), state in values.items():
                if state != "confirmed":
                    row = f"/engine.html#{of.replace('.', '_')}"
                    self.hold(any(row in href for href in self.sheet(path).hrefs), f"{path}: no way to {of}, read once")

    def tables(self, engines):
        """Database and CSV hold the very numbers of the JSON, form by form, and no more."""
        database = self.database
        columns = "part, step, value.form, value.text, unit, ucum, unece, min, max, nominal, min_inclusive, max_inclusive, min_si, max_si"
        stored = {}
        for row in database.execute(f"SELECT build, entry, place, state, {columns}, min_number, max_number FROM spec JOIN value ON value.spec = spec.id"):
            stored.setdefault(row[:4], {})[row[4:7]] = row[7:]
        with (self.bundle / "tables" / "spec.csv").open(encoding="utf-8", newline="") as file:
            of_spec = {row["id"]: (row["build"], row["entry"], row["place"], row["state"]) for row in csv.DictReader(file)}
        listed = {}
        with (self.bundle / "tables" / "value.csv").open(encoding="utf-8", newline="") as file:
            for row in csv.DictReader(file):
                listed.setdefault(of_spec[row["spec"]], {})[(row["part"], int(row["step"]), int(row["form"]))] = row
        counted = 0
        for engine in engines:
            for build in engine["builds"]:
                for spec in build["specs"]:
                    name = (build["id"], spec["of"], words(spec["where"]), words(spec["when"]))
                    forms = dict(forms_of(spec))
                    self.hold(set(stored.get(name, {})) == set(forms), f"baybook.sqlite: {name} has other forms")
                    self.hold(set(listed.get(name, {})) == set(forms), f"value.csv: {name} has other forms")
                    for key, form in forms.items():
                        counted += 1
                        self.form(name, form, stored[name][key], listed[name][key])
        self.hold(counted == database.execute("SELECT count(*) FROM value").fetchone()[0], "baybook.sqlite: another number of values")

    def form(self, name, form, row, line):
        either = form["min"] or form["max"]
        end = lambda which, key: form[which][key] if form[which] else None
        wanted = (form["text"], either["unit"], either["ucum"], either["unece"], end("min", "text"), end("max", "text"), end("nominal", "text"), int(form["min_inclusive"]), int(form["max_inclusive"]), end("min", "si"), end("max", "si"))
        self.hold(row[:11] == wanted, f"baybook.sqlite: {name} is {row}, not {wanted}")
        columns = ("text", "unit", "ucum", "unece", "min", "max", "nominal", "min_si", "max_si")
        self.hold(tuple(line[column] or None for column in columns) == wanted[:7] + wanted[9:], f"value.csv: {name} is {line}")
        for which, number in (("min", row[11]), ("max", row[12])):
            exact = Fraction(form[which]["si"]) if form[which] else None
            same = number is None if exact is None else abs(Fraction(number) - exact) <= abs(exact) / 10**14 + Fraction(1, 10**16)
            self.hold(same, f"baybook.sqlite: {name}: {number} is not {exact}")

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
