"""Python's jsonschema holds every JSON file of a bundle to the schema that is shipped beside it, and refuses the file
once a key that must be there is gone or holds something else.

usage: valid.py BUNDLE...
"""

import copy
import json
import sys
from pathlib import Path

from jsonschema import Draft202012Validator

# Described by its own standard, and held to it by `frictionless validate`.
OTHER = {"datapackage.json"}


def schema_of(bundle, path):
    name = "engine" if path.parent.name == "engines" else path.stem
    return json.loads((bundle / "schemas" / "bundle" / f"{name}.schema.json").read_text(encoding="utf-8"))


def spoilt(value, schema):
    """The file with each required key of its top taken out, then filled with what no schema of ours allows."""
    for key in schema["required"]:
        less = copy.copy(value)
        del less[key]
        yield f"without {key}", less
        yield f"with another {key}", {**value, key: 0.5}


passed, failures, used = 0, [], set()
for bundle in map(Path, sys.argv[1:]):
    for path in sorted([*bundle.glob("*.json"), *bundle.glob("engines/*.json")]):
        if path.name in OTHER:
            continue
        schema = schema_of(bundle, path)
        Draft202012Validator.check_schema(schema)
        validator = Draft202012Validator(schema)
        value = json.loads(path.read_text(encoding="utf-8"))
        used.add(schema["title"])
        wrong = [f"{path}: {error.json_path}: {error.message[:200]}" for error in validator.iter_errors(value)]
        passed += not wrong
        failures += wrong[:5]
        for said, other in spoilt(value, schema):
            passed += not validator.is_valid(other)
            failures += [f"{path}: accepted {said}"] if validator.is_valid(other) else []
for failure in failures[:40]:
    print("FAILED", failure)
print(f"{passed} passed, {len(failures)} failed, {len(used)} schemas")
# Every schema of a bundle has a file somewhere.
sys.exit(1 if failures or len(used) < 15 else 0)
