"""Asks a bundle the same ten questions in five languages, and holds all answers to be the same.

Makes an older release of the demo base with one wider limit, compiles the base since that release, then runs each
consumer: Python's standard library, Node, TypeScript under `tsc --strict`, SQL, and Rust.

usage: agree.py BAYBOOK WORK TSC
"""

import json
import os
import re
import shutil
import sqlite3
import subprocess
import sys
from pathlib import Path

here = Path(__file__).resolve().parent
root = here.parent.parent
baybook, work, tsc = (Path(one).absolute() for one in sys.argv[1:4])
work = work / "consumers"
shutil.rmtree(work, ignore_errors=True)
shutil.copytree(root / "specs", work / "older")
for kind in ("engines", "rereads"):
    file = work / "older" / kind / "oxbarrow" / "ox-887.toml"
    text = file.read_text(encoding="utf-8")
    wider = text.replace('["0.23 ± 0.02 mm", "0.009 ± 0.001 in"]', '["0.23 ± 0.03 mm", "0.009 ± 0.001 in"]')
    assert wider != text, f"{file} has no such limit any more"
    file.write_text(wider, encoding="utf-8")
subprocess.run([baybook, "compile", root / "specs", "--since", work / "older", "--out", work / "public"], check=True, stdout=subprocess.PIPE)
bundle = work / "public" / "bundle"

# As a program would ship them: the types of the bundle beside its own source.
shutil.copy(bundle / "types" / "baybook.d.ts", work)
shutil.copy(here / "questions.ts", work)
types = tsc.parent.parent / "@types"
subprocess.run([tsc, "--strict", "--target", "es2022", "--module", "nodenext", "--moduleResolution", "nodenext", "--typeRoots", types, "--types", "node", "questions.ts"], cwd=work, check=True)
# What is of another kind, or no unit at all, does not compile: each of these lines is an error, and no other.
wrong = [
    'const pressure: Quantity<"length"> = { text: "1", unit: "psi", ucum: null, unece: null, si: "1" };',
    'const unit: Unit = "mmm";',
    'const kind: Kind = "lenght";',
    'const state: Spec["confirmation"]["state"] = "sure";',
    'const spelt = (head: Head) => head.si["presure"];',
    'const none = (range: Range) => range.min.text;',
]
(work / "wrong.ts").write_text('import type { Head, Kind, Quantity, Range, Spec, Unit } from "./baybook";\n' + "\n".join(wrong) + "\n", encoding="utf-8")
refused = subprocess.run([tsc, "--strict", "--noEmit", "--target", "es2022", "--module", "nodenext", "--moduleResolution", "nodenext", "--types", "", "wrong.ts"], cwd=work, stdout=subprocess.PIPE, check=False).stdout.decode()
assert sorted({int(line) for line in re.findall(r"^wrong\.ts\((\d+),", refused, re.M)}) == list(range(2, 2 + len(wrong))), refused
subprocess.run([sys.executable, "-c", "import baybook; assert 'mm' in baybook.LengthUnit.__args__ and 'psi' not in baybook.LengthUnit.__args__; baybook.Serial, baybook.Spec, baybook.Unit"], cwd=bundle / "types", env={**os.environ, "PYTHONDONTWRITEBYTECODE": "1"}, check=True)


def said(*command):
    return json.loads(subprocess.run(command, check=True, stdout=subprocess.PIPE).stdout)


def by_sql():
    database = sqlite3.connect(f"file:{bundle / 'baybook.sqlite'}?mode=ro", uri=True)
    questions = "\n".join(line for line in (here / "questions.sql").read_text(encoding="utf-8").splitlines() if not line.startswith("--"))
    rows = [database.execute(question).fetchone() for question in questions.split(";\n") if question.strip()]
    return {name: json.loads(answer) for name, answer in rows}


def by_rust():
    answers = work / "rust.json"
    environment = {**os.environ, "BAYBOOK_BUNDLE": str(bundle), "BAYBOOK_ANSWERS": str(answers)}
    subprocess.run(["cargo", "test", "--locked", "--quiet", "--test", "bundle_consumer"], cwd=root, env=environment, check=True, stdout=subprocess.PIPE)
    return json.loads(answers.read_text(encoding="utf-8"))


def readme():
    """Runs the examples of the README where they stand, beside `public`; each must say something."""
    text = (root / "README.md").read_text(encoding="utf-8")
    blocks = {name: re.search(rf"```{name}\n(.*?)```", text, re.S)[1] for name in ("python", "javascript", "typescript", "sql")}
    (work / "readme.ts").write_text(blocks["typescript"], encoding="utf-8")
    subprocess.run([tsc, "--strict", "--target", "es2022", "--module", "nodenext", "--moduleResolution", "nodenext", "--typeRoots", types, "--types", "node", "readme.ts"], cwd=work, check=True)
    said = {
        "Python": subprocess.run([sys.executable, "-c", blocks["python"]], cwd=work, check=True, stdout=subprocess.PIPE).stdout.decode(),
        "Node": subprocess.run(["node", "--input-type=commonjs", "--eval", blocks["javascript"]], cwd=work, check=True, stdout=subprocess.PIPE).stdout.decode(),
        "TypeScript": subprocess.run(["node", "readme.js"], cwd=work, check=True, stdout=subprocess.PIPE).stdout.decode(),
        "SQL": str(sqlite3.connect(bundle / "baybook.sqlite").execute(blocks["sql"].rstrip().rstrip(";")).fetchall()),
    }
    return [language for language, words in said.items() if "0.2" not in words]


answers = {
    "Python": said(sys.executable, here / "python.py", bundle),
    "Node": said("node", here / "node.mjs", bundle),
    "TypeScript": said("node", work / "questions.js", bundle),
    "SQL": by_sql(),
    "Rust": by_rust(),
}
questions = answers["Python"]
assert len(questions) == 10
failed = False
for question, wanted in questions.items():
    if not wanted:
        failed = True
        print(f"FAILED {question}: nobody has an answer")
    for language, given in answers.items():
        if given.get(question) != wanted:
            failed = True
            print(f"FAILED {question}: {language} says {given.get(question)}, Python {wanted}")
for language in readme():
    failed = True
    print(f"FAILED the README's example in {language} gives no lash")
print(f"{len(questions)} questions, {len(answers)} languages")
sys.exit(failed)
