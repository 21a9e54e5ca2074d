"""Every committed bench sum against formulas written down here from their sources, in floats, with none of Baybook's code.

usage: check.py VECTORS

Sources stand in the table of sums; each formula below is that source's own form, not the one of the table, where
there are two ways to write it.
"""

import json
import math
import re
import sys
from fractions import Fraction

UNIT = {  # to the unit that the formulas here work in
    "mm": 1, "cm": 10, "in": 25.4, "m": 1000, "ft": 304.8, "°": 1, "N·m": 1, "lbf·ft": 1.3558179483314004, "%": 1,
    "V": 1, "A": 1, "mA": 1, "A·h": 1, "A CCA": 1, "W": 1, "SG": 1, "Ω": 1, "kΩ": 1000, "kPa": 1, "psi": 6.894757293168361,
    "kPa abs": 1, "MPa": 1, "rpm": 1, "ms": 1, "mL/min": 1, "L": 1000, "mL": 1, ":1": 1, "poles": 1, "km/h": 1, "h": 1,
    "K": 1, "Δ°F": 1 / 1.8, "bar": 100, "g": 1, "V~": 1, "": 1, "mm²": 1, "turns": 1, "Hz": 1, "days": 1,
}


def quantity(text):
    """`5 cm` as 50; temperatures in degrees Celsius."""
    match = re.fullmatch(r"\s*([+-]?[0-9./]+)\s*(.*?)\s*", text)
    number, unit = float(Fraction(match[1])), match[2]
    if unit == "°F":
        return (number - 32) / 1.8
    return number if unit == "°C" else number * UNIT[unit]


def many(text):
    return [quantity(one) for one in re.split(r"[,;\n]", text)]


def points(text):
    return sorted(tuple(map(quantity, one.split("="))) for one in re.split(r"[,;\n]", text))


def line(table, x):
    for (x0, y0), (x1, y1) in zip(table, table[1:]):
        if min(x0, x1) <= x <= max(x0, x1):
            return y0 + (y1 - y0) * (x - x0) / (x1 - x0)
    raise ValueError


def thermistor(table, celsius):
    """By beta between two points: R = R0 exp(beta (1/T - 1/T0))."""
    for (t0, r0), (t1, r1) in zip(table, table[1:]):
        if t0 <= celsius <= t1:
            beta = math.log(r0 / r1) / (1 / (t0 + 273.15) - 1 / (t1 + 273.15))
            return r0 * math.exp(beta * (1 / (celsius + 273.15) - 1 / (t0 + 273.15)))
    raise ValueError


def thermistor_back(table, ohms):
    for (t0, r0), (t1, r1) in zip(table, table[1:]):
        if min(r0, r1) <= ohms <= max(r0, r1):
            beta = math.log(r0 / r1) / (1 / (t0 + 273.15) - 1 / (t1 + 273.15))
            return 1 / (1 / (t0 + 273.15) + math.log(ohms / r0) / beta) - 273.15
    raise ValueError


def stress_area(d, p):
    """ISO 898-1, by way of d2 and d3 of ISO 724."""
    h = math.sqrt(3) / 2 * p
    d2, d3 = d - 3 / 4 * h, d - 5 / 4 * h - h / 6
    return math.pi / 4 * ((d2 + d3) / 2) ** 2


def area(g):
    """By ASME B1.1 where the pitch is a whole part of an inch, as that of a unified thread is; else by ISO 898-1."""
    d, p = q(g, "diameter"), q(g, "pitch")
    threads = 25.4 / p
    if threads > 80 or abs(threads - round(threads)) >= 0.05:
        return stress_area(d, p)
    return math.pi / 4 * (d / 25.4 - 0.9743 / threads) ** 2 * 25.4**2


def strength(g):
    """In MPa; other pressures are in kPa here."""
    return q(g, "strength") / (1 if g["strength"].endswith("MPa") else 1000)


def sizes(g):
    """The sizes that exist on either side of the one wanted, by counting from the first."""
    wanted = q(g, "fitted") + q(g, "measured") - q(g, "target")
    step, size = q(g, "step", "0.05 mm"), q(g, "from", "0 mm")
    while size > wanted + 1e-9:
        size -= step
    while size + step <= wanted + 1e-9:
        size += step
    return size, size + step


def air(metres):
    """US Standard Atmosphere 1976 in its own constants, Pa."""
    h = 6356766 * metres / (6356766 + metres)
    return 101325 * (1 - 0.0065 * h / 288.15) ** (9.80665 * 0.0289644 / (8.31432 * 0.0065))


