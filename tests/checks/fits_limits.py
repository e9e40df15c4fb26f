"""Limits of fits from printed deviations: sums, inward rounding into inches and mates to suit, in exact fractions."""

from fractions import Fraction
from math import ceil, floor

from common import Rows, fields, mp, show

# Nominal size and deviations as printed, in millimeters: size, hole upper and lower, shaft upper and lower.
FITS = {
    "25 mm H7/g6": ("25", "0.021", "0", "-0.007", "-0.020"),
    "50 mm H7/s6": ("50", "0.025", "0", "0.059", "0.043"),
    "30 mm H7/f7": ("30", "0.021", "0", "-0.020", "-0.041"),
    "40 mm H7/k6": ("40", "0.025", "0", "0.018", "0.002"),
    "1 in H7/g6": ("25.4", "0.021", "0", "-0.007", "-0.020"),
}
CASES = [
    "fit=25 mm H7/g6&units=inch",
    "fit=50 mm H7/s6&units=inch",
    "fit=40 mm H7/k6&units=metric",
    "fit=1 in H7/g6&units=metric",
    "fit=1 in H7/g6&units=inch",
    "fit=30 mm H7/f7&measured_hole=30.031 mm&measured_shaft=29.965 mm&units=metric",
]
PLACES = 100_000


def inward(value, is_greatest):
    """A limit in millimeters as an inch answer writes it."""
    counts = value / Fraction("25.4") * PLACES
    return Fraction(floor(counts) if is_greatest else ceil(counts), PLACES)


def rows():
    """Every library row of this calculator."""
    out = Rows("fits/limits", "fits_limits", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        size, *deviations = (Fraction(text) for text in FITS[given["fit"]])
        hole_max, hole_min, shaft_max, shaft_min = (size + deviation for deviation in deviations)
        is_inch = given["units"] == "inch"
        unit = "in" if is_inch else "mm"

        def put(field, value, limit=None):
            if is_inch and limit is not None:
                value = inward(value, limit)
            elif is_inch:
                value = value / Fraction("25.4")
            out.value(inputs, field, mp.mpf(value.numerator) / value.denominator, unit, scale=mp.mpf(1))

        put("/hole/greatest", hole_max, True)
        put("/hole/least", hole_min, False)
        put("/shaft/greatest", shaft_max, True)
        put("/shaft/least", shaft_min, False)
        put("/hole/middle", (hole_max + hole_min) / 2)
        put("/shaft/middle", (shaft_max + shaft_min) / 2)
        least, greatest = hole_min - shaft_max, hole_max - shaft_min
        put("/least_clearance", least)
        put("/greatest_clearance", greatest)
        if "measured_hole" in given:
            hole, shaft = (Fraction(given[name].split()[0]) for name in ("measured_hole", "measured_shaft"))
            put("/shaft_to_suit/greatest", hole - least)
            put("/shaft_to_suit/least", hole - greatest)
            put("/hole_to_suit/greatest", shaft + greatest)
            put("/hole_to_suit/least", shaft + least)
            put("/clearance", hole - shaft)
    return out.rows


if __name__ == "__main__":
    show(rows())
