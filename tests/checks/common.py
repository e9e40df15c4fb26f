"""What the check scripts share: 50-digit arithmetic, exact unit factors and the shape of a row.

Numbers are read from the text of the request as decimals, so that the inputs
of a row and the inputs of its calculation cannot differ.
"""

import csv
import io
import sys
from fractions import Fraction

import mpmath as mp
import pint

mp.mp.dps = 50

COLUMNS = ["calculator", "inputs", "field", "expected", "unit", "tolerance", "source", "place", "kind"]

# Fractions keep 1 in = 25.4 mm exact; a float registry would not.
UNITS = pint.UnitRegistry(non_int_type=Fraction)

# The service's spelling of a unit, and how pint spells it. A tooth is a count.
PINT_NAME = {
    "in": "inch",
    "mm": "millimeter",
    "ft/min": "foot/minute",
    "m/min": "meter/minute",
    "in/min": "inch/minute",
    "mm/min": "millimeter/minute",
    "in/tooth": "inch",
    "mm/tooth": "millimeter",
    "in2": "inch**2",
    "mm2": "millimeter**2",
    "um": "micrometer",
    "uin": "microinch",
    "MPa": "megapascal",
    "ksi": "kip/inch**2",
    "in3/min": "inch**3/minute",
    "cm3/min": "centimeter**3/minute",
    "lb": "pound",
    "kg": "kilogram",
    "lb/in3": "pound/inch**3",
    "g/cm3": "gram/centimeter**3",
    "kg/m3": "kilogram/meter**3",
    "lb/ft": "pound/foot",
    "kg/m": "kilogram/meter",
}


def number(text):
    """A decimal, or a fraction such as 1/2 or 1-1/2, as a 50-digit number."""
    whole, _, part = text.rpartition("-")
    if "/" in part:
        value = Fraction(part) + (Fraction(whole) if whole else 0)
        return mp.mpf(value.numerator) / value.denominator
    return mp.mpf(text)


def convert(value, from_unit, to_unit):
    """`value` in another unit, by pint's exact factor."""
    if from_unit == to_unit:
        return value
    factor = (Fraction(1) * UNITS(PINT_NAME[from_unit])).to(PINT_NAME[to_unit]).magnitude
    factor = Fraction(factor)
    return value * factor.numerator / factor.denominator


def quantity(text, to_unit):
    """A stated quantity such as `0.5 in`, as a number in `to_unit`."""
    value, _, unit = text.partition(" ")
    if not unit and number(value) == 0:
        return mp.mpf(0)
    return convert(number(value), unit, to_unit)


def point(text, to_unit):
    """A stated point `x,y` as two numbers in `to_unit`."""
    x, y = text.split(",")
    return quantity(x, to_unit), quantity(y, to_unit)


def points(text, to_unit):
    """Stated points `x,y;x,y` as pairs of numbers in `to_unit`."""
    return [point(part, to_unit) for part in text.split(";")]


def fields(inputs):
    """The request's text taken apart into fields."""
    return dict(pair.split("=", 1) for pair in inputs.split("&"))


class Rows:
    """The library rows of one calculator, in the order in which they were made."""

    def __init__(self, calculator, script, source):
        self.calculator = calculator
        self.place = f"tests/checks/{script}.py"
        self.source = source
        self.rows = []

    def value(self, inputs, field, value, unit, scale=None):
        """A number; tolerance 1e-12 of itself, or of `scale` where it is a difference of larger numbers."""
        size = max(abs(value), abs(scale) if scale is not None else 0)
        tolerance = mp.nstr(size * mp.mpf("1e-12"), 2) if size else "1e-15"
        # A difference of equal numbers leaves 1e-50 of nothing: that is zero.
        expected = "0" if abs(value) < mp.mpf("1e-40") else mp.nstr(value, 17)
        self.rows.append(self._row(inputs, field, expected, unit, tolerance))

    def count(self, inputs, field, value):
        """A whole number, to be met exactly."""
        self.rows.append(self._row(inputs, field, str(value), "", "0"))

    def text(self, inputs, field, words):
        """Words, to be met exactly."""
        self.rows.append(self._row(inputs, field, words, "", ""))

    def _row(self, inputs, field, expected, unit, tolerance):
        cells = [self.calculator, inputs, field, expected, unit, tolerance, self.source, self.place, "library"]
        return dict(zip(COLUMNS, cells))


def as_csv(rows):
    """Rows as CSV text with the header."""
    out = io.StringIO()
    writer = csv.DictWriter(out, COLUMNS, lineterminator="\n")
    writer.writeheader()
    writer.writerows(rows)
    return out.getvalue()


def show(rows):
    """Print rows as CSV."""
    sys.stdout.write(as_csv(rows))
