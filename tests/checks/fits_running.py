"""Inch fits from printed deviations: sums, the basic shaft and inward rounding into millimeters, in exact fractions."""

from fractions import Fraction
from math import ceil, floor

from common import Rows, fields, mp, show

# Class and size: hole upper, shaft upper and lower, in thousandths of an inch as the table prints them.
FITS = {
    ("RC5", "1.5 in"): ("1.6", "-2.0", "-3.0"),
    ("RC1", "0.2 in"): ("0.2", "-0.15", "-0.3"),
    ("FN2", "2 in"): ("1.2", "2.7", "2.0"),
    ("LT1", "0.1 in"): ("0.4", "0.12", "-0.12"),
    ("FN1", "0.56 in"): ("0.4", "0.8", "0.5"),
    ("FN1", "0.57 in"): ("0.4", "0.9", "0.6"),
    ("LN2", "19.69 in"): ("2.5", "4.4", "2.8"),
    ("FN3", "0.96 in"): ("0.8", "2.1", "1.6"),
}
CASES = [
    "size=1.5 in&class=RC5&units=inch",
    "size=1.5 in&class=RC5&units=metric",
    "size=1.5 in&class=RC5&basis=shaft&units=inch",
    "size=0.2 in&class=RC1&units=inch",
    "size=2 in&class=FN2&basis=shaft&units=inch",
    "size=2 in&class=FN2&units=metric",
    "size=0.1 in&class=LT1&units=inch",
    "size=0.56 in&class=FN1&units=inch",
    "size=0.57 in&class=FN1&units=inch",
    "size=19.69 in&class=LN2&units=inch",
    "size=0.96 in&class=FN3&units=inch",
]
INCH = Fraction("25.4")
PLACES = 10_000


def inward(inches, is_greatest):
    """A limit in inches as a metric answer writes it."""
    counts = inches * INCH * PLACES
    return Fraction(floor(counts) if is_greatest else ceil(counts), PLACES)


def rows():
    """Every library row of this calculator."""
    out = Rows("fits/running", "fits_running", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        thou = [Fraction(text) / 1000 for text in FITS[given["class"], given["size"]]]
        size = Fraction(given["size"].split()[0])
        moved = -thou[1] if given.get("basis") == "shaft" else 0
        hole_max, shaft_max, shaft_min = (size + moved + deviation for deviation in thou)
        hole_min = size + moved
        is_metric = given["units"] == "metric"
        unit = "mm" if is_metric else "in"

        def put(field, value, limit=None):
            if is_metric:
                value = value * INCH if limit is None else inward(value, limit)
            out.value(inputs, field, mp.mpf(value.numerator) / value.denominator, unit, scale=mp.mpf(1))

        put("/hole/greatest", hole_max, True)
        put("/hole/least", hole_min, False)
        put("/shaft/greatest", shaft_max, True)
        put("/shaft/least", shaft_min, False)
        put("/shaft/middle", (shaft_max + shaft_min) / 2)
        put("/least_clearance", hole_min - shaft_max)
        put("/greatest_clearance", hole_max - shaft_min)
    return out.rows


if __name__ == "__main__":
    show(rows())
