"""Checks the vectors of conversions against pint, an independent library of units.

    python3 -m venv .venv && .venv/bin/pip install pint
    .venv/bin/python tests/outside/quantity/pint_check.py tests/vectors/convert.json

Every limit is converted by pint (whose definitions are its own) and compared to 1e-12 relative.
The rounding is checked by its rule, in rationals: a shown window lies inside the real one and
within one step of it, a single value is the half-even multiple of its step.

pint's mmHg, inHg and water columns are the conventional ones, as ours are; UCUM's metre of mercury
differs by 2.9e-6, and is no source here.
"""

import json
import sys
from fractions import Fraction

import pint

PINT = {
    "mm": "millimeter", "in": "inch", "thou": "thou", "µm": "micrometer", "cm": "centimeter",
    "m": "meter", "km": "kilometer", "mi": "mile", "ft": "foot",
    "mm²": "millimeter**2", "cm²": "centimeter**2", "in²": "inch**2", "m²": "meter**2",
    "L": "liter", "mL": "milliliter", "cm³": "centimeter**3", "in³": "inch**3", "m³": "meter**3",
    "US qt": "quart", "US fl oz": "fluid_ounce", "US pt": "pint", "US gal": "gallon",
    "Imp qt": "imperial_quart", "Imp fl oz": "imperial_fluid_ounce", "Imp pt": "imperial_pint",
    "Imp gal": "imperial_gallon",
    "g": "gram", "kg": "kilogram", "lbm": "pound", "ozm": "ounce", "mg": "milligram", "t": "metric_ton",
    "N": "newton", "kgf": "force_kilogram", "lbf": "force_pound", "kN": "kilonewton",
    "N·m": "newton*meter", "lbf·ft": "force_pound*foot", "lbf·in": "force_pound*inch",
    "kgf·m": "force_kilogram*meter", "kgf·cm": "force_kilogram*centimeter", "N·cm": "newton*centimeter",
    "kPa": "kilopascal", "psi": "psi", "bar": "bar", "kgf/cm²": "force_kilogram/centimeter**2",
    "MPa": "megapascal", "mmHg": "millimeter_Hg", "inHg": "inch_Hg", "inH2O": "inch_H2O",
    "cmHg": "centimeter_Hg", "mmH2O": "millimeter_H2O",
    "mbar": "millibar", "hPa": "hectopascal", "Pa": "pascal",
    "J": "joule", "mJ": "millijoule", "kJ": "kilojoule", "W·h": "watt*hour", "kW·h": "kilowatt*hour",
    "kW": "kilowatt", "W": "watt", "hp": "horsepower", "PS": "metric_horsepower",
    "N/mm": "newton/millimeter", "kgf/mm": "force_kilogram/millimeter", "lbf/in": "force_pound/inch",
    "N/m": "newton/meter",
    "s": "second", "min": "minute", "h": "hour", "ms": "millisecond", "µs": "microsecond",
    "months": "month", "years": "year", "weeks": "week", "days": "day",
    "Hz": "hertz", "kHz": "kilohertz",
    "km/h": "kilometer/hour", "mph": "mile/hour", "m/s": "meter/second",
    "mL/min": "milliliter/minute", "L/min": "liter/minute", "cm³/min": "centimeter**3/minute",
    "L/h": "liter/hour", "US gal/min": "gallon/minute", "US gal/h": "gallon/hour",
    "Imp gal/min": "imperial_gallon/minute",
    "°C": "degC", "°F": "degF", "K": "kelvin", "Δ°F": "delta_degF",
    "%": "percent", "ppm": "ppm",
    "V": "volt", "mV": "millivolt", "kV": "kilovolt",
    "A": "ampere", "mA": "milliampere", "µA": "microampere",
    "Ω": "ohm", "kΩ": "kiloohm", "MΩ": "megaohm", "mΩ": "milliohm",
    "µF": "microfarad", "nF": "nanofarad", "A·h": "ampere*hour", "mA·h": "milliampere*hour",
}

TOLERANCE = Fraction(1, 10**12)


def pint_name(symbol):
    """The unit of pint that has the name, or the size, of ours."""
    return PINT[symbol.removesuffix(" abs")]


def step_of(value):
    """The largest power of ten not above a positive value."""
    step = Fraction(1)
    while step > value:
        step /= 10
    while step * 10 <= value:
        step *= 10
    return step


def half_even(value, step):
    """The nearest multiple of a step; `round` of a Fraction goes to the even one half-way."""
    return round(value / step) * step


class Checker:
    def __init__(self):
        self.registry = pint.UnitRegistry(non_int_type=Fraction)
        self.passed = 0
        self.failed = 0

    def claim(self, holds, row, why):
        if holds:
            self.passed += 1
        else:
            self.failed += 1
            print(f"FAILED {row['value']} in {row['to']}: {why}", file=sys.stderr)

    def convert(self, value, row):
        source = self.registry.Quantity(value, pint_name(row["unit"]))
        return Fraction(source.to(pint_name(row["to"])).magnitude)

    def size(self, value, row):
        """A difference of `value` in the other unit: a temperature's offset falls out."""
        return self.convert(value, row) - self.convert(Fraction(0), row)

    def check(self, row):
        shown, exact = row["shown"], row["exact"]
        step = step_of(self.size(Fraction(row["finest"]), row))
        for end in ("min", "max"):
            if row[end] is None:
                self.claim(exact[end] is None and shown[end] is None, row, f"a {end} from nowhere")
                continue
            ours, theirs = Fraction(exact[end]), self.convert(Fraction(row[end]), row)
            near = abs(ours - theirs) <= TOLERANCE * max(abs(theirs), Fraction(1, 10**9))
            self.claim(near, row, f"{end} {float(ours)}, pint {float(theirs)}")
            self.rounding(row, end, Fraction(shown[end]), ours, step)

    def rounding(self, row, end, shown, exact, step):
        single = row["min"] == row["max"]
        if single:
            self.claim(shown == half_even(exact, step), row, f"{shown} is not half-even of {exact}")
        else:
            past = shown - exact if end == "max" else exact - shown
            self.claim(-step < past <= 0, row, f"{end} {shown} against {float(exact)}, step {step}")


def main():
    with open(sys.argv[1], encoding="utf-8") as file:
        rows = json.load(file)["conversions"]
    checker = Checker()
    for row in rows:
        checker.check(row)
    print(f"{checker.passed} passed, {checker.failed} failed")
    return 1 if checker.failed or not checker.passed else 0


if __name__ == "__main__":
    sys.exit(main())
