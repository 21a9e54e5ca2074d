"""Makes or checks tests/vectors/readings.json: what a technician types, and the one number it means.

Each text is written from a number that is known beforehand, so that nothing here reads a text. What is
refused is listed with the words it is refused in. How readings are typed is common practice, no source.
"""

import random
from fractions import Fraction

from exact import UNITS, decimals, finish, fixed, text

DICE = random.Random(413)

# The unit as we write it: how it is typed at the bench.
SPELLINGS = {
    "mm": ["mm", " mm", "millimetres", " millimeter"],
    "in": [" in", "in", '"', " inch", "in.", "″"],
    "thou": [" thou", "thou", " thous"],
    "µm": ["µm", " um", " micron", "μm"],
    "kPa": ["kPa", " kpa", " KPa"],
    "psi": ["psi", " PSI", " Psi", " psig", " lb/in2"],
    "bar": [" bar", "Bar", "bars"],
    "°C": ["°C", " degC", " ℃", "° C"],
    "°F": ["°F", " degF", "℉"],
    "Ω": ["Ω", " ohm", " Ohms", "\u2126"],
    "kΩ": ["kΩ", " kohm", " k ohms", "KΩ"],
    "V": ["V", " volts", " VDC"],
    "mV": [" mV", "mV"],
    "%": ["%", " %", " percent"],
    "N·m": [" N·m", "Nm", " N-m", " N.m"],
    "lbf·ft": [" lbf·ft", " ft-lb", " ft. lbs.", "ftlbs"],
}


def accepted(typed, unit, value, taken, read_unit=None, assumed=False):
    return {
        "typed": typed, "unit": unit,
        "reading": {"ok": True, "value": text(value), "unit": read_unit or unit, "text": taken, "assumed": assumed},
    }


def refused(typed, unit, because, help_text):
    return {"typed": typed, "unit": unit, "reading": {"ok": False, "because": because, "help": help_text}}


def after(number, unit):
    return f"{number}{'' if unit in ('°', ':1') else ' '}{unit}"


def drawn_number():
    """A number, the digits it is taken with, and a way of typing them."""
    if DICE.random() < 0.15:
        below = DICE.choice([2, 3, 4, 8, 16, 32, 64])
        above = DICE.randint(1, below - 1)
        whole = DICE.choice([0, 0, 0, 1, 2, 13])
        digits = f"{above}/{below}" if whole == 0 else f"{whole} {above}/{below}"
        return Fraction(above, below) + whole, digits, digits
    places = DICE.choice([0, 0, 1, 2, 2, 3])
    value = Fraction(DICE.randint(0, 9999), 10**places)
    digits = typed = fixed(value, places)
    if places and digits.startswith("0.") and DICE.random() < 0.4:
        typed = digits[1:]
    # A comma before just three digits may part thousands, unless a zero leads.
    elif places and (places != 3 or digits.startswith("0")) and DICE.random() < 0.4:
        typed = digits.replace(".", ",")
    elif places == 0 and DICE.random() < 0.1:
        typed = digits + "."
    if DICE.random() < 0.05 and value:
        value, digits = -value, "-" + digits
        typed = DICE.choice(["-", "−"]) + typed
    return value, digits, typed


def drawn():
    wanted = DICE.choice(list(UNITS))
    kind = UNITS[wanted][0]
    value, digits, typed = drawn_number()
    around = DICE.choice(["", "", " "])
    if DICE.random() < 0.3 and not typed.endswith("."):
        return accepted(around + typed + around, wanted, value, after(digits, wanted), assumed=True)
    unit = DICE.choice([name for name in UNITS if UNITS[name][0] == kind])
    spelling = DICE.choice(SPELLINGS[unit])
    if typed.endswith("."):
        spelling = " " + spelling.strip()
    return accepted(around + typed + spelling + around, wanted, value, after(digits, unit), unit)


NUMBER = "write digits with at most one point, or a fraction such as 1/4 or 2 1/2"
BEGIN = "begin with a number, or with min, max, under or over"
ONE = "type the one number that the gauge shows"


