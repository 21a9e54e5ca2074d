"""Exact numbers, units and vector files for the oracles beside this file; nothing of Baybook's code.

Sizes of units: international yard and pound (1959), conventional standard gravity; temperatures by
T_C = (T_F - 32) * 5/9 (NIST SP 811 App. B).
"""

import json
import pathlib
import sys
from fractions import Fraction

VECTORS = pathlib.Path(__file__).resolve().parents[2] / "vectors"

# Symbol: (kind in words, size in the SI unit, zero in the SI unit).
UNITS = {
    "mm": ("length", Fraction(1, 1000), 0),
    "in": ("length", Fraction(127, 5000), 0),
    "thou": ("length", Fraction(127, 5_000_000), 0),
    "µm": ("length", Fraction(1, 1_000_000), 0),
    "kPa": ("pressure", Fraction(1000), 0),
    "psi": ("pressure", Fraction(8_896_443_230_521, 1_290_320_000), 0),
    "bar": ("pressure", Fraction(100_000), 0),
    "°C": ("temperature", Fraction(1), Fraction(27315, 100)),
    "°F": ("temperature", Fraction(5, 9), Fraction(45967, 180)),
    "Ω": ("resistance", Fraction(1), 0),
    "kΩ": ("resistance", Fraction(1000), 0),
    "V": ("voltage", Fraction(1), 0),
    "mV": ("voltage", Fraction(1, 1000), 0),
    "%": ("percentage", Fraction(1, 100), 0),
    "N·m": ("torque", Fraction(1), 0),
    "lbf·ft": ("torque", Fraction(3_389_544_870_828_501, 2_500_000_000_000_000), 0),
}


def convert(value, unit, to):
    """A value in another unit of its kind."""
    _, size, zero = UNITS[unit]
    _, to_size, to_zero = UNITS[to]
    return (value * size + zero - to_zero) / to_size


def decimals(value):
    """How many decimals write a number exactly; None where no number of them does."""
    rest, twos, fives = value.denominator, 0, 0
    while rest % 2 == 0:
        rest, twos = rest // 2, twos + 1
    while rest % 5 == 0:
        rest, fives = rest // 5, fives + 1
    return max(twos, fives) if rest == 1 else None


def fixed(value, places):
    """A number that `places` decimals write exactly."""
    scaled = value * 10**places
    assert scaled.denominator == 1
    digits = str(abs(scaled.numerator)).rjust(places + 1, "0")
    sign = "-" if value < 0 else ""
    return sign + (digits[:-places] + "." + digits[-places:] if places else digits)


def text(value):
    """A terminating decimal, else a fraction."""
    places = decimals(value)
    return f"{value.numerator}/{value.denominator}" if places is None else fixed(value, places)


def finish(name, rows, about):
    """With `--make` writes the vectors, else holds the committed ones against what is worked out here."""
    lines = ",\n".join(json.dumps(row, ensure_ascii=False) for row in rows)
    wanted = f'{{"about": {json.dumps(about)},\n"vectors": [\n{lines}\n]}}\n'
    path = VECTORS / name
    if "--make" in sys.argv:
        path.write_text(wanted, encoding="utf-8")
    elif path.read_text(encoding="utf-8") != wanted:
        sys.exit(f"{name} is not what its oracle works out")
    print(f"{name}: {len(rows)} vectors")
