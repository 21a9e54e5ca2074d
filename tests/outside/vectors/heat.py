"""Makes or checks tests/vectors/heat.json: what heat costs along an order of checks.

Worked out as a person would with a clock and a hand on the engine: what it is after each check is written
down first, from the checks before it alone, and only then asked what the next one wants.
"""

import itertools
import random

from exact import finish

DICE = random.Random(2027)
KINDS = [{"state": state, "voids": voids} for state in ("any", "cold", "hot") for voids in ([], ["cold"])]


def touched(check):
    """Whether the engine is not cold after a check, whatever it was."""
    return check["state"] == "hot" or "cold" in check["voids"]


def before(done, ahead, at):
    """What the engine is before a check: the last word of those before it, in their order."""
    words = ["hot" if one["state"] == "hot" else "warm" for one in done if touched(one)]
    now = "hot" if "hot" in words else "warm" if words else "cold"
    for one in ahead[:at]:
        if one["state"] == "hot":
            now = "hot"
        elif one["state"] == "cold":
            now = "warm" if "cold" in one["voids"] else "cold"
        elif "cold" in one["voids"] and now == "cold":
            now = "warm"
    return now


def answer(done, ahead):
    told = []
    for at, check in enumerate(ahead):
        now, wants = before(done, ahead, at), check["state"]
        first = None
        if wants != "any" and now != wants:
            first = {"cold": "cool", "hot": "warm"}[wants]
        # It takes a cold engine away if one was there, or was let cool for it, and it is touched.
        had = now == "cold" or wants == "cold"
        voids = [place for place in range(at + 1, len(ahead)) if ahead[place]["state"] == "cold"] if had and touched(check) else []
        told.append({"first": first, "voids": voids})
    return told


def cases():
    for length in range(1, 4):
        yield from (([], list(ahead)) for ahead in itertools.product(KINDS, repeat=length))
    for _ in range(300):
        yield DICE.choices(KINDS, k=DICE.randint(0, 3)), DICE.choices(KINDS, k=DICE.randint(1, 9))


ROWS = [{"done": done, "ahead": ahead, "answer": answer(done, ahead)} for done, ahead in cases()]
finish("heat.json", ROWS, "What heat costs along an order of checks; worked out by tests/outside/vectors/heat.py.")