FLOODED = [(11.89, 0), (12.06, 25), (12.24, 50), (12.45, 75), (12.65, 100)]
AGM = [(11.80, 0), (12.00, 25), (12.30, 50), (12.60, 75), (12.80, 100)]
LEAST = [(0, 8.5), (10, 8.7), (20, 8.9), (30, 9.1), (40, 9.3), (50, 9.4), (60, 9.5), (70, 9.6), (500, 9.6)]


def rest(g):
    table = AGM if g["kind"] == "agm" else FLOODED
    volts = quantity(g["volts"])
    return 100 if volts > table[-1][0] else 0 if volts < table[0][0] else line(table, volts)


def travel(g):
    r, l, a = q(g, "stroke") / 2, q(g, "rod"), math.radians(q(g, "angle"))
    pin = r * math.cos(a) + math.sqrt(l * l - (r * math.sin(a)) ** 2)
    return (r + l - pin)


def crank(g):
    """By halving on the travel itself."""
    low, high = 0.0, 180.0
    for _ in range(200):
        middle = (low + high) / 2
        if travel({**g, "angle": f"{middle:.15f}°"}) < q(g, "travel"):
            low = middle
        else:
            high = middle
    return low


def q(g, key, unless=None):
    return quantity(g.get(key, unless))


def each(g, key, of):
    return [of(one) for one in many(g[key])]


SUMS = {
    "adapter": {"set": lambda g: q(g, "torque") / (1 + q(g, "adapter") / q(g, "wrench") * math.cos(math.radians(q(g, "angle", "0"))))},
    "wrench": {"share": lambda g: each(g, "wrenches", lambda one: q(g, "torque") / one * 100)},
    "advance": {"advance": lambda g: q(g, "angle") / 360 * q(g, "pitch"), "turns": lambda g: q(g, "angle") / 360},
    "proof": {
        "torque": lambda g: q(g, "friction", "0.2") * q(g, "diameter") / 1000 * q(g, "share", "75") / 100 * strength(g) * area(g),
        "low": lambda g: 0.15 * q(g, "diameter") / 1000 * q(g, "share", "75") / 100 * strength(g) * area(g),
        "high": lambda g: 0.30 * q(g, "diameter") / 1000 * q(g, "share", "75") / 100 * strength(g) * area(g),
        "area": lambda g: area(g),
    },
    "turn": {
        "angle": lambda g: abs(q(g, "measured") - q(g, "target")) / q(g, "ratio", "1") / q(g, "pitch") * 360,
        "turns": lambda g: abs(q(g, "measured") - q(g, "target")) / q(g, "ratio", "1") / q(g, "pitch"),
    },
    "size": {
        "wanted": lambda g: q(g, "fitted") + q(g, "measured") - q(g, "target"),
        "below": lambda g: sizes(g)[0],
        "above": lambda g: sizes(g)[1],
        "looser": lambda g: q(g, "fitted") + q(g, "measured") - sizes(g)[0],
        "tighter": lambda g: q(g, "fitted") + q(g, "measured") - sizes(g)[1],
    },
    "resistance": {"reads": lambda g: thermistor(points(g["points"]), q(g, "at"))},
    "temperature": {"at": lambda g: thermistor_back(points(g["points"]), q(g, "reads"))},
    "voltage": {"reads": lambda g: line(points(g["points"]), q(g, "at"))},
    "pressure": {"at": lambda g: line([(y, x) for x, y in points(g["points"])], q(g, "reads"))},
    "soak": {"off": lambda g: each(g, "sensors", lambda one: one - q(g, "shop")), "spread": lambda g: max(many(g["sensors"])) - min(many(g["sensors"]))},
    "copper": {"cold": lambda g: q(g, "resistance") * (234.5 + 20) / (234.5 + q(g, "at"))},
    "rest": {"charge": rest},
    "gravity": {
        "corrected": lambda g: each(g, "cells", lambda one: one + (q(g, "at") * 1.8 + 32 - 80) * 0.0004),
        "spread": lambda g: max(many(g["cells"])) - min(many(g["cells"])),
    },
    "load": {"load": lambda g: q(g, "cca") / 2, "least": lambda g: line(LEAST, q(g, "at") * 1.8 + 32)},
    "rise": {
        "rise": lambda g: q(g, "running") - q(g, "rest"),
        "least": lambda g: 2.25 * q(g, "nominal", "12 V") / 2,
        "most": lambda g: 15.2 / 6 * q(g, "nominal", "12 V") / 2,
    },
    "stator": {
        "each": lambda g: each(g, "readings", lambda one: one / (q(g, "speed") / 1000)),
        "off": lambda g: each(g, "readings", lambda one: 300 * one / sum(many(g["readings"])) - 100),
    },
    "net": {"net": lambda g: q(g, "stator") / 14 - sum(one / 14 for one in many(g["loads"]))},
    "refill": {"hours": lambda g: (q(g, "capacity") - q(g, "capacity") * q(g, "charge") / 100) / q(g, "current") * 1.15},
    "drain": {"days": lambda g: q(g, "capacity") / 2 / (q(g, "current") / 1000) / 24},
    "altitude": {
        "here": lambda g: q(g, "limit") * air(q(g, "height") / 1000) / 101325,
        "air": lambda g: air(q(g, "height") / 1000) / 1000,
        "share": lambda g: air(q(g, "height") / 1000) / 1013.25,
    },
    "spread": {
        "spread": lambda g: 100 - 100 * min(many(g["readings"])) / max(many(g["readings"])),
        "below": lambda g: each(g, "readings", lambda one: 100 - 100 * one / max(many(g["readings"]))),
    },
    "leak": {"leak": lambda g: 100 - 100 * q(g, "cylinder") / q(g, "supply")},
    "together": {
        "below": lambda g: 100 - 100 * q(g, "reading") / q(g, "least"),
        "above": lambda g: 100 * q(g, "reading") / q(g, "least") - 100,
        "rise": lambda g: 100 * q(g, "oiled") / q(g, "reading") - 100,
    },
    "duty": {"duty": lambda g: 100 * q(g, "open") / (2 * 60000 / q(g, "speed"))},
    "flow": {"flow": lambda g: q(g, "flow") * (q(g, "to") / q(g, "from")) ** 0.5},
    "balance": {
        "off": lambda g: each(g, "readings", lambda one: 100 * one * len(many(g["readings"])) / sum(many(g["readings"])) - 100),
        "mean": lambda g: sum(many(g["readings"])) / len(many(g["readings"])),
    },
    "trim": {"total": lambda g: q(g, "short") + q(g, "long") + q(g, "short") * q(g, "long") / 100},
    "premix": {"oil": lambda g: q(g, "fuel") / q(g, "ratio"), "percent": lambda g: 100 / q(g, "ratio")},
    "travel": {"travel": travel},
    "angle": {"angle": crank},
    "hertz": {"frequency": lambda g: q(g, "speed") / 60 * q(g, "poles") / 2},
    "droop": {"droop": lambda g: 100 * q(g, "unloaded") / q(g, "loaded") - 100},
    "slip": {"slip": lambda g: 100 - 100 * q(g, "speed") / q(g, "theory")},
    "belt": {"length": lambda g: 2 * q(g, "centres") + math.pi / 2 * (q(g, "large") + q(g, "small")) + (q(g, "large") - q(g, "small")) ** 2 / 4 / q(g, "centres")},
    "wear": {"hours": lambda g: q(g, "between") * (q(g, "now") - q(g, "limit")) / (q(g, "previous") - q(g, "now"))},
    "coolant": {"drain": lambda g: q(g, "volume") * (q(g, "wants") - q(g, "has")) / (100 - q(g, "has"))},
}


