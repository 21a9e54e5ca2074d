"""Holds `baybook check --format sarif` to the JSON schema of SARIF 2.1.0, and to what a viewer makes of it.

    python validate.py REPOSITORY BAYBOOK

The schema is that of OASIS SARIF 2.1.0 (rtm.5), as npm's `@microsoft/jest-sarif` carries it; PyPI's `jsonschema`
validates. What the schema can't say is held here, from the standard: a rule's index points at the rule (3.27.6), a
location is a file of the base once its URI is decoded (3.4.4), and a region lies within the text, in Unicode code
points, its end exclusive (3.30).
"""

from __future__ import annotations

import json
import shutil
import subprocess
import sys
import tempfile
from pathlib import Path
from urllib.parse import unquote

from jsonschema import Draft4Validator

LEVELS = {"error", "warning", "note"}


def bases(repository: Path, folder: Path) -> dict[str, Path]:
    """The demo base as it is, every case, and a base whose file names need encoding."""
    found = {"demo": repository / "specs"}
    for case in sorted((repository / "tests/cases").glob("*/*")):
        whole = folder / case.parent.name / case.name
        if (case / "base").is_dir():
            shutil.copytree(case / "base", whole)
        else:
            shutil.copytree(repository / "tests/rule-base", whole)
            shutil.copytree(case / "patch", whole, dirs_exist_ok=True)
        found[f"{case.parent.name}/{case.name}"] = whole
    odd = folder / "odd names"
    shutil.copytree(repository / "tests/rule-base", odd)
    (odd / "catalogue" / "größe 100%.toml").write_text("group = 5\n", encoding="utf-8")
    found["odd names"] = odd
    return found


def log(baybook: str, base: Path, *more: str) -> dict:
    done = subprocess.run([baybook, "check", str(base), "--format", "sarif", *more], capture_output=True, check=False)
    if done.returncode > 1:
        sys.exit(f"{base}: {done.stderr.decode()}")
    return json.loads(done.stdout)


def problems(log: dict, base: Path) -> list[str]:
    """What the schema can't say."""
    [run] = log["runs"]
    rules = run["tool"]["driver"]["rules"]
    found = []
    if len({rule["id"] for rule in rules}) != len(rules):
        found.append("two rules have one id")
    for result in run["results"]:
        at = result["message"]["text"].splitlines()[0]
        if rules[result["ruleIndex"]]["id"] != result["ruleId"]:
            found.append(f"{at}: the index is of another rule")
        if result["level"] not in LEVELS:
            found.append(f"{at}: level {result['level']}")
        related = result["relatedLocations"]
        if [one["id"] for one in related] != list(range(len(related))):
            found.append(f"{at}: related locations are not numbered")
        for place in result["locations"] + related:
            found += [f"{at}: {one}" for one in misplaced(place["physicalLocation"], base, run)]
    return found


def misplaced(place: dict, base: Path, run: dict) -> list[str]:
    artifact = place["artifactLocation"]
    if artifact["uriBaseId"] not in run["originalUriBaseIds"]:
        return [f"no such base: {artifact['uriBaseId']}"]
    path = base / unquote(artifact["uri"])
    region = place.get("region")
    if region is None:
        return []
    if not path.exists():
        # A finding on a file that should be there stands at its start.
        return [] if region["startLine"] == region["startColumn"] == 1 else [f"no such file: {artifact['uri']}"]
    if not path.is_file():
        return []
    # SARIF counts lines by \n and \r\n; a byte that is no text takes one place.
    lines = path.read_bytes().decode("utf-8", errors="replace").removeprefix("\ufeff").replace("\r\n", "\n").split("\n")
    start, end = (region["startLine"], region["startColumn"]), (region["endLine"], region["endColumn"])
    if start > end:
        return [f"ends before it begins: {region}"]
    outside = any(line > len(lines) or column > len(lines[line - 1]) + 1 for line, column in (start, end))
    return [f"outside the text of {artifact['uri']}: {region}"] if outside else []


def main(repository: Path, baybook: str) -> int:
    modules = repository / "tests/outside/node_modules"
    schema = json.loads((modules / "@microsoft/jest-sarif/lib/schemas/sarif-2.1.0-rtm.5.json").read_text("utf-8"))
    Draft4Validator.check_schema(schema)
    validator = Draft4Validator(schema, format_checker=Draft4Validator.FORMAT_CHECKER)
    wrong, results, clean = [], 0, 0
    with tempfile.TemporaryDirectory() as folder:
        every = bases(repository, Path(folder))
        for name, base in every.items():
            for more in ([], ["--notes"]):
                found = log(baybook, base, *more)
                for error in validator.iter_errors(found):
                    wrong.append(f"{name}: {error.json_path}: {error.message[:200]}")
                wrong += [f"{name}: {one}" for one in problems(found, base)]
                results += len(found["runs"][0]["results"])
                clean += not found["runs"][0]["results"]
        # The validator must be able to refuse: a log with a level of our own, one without a message.
        broken = log(baybook, every["many/twenty-mistakes"])
        broken["runs"][0]["results"][0]["level"] = "fatal"
        del broken["runs"][0]["results"][1]["message"]
        if len(list(validator.iter_errors(broken))) != 2:
            wrong.append("the schema lets a broken log pass")
    print("\n".join(wrong) if wrong else f"{len(every)} bases, {results} results, {clean} logs without any: all valid")
    return 1 if wrong or not results or not clean else 0


if __name__ == "__main__":
    sys.exit(main(Path(sys.argv[1]).resolve(), str(Path(sys.argv[2]).resolve())))