def hand_made():
    yield accepted(".35", "mm", Fraction("0.35"), "0.35 mm", assumed=True)
    yield accepted("0,35", "mm", Fraction("0.35"), "0.35 mm", assumed=True)
    yield accepted("0.35mm", "mm", Fraction("0.35"), "0.35 mm")
    yield accepted("14 thou", "mm", Fraction(14), "14 thou", "thou")
    yield accepted("56psi", "kPa", Fraction(56), "56 psi", "psi")
    yield accepted("1/64 in", "mm", Fraction(1, 64), "1/64 in", "in")
    yield accepted("1500", "rpm", Fraction(1500), "1500 rpm", assumed=True)
    yield accepted("1 500", "rpm", Fraction(1500), "1500 rpm", assumed=True)
    yield accepted("1'500 rpm", "rpm", Fraction(1500), "1500 rpm")
    yield accepted("62F", "°C", Fraction(62), "62 °F", "°F")
    yield accepted("17 C", "°C", Fraction(17), "17 °C")
    yield accepted("+3", "°C", Fraction(3), "3 °C", assumed=True)
    yield accepted("+90", "°", Fraction(90), "+90°", assumed=True)
    yield accepted("9.5", ":1", Fraction("9.5"), "9.5:1", assumed=True)
    yield accepted("1 1/2", "turns", Fraction(3, 2), "1 1/2 turns", assumed=True)
    yield accepted("½", "turns", Fraction(1, 2), "1/2 turns", assumed=True)
    # Kinds that a shop takes for one another are read; nothing is judged by them.
    yield accepted("12 V", "V peak", Fraction(12), "12 V", "V")
    yield accepted("25 V", "V~", Fraction(25), "25 V", "V")
    yield accepted("101 kPa abs", "kPa", Fraction(101), "101 kPa abs", "kPa abs")
    yield refused("", "mm", "no reading is typed", "type what the gauge shows, such as `0.35`")
    yield refused("   ", "mm", "no reading is typed", "type what the gauge shows, such as `0.35`")
    yield refused("1,500", "rpm", "`1,500` is not a number", "write `1500` or `1.500`, whichever is meant")
    yield refused("a bit", "mm", "`a` stands where a number is due", BEGIN)
    yield refused("1.2.3", "mm", "`1.2.3` is not a number", NUMBER)
    yield refused("1:50", ":1", "`1:50` is not a number", "write `50:1`")
    yield refused("0.15..0.25", "mm", "`0.15..0.25 mm` is more than one number", ONE)
    yield refused("0.20 ± 0.05 mm", "mm", "`0.20 ± 0.05 mm` is more than one number", ONE)
    yield refused("max 0.20", "mm", "`max 0.20 mm` is more than one number", ONE)
    yield refused("<0.20", "mm", "`<0.20` stands where a number is due", "type one number; for a leaf that goes or stops, type that leaf")
    yield refused("0.15-0.25", "mm", "`0.15-0.25` is not a number", "write `0.15..0.25`")
    yield refused("56 psi", "mm", "`psi` is a unit of pressure, not of length", "type it in mm or another unit of length")
    yield refused("5 steps", "teeth", "`steps` are not `teeth`", "type it in teeth or another unit of count")
    yield refused("12 kpA", "kPa", "unknown unit `kpA`", "did you mean `kPa` (kilopascals)?")
    yield refused("12 furlongs", "mm", "unknown unit `furlongs`", "write a unit of the table, such as mm, N·m, kPa or °C")
    yield refused("20 lb", "N·m", "`lb` could mean pounds-force or pounds of mass or pound-feet, a torque", "write `lbf` for pounds-force, or `lbm` for pounds of mass, or `lbf·ft` for pound-feet, a torque")
    yield refused("20 deg", "°C", "`deg` could mean degrees of angle or degrees Celsius or degrees Fahrenheit", "write `°` for degrees of angle, or `°C` for degrees Celsius, or `°F` for degrees Fahrenheit")
    yield refused("0.20 mm cold", "mm", "`cold` stands after the value", "end the value with its unit; write notes elsewhere")
    yield refused("1234567890123456789", "mm", "`1234567890123456789` has too many digits", "a number has at most 18 digits; write it as the manual prints it")


finish("readings.json", [*hand_made(), *(drawn() for _ in range(2000))], "What is typed at the bench, and the one number it means; made by tests/outside/vectors/readings.py.")