def digits(text, unit):
    """Half a unit of the last digit shown."""
    number = re.match(r"-?[0-9.]+", text)[0]
    decimals = len(number.split(".")[1]) if "." in number else 0
    return 0.5 * 10 ** -decimals * UNIT.get(unit, 1)


def main():
    cases = json.loads(open(sys.argv[1], encoding="utf-8").read())["cases"]
    compared, failures, seen = 0, 0, set()
    for case in cases:
        for key in {found["key"] for found in case.get("outcome", {}).get("results", [])}:
            wanted = SUMS[case["sum"]][key](case["given"])
            found = [one for one in case["outcome"]["results"] if one["key"] == key]
            for want, have in zip(wanted if isinstance(wanted, list) else [wanted], found, strict=True):
                compared += 1
                seen.add((case["sum"], key))
                unit = have["unit"] or ""
                given = have["value"].split("/")
                value = float(given[0]) / float(given[1] if len(given) > 1 else 1) * UNIT.get(unit, 1)
                near = math.isclose(value, want, rel_tol=1e-8, abs_tol=1e-8)
                shown = float(re.match(r"-?[0-9.]+", have["text"])[0]) * UNIT.get(unit, 1)
                if not near or abs(shown - want) > digits(have["text"], unit) * (1 + 1e-6):
                    failures += 1
                    print("FAILED", case["sum"], key, case["given"], "wanted", want, "given", have["value"], have["text"])
    missing = {(sum_, key) for sum_, keys in SUMS.items() for key in keys} - seen
    for one in missing:
        print("FAILED never compared:", *one)
    print(f"{compared} passed, {failures + len(missing)} failed")
    sys.exit(1 if failures or missing or compared < 500 else 0)


main()
