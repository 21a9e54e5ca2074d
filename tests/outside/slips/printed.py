"""Reads printed values and grades how two printed forms of one value agree.

It knows nothing of Baybook's code: the grammar is the one the manual's values are typed in, the
factors are the exact ones of the international yard and pound (1959), g_n = 9.80665 m/s² (UCUM
essence 2.2) and the conventional millimetre and inch of mercury; the grades are those of rounding
in one step, half to even (ASME A112.18.1/CSA B125.1 Annex A):

strict    the first form, converted and rounded half to even to the decimals of the second, equals it
loose     only the intervals of half a digit about both overlap
conflict  neither
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction as F

INCH = F(127, 5000)
FOOT = 12 * INCH
LBF = F(8896443230521, 2 * 10**12)
KGF = F(196133, 20000)
GALLON_US = F(3785411784, 10**12)
GALLON_IMP = F(454609, 10**8)

# Unit: kind, size in the SI unit of the kind, place of its zero in that unit.
UNITS: dict[str, tuple[str, F, F]] = {
    name: (kind, F(size), F(zero))
    for kind, rows in {
        "length": [("mm", F(1, 1000), 0), ("cm", F(1, 100), 0), ("m", 1, 0), ("km", 1000, 0), ("µm", F(1, 10**6), 0),
                   ("in", INCH, 0), ("thou", INCH / 1000, 0), ("ft", FOOT, 0), ("mi", 5280 * FOOT, 0)],
        "volume": [("L", F(1, 1000), 0), ("mL", F(1, 10**6), 0), ("cm³", F(1, 10**6), 0),
                   ("US gal", GALLON_US, 0), ("US qt", GALLON_US / 4, 0), ("US fl oz", GALLON_US / 128, 0),
                   ("Imp gal", GALLON_IMP, 0), ("Imp qt", GALLON_IMP / 4, 0), ("Imp fl oz", GALLON_IMP / 160, 0)],
        "torque": [("N·m", 1, 0), ("lbf·ft", LBF * FOOT, 0), ("lbf·in", LBF * INCH, 0),
                   ("kgf·m", KGF, 0), ("kgf·cm", KGF / 100, 0), ("N·cm", F(1, 100), 0)],
        "pressure": [("kPa", 1000, 0), ("psi", LBF / INCH**2, 0), ("bar", 10**5, 0), ("MPa", 10**6, 0),
                     ("kgf/cm²", KGF * 10**4, 0), ("mmHg", F("133.322387415"), 0), ("inHg", F("3386.388640341"), 0),
                     ("inH2O", F("249.08891"), 0), ("mbar", 100, 0), ("Pa", 1, 0)],
        "absolute pressure": [("kPa abs", 1000, 0), ("psi abs", LBF / INCH**2, 0), ("bar abs", 10**5, 0)],
        "temperature": [("°C", 1, F("273.15")), ("°F", F(5, 9), F("273.15") - F(160, 9)), ("K", 1, 0)],
        "power": [("kW", 1000, 0), ("W", 1, 0), ("hp", 550 * FOOT * LBF, 0), ("PS", 75 * KGF, 0)],
        "force": [("N", 1, 0), ("kgf", KGF, 0), ("lbf", LBF, 0)],
        "spring rate": [("N/mm", 1000, 0), ("kgf/mm", KGF * 1000, 0), ("lbf/in", LBF / INCH, 0)],
        "resistance": [("Ω", 1, 0), ("kΩ", 1000, 0), ("mΩ", F(1, 1000), 0), ("MΩ", 10**6, 0)],
        "voltage": [("V", 1, 0), ("mV", F(1, 1000), 0), ("kV", 1000, 0)],
        "alternating voltage": [("V~", 1, 0), ("mV~", F(1, 1000), 0)],
        "peak voltage": [("V peak", 1, 0), ("mV peak", F(1, 1000), 0)],
        "current": [("A", 1, 0), ("mA", F(1, 1000), 0), ("µA", F(1, 10**6), 0)],
        "flow": [("mL/min", F(1, 6 * 10**7), 0), ("L/min", F(1, 60000), 0), ("L/h", F(1, 36 * 10**5), 0)],
        "time": [("s", 1, 0), ("ms", F(1, 1000), 0), ("min", 60, 0), ("h", 3600, 0)],
        "calendar time": [("days", 1, 0), ("weeks", 7, 0), ("months", F("365.25") / 12, 0), ("years", F("365.25"), 0)],
        "charge": [("A·h", 3600, 0)],
        "cold-cranking current": [("A CCA", 1, 0)],
        "rotational speed": [("rpm", 1, 0)],
        "frequency": [("Hz", 1, 0), ("kHz", 1000, 0)],
        "angle": [("°", 1, 0)],
        "turns": [("turns", 1, 0)],
        "ratio": [(":1", 1, 0)],
        "percent": [("%", F(1, 100), 0)],
        "poles": [("poles", 1, 0)],
        "teeth": [("teeth", 1, 0)],
        "clicks": [("clicks", 1, 0)],
        "steps": [("steps", 1, 0)],
        "links": [("links", 1, 0)],
    }.items()
    for name, size, zero in rows
}


@dataclass(frozen=True)
class Number:
    """A printed number: its digits, its value, one unit of its last digit."""

    text: str
    value: F
    step: F

    @staticmethod
    def read(text: str) -> "Number":
        if not re.fullmatch(r"-?\d+(\.\d+)?", text):
            raise ValueError(f"no number: {text}")
        decimals = len(text.partition(".")[2])
        return Number(text, F(text), F(1, 10**decimals))


@dataclass(frozen=True)
class Printed:
    """One printed form: its shape, its numbers by part, its unit."""

    shape: str
    parts: dict[str, Number]
    unit: str

    @property
    def kind(self) -> str:
        return UNITS[self.unit][0]

    def si(self, value: F) -> F:
        _, size, zero = UNITS[self.unit]
        return value * size + zero

    def limits(self) -> tuple[F | None, F | None]:
        """The least and the most it allows, in its own unit."""
        part = {name: number.value for name, number in self.parts.items()}
        if self.shape in ("value", "turn"):
            return part["value"], part["value"]
        if self.shape == "tolerance":
            return part["nominal"] - part["minus"], part["nominal"] + part["plus"]
        if self.shape == "percent":
            share = abs(part["nominal"]) * part["percent"] / 100
            return part["nominal"] - share, part["nominal"] + share
        return part.get("minimum"), part.get("maximum")

    def step(self) -> F:
        return min(number.step for name, number in self.parts.items() if name != "percent")


N = r"(-?\d+(?:\.\d+)?)"
SHAPES = [
    (re.compile(rf"{N} ?\.\. ?{N} ?(\D.*)"), "range", ("minimum", "maximum")),
    (re.compile(rf"{N} ± {N} ?([^\d\s].*)"), "tolerance", ("nominal", "plus")),
    (re.compile(rf"{N} \+{N}/-{N} ?(\D.*)"), "tolerance", ("nominal", "plus", "minus")),
    (re.compile(rf"{N} ?([^\d\s±]+) ± {N} %"), "percent", ("nominal", None, "percent")),
    (re.compile(rf"min {N} ?(\D.*)"), "min", ("minimum",)),
    (re.compile(rf"max {N} ?(\D.*)"), "max", ("maximum",)),
    (re.compile(rf"over {N} ?(\D.*)"), "over", ("minimum",)),
    (re.compile(rf"under {N} ?(\D.*)"), "under", ("maximum",)),
    (re.compile(rf"\+{N}(°)"), "turn", ("value",)),
    (re.compile(rf"{N} ?([^\d\s.±+].*)"), "value", ("value",)),
]


def read(text: str) -> Printed:
    """The printed form a text is; ValueError if it is none, as a range whose ends are swapped."""
    for pattern, shape, names in SHAPES:
        found = pattern.fullmatch(text.strip())
        if not found:
            continue
        if shape == "percent":
            nominal, unit, percent = found.groups()
            parts = {"nominal": Number.read(nominal), "percent": Number.read(percent)}
        else:
            *numbers, unit = found.groups()
            parts = {name: Number.read(number) for name, number in zip(names, numbers)}
            if shape == "tolerance":
                parts.setdefault("minus", parts["plus"])
        unit = unit.strip()
        if unit not in UNITS:
            raise ValueError(f"unknown unit: {unit}")
        if shape == "range" and parts["minimum"].value > parts["maximum"].value:
            raise ValueError(f"range the wrong way round: {text}")
        if any(number.value < 0 for name, number in parts.items() if name in ("plus", "minus", "percent")):
            raise ValueError(f"tolerance below zero: {text}")
        return Printed(shape, parts, unit)
    raise ValueError(f"no value: {text}")


def half_even(value: F, step: F) -> F:
    return round(value / step) * step  # Python rounds a Fraction half to even.


GRADES = ("strict", "loose", "conflict")


def grade_number(first: F, first_step: F, second: F, second_step: F, ratio: F, shift: F) -> str:
    expected = first * ratio + shift
    if half_even(expected, second_step) == second:
        return "strict"
    reach = (first_step * ratio + second_step) / 2
    return "loose" if abs(expected - second) < reach else "conflict"


def grade(first: Printed, second: Printed) -> str:
    """How the second form agrees with the first, the maker's own: strict, loose or conflict."""
    if first.kind != second.kind:
        return "conflict"
    (_, size, zero), (_, other_size, other_zero) = UNITS[first.unit], UNITS[second.unit]
    ratio, shift = size / other_size, (zero - other_zero) / other_size
    grades = []
    if first.shape == second.shape:
        for name, number in first.parts.items():
            other = second.parts[name]
            by = {"plus": (ratio, F(0)), "minus": (ratio, F(0)), "percent": (F(1), F(0))}.get(name, (ratio, shift))
            grades.append(grade_number(number.value, number.step, other.value, other.step, *by))
    else:
        for limit, other in zip(first.limits(), second.limits()):
            if limit is None and other is None:
                continue
            if limit is None or other is None:
                return "conflict"
            grades.append(grade_number(limit, first.step(), other, second.step(), ratio, shift))
        if {first.shape, second.shape} & {"under", "over"}:
            grades.append("loose")
    return max(grades, key=GRADES.index)


def grade_forms(texts: list[str]) -> str:
    """The worst grade of the further printed forms against the first; `unreadable` if one is no value."""
    try:
        forms = [read(text) for text in texts]
    except ValueError:
        return "unreadable"
    if len(forms) < 2:
        return "single"
    return max((grade(forms[0], other) for other in forms[1:]), key=GRADES.index)
