"""Python's jsonschema accepts and refuses the same files by our schemas as Baybook does.

usage: validate.py REPOSITORY
"""

import datetime
import json
import sys
import tomllib
from pathlib import Path

from jsonschema import Draft202012Validator

PLACES = {
    "base": "base.toml", "catalogue": "catalogue/*.toml", "relations": "catalogue/relations*.toml", "hazards": "hazards.toml", "sources": "sources.toml",
    "gauges": "gauges.toml", "machines": "machines/*.toml", "engine": "engines/*/*.toml", "codes": "codes/*.toml",
    "procedure": "procedures/*.md", "complaint": "complaints/*.toml", "rereads": "rereads/*/*.toml", "ids": "ids.toml", "shims": "jobs/shims*.toml",
}


def read(path):
    """A file as JSON: dates are strings, a procedure is its front matter."""
    text = path.read_text(encoding="utf-8")
    if path.suffix == ".md":
        text = text.split("+++\n")[1]
    return as_json(tomllib.loads(text))


def as_json(value):
    if isinstance(value, dict):
        return {key: as_json(one) for key, one in value.items()}
    if isinstance(value, list):
        return [as_json(one) for one in value]
    if isinstance(value, (datetime.date, datetime.time)):
        return value.isoformat()
    return value


def main():
    root = Path(sys.argv[1])
    corpus = root / "tests/outside/schemas"
    passed, failures = 0, []
    for kind, place in PLACES.items():
        schema = json.loads((root / "schemas" / f"{kind}.schema.json").read_text(encoding="utf-8"))
        Draft202012Validator.check_schema(schema)
        validator = Draft202012Validator(schema)
        found = (root / "specs").glob(place)
        wanted = [(path, True) for path in found if path.name.startswith("relations") == (kind == "relations")]
        for verdict in ("accept", "refuse"):
            found = list((corpus / kind / verdict).iterdir())
            assert found, f"no files to {verdict} of kind {kind}"
            wanted += [(path, verdict == "accept") for path in found]
        for path, accept in wanted:
            if validator.is_valid(read(path)) == accept:
                passed += 1
            else:
                failures.append(f"{path.relative_to(root)}: {'refused' if accept else 'accepted'}")
    for failure in failures:
        print("FAILED", failure)
    print(f"{passed} passed, {len(failures)} failed")
    sys.exit(1 if failures or passed < 150 else 0)


if __name__ == "__main__":
    main()
