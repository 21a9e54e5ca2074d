"""Every committed shim plan is the best there is, by a search through all plans that knows none of Baybook's code.

usage: brute.py VECTORS

Fractions throughout; lash after = fitted + measured - shim, as the shim takes up what the gap loses (geometry).
"""

import json
import re
import sys
from fractions import Fraction

IN_MM = {"mm": Fraction(1), "in": Fraction(254, 10)}  # international inch, 1959
NUMBER = r"([0-9.]+)"


def length(text):
    """`0.09 mm` in millimetres; None for `under ...`."""
    match = re.fullmatch(rf"{NUMBER} (mm|in)", text)
    return Fraction(match[1]) * IN_MM[match[2]] if match else None


def window(text):
    """Lower and upper limit in millimetres, each with whether it is itself allowed."""
    number, unit = text.rsplit(" ", 1)
    size = IN_MM[unit]
    if match := re.fullmatch(rf"{NUMBER}\.\.{NUMBER}", number.replace("..", " .. ").replace(" .. ", "..")):
        return (Fraction(match[1]) * size, True), (Fraction(match[2]) * size, True)
    if match := re.fullmatch(rf"{NUMBER} ± {NUMBER}", number):
        middle, off = Fraction(match[1]), Fraction(match[2])
        return ((middle - off) * size, True), ((middle + off) * size, True)
    if match := re.fullmatch(rf"{NUMBER} \+{NUMBER}/-{NUMBER}", number):
        middle, plus, minus = (Fraction(match[place]) for place in (1, 2, 3))
        return ((middle - minus) * size, True), ((middle + plus) * size, True)
    if match := re.fullmatch(rf"under {NUMBER}", number):
        return None, (Fraction(match[1]) * size, False)
    if match := re.fullmatch(rf"over {NUMBER}", number):
        return (Fraction(match[1]) * size, False), None
    raise ValueError(text)


def stock_of(job):
    if "stock_steps" in job:
        match = re.fullmatch(rf"{NUMBER}\.\.{NUMBER} mm by {NUMBER} mm", job["stock_steps"])
        size, last, step = (Fraction(match[place]) for place in (1, 2, 3))
        sizes = []
        while size <= last:
            sizes.append((size, None))
            size += step
        return sizes
    return [(length(one), None) if isinstance(one, str) else (length(one["size"]), one["pieces"]) for one in job["stock"]]


def best(job):
    """The quality of the best plan, and the first such plan in the order of the file."""
    def aim(one):
        low, high = window(one.get("window", job["window"]))
        if "target" in one or ("window" not in one and "target" in job):
            return low, high, length(one.get("target", job.get("target")))
        return low, high, (low[0] + high[0]) / 2

    aims = [aim(one) for one in job["valves"]]
    stock = stock_of(job)
    valves = [(length(one["measured"]), length(one["fitted"])) for one in job["valves"]]
    left = [pieces if pieces is not None else len(valves) for _, pieces in stock]
    found = [None]

    def fits(lash, place):
        low, high, _ = aims[place]
        above = low is None or lash > low[0] or (low[1] and lash == low[0])
        below = high is None or lash < high[0] or (high[1] and lash == high[0])
        return above and below and lash >= 0

    def go(chosen, quality):
        if found[0] and quality > found[0][0]:
            return
        place = len(chosen)
        if place == len(valves):
            stays = [source[0] in ("kept", "unsolved") for source in chosen]
            if all(source[0] != "engine" or not stays[source[1]] for source in chosen):
                if not found[0] or quality < found[0][0]:
                    found[0] = (quality, list(chosen))
            return
        measured, fitted = valves[place]
        unsolved, bought, moved, off = quality
        target = aims[place][2]

        def after(shim):
            lash = measured + fitted - shim if measured else None
            return lash if lash is not None and fits(lash, place) else None

        lash = after(fitted)
        if lash is not None:
            go(chosen + [("kept",)], (unsolved, bought, moved, off + abs(lash - target)))
        for other, (_, shim) in enumerate(valves):
            if other != place and ("engine", other) not in chosen and (lash := after(shim)) is not None:
                go(chosen + [("engine", other)], (unsolved, bought, moved + 1, off + abs(lash - target)))
        for index, (size, _) in enumerate(stock):
            if left[index] and (lash := after(size)) is not None:
                left[index] -= 1
                go(chosen + [("stock", index)], (unsolved, bought + 1, moved, off + abs(lash - target)))
                left[index] += 1
        go(chosen + [("unsolved",)], (unsolved + 1, bought, moved, off))

    go([], (0, 0, 0, Fraction(0)))
    return found[0], stock, valves


def expected(job):
    """The answer as Baybook writes it."""
    (quality, chosen), stock, valves = best(job)
    names = [one["name"] for one in job["valves"]]
    unit = IN_MM[job["window"].rsplit(" ", 1)[1]]
    lines = []
    for name, (measured, fitted), source in zip(names, valves, chosen):
        shim = {"engine": lambda: valves[source[1]][1], "stock": lambda: stock[source[1]][0]}.get(source[0], lambda: fitted)()
        lines.append({
            "valve": name, "fitted": fitted, "shim": shim, "from": "kept" if source[0] == "unsolved" else source[0],
            "moved_from": names[source[1]] if source[0] == "engine" else None,
            "lash_after": None if measured is None else (measured + fitted - shim) / unit,
        })
    unsolved = [name for name, source in zip(names, chosen) if source[0] == "unsolved"]
    return {"plan": lines, "bought": quality[1], "unsolved": unsolved}


def main():
    cases = json.loads(open(sys.argv[1], encoding="utf-8").read())
    failures = 0
    for case in cases:
        wanted, answer = expected(case["job"]), case["answer"]
        shim_unit = IN_MM[answer["shim_unit"]]
        for line in answer["plan"]:
            line["fitted"], line["shim"] = Fraction(line["fitted"]) * shim_unit, Fraction(line["shim"]) * shim_unit
            line["lash_after"] = None if line["lash_after"] is None else Fraction(line["lash_after"])
        if any(answer[key] != wanted[key] for key in wanted):
            failures += 1
            print("FAILED", json.dumps(case["job"], ensure_ascii=False), "\n  wanted", wanted, "\n  given ", answer)
    print(f"{len(cases) - failures} passed, {failures} failed")
    sys.exit(1 if failures or len(cases) < 300 else 0)


main()
