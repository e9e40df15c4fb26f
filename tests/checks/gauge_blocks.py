"""Gauge block stacks: the fewest blocks by an integer program, over the sets as their ranges say."""

import csv
import pathlib
from fractions import Fraction

import numpy
from common import Rows, convert, fields, mp, quantity, show
from scipy.optimize import Bounds, LinearConstraint, milp

CASES = [
    "height=1.3787 in&set=inch_81&units=inch",
    "height=58.345 mm&set=metric_112&units=metric",
    "height=2.1437 in&set=inch_83&wear_block=0.05 in&missing=0.1007 in&most_blocks=8&units=inch",
    "height=52.215 mm&own=1.005 mm,1.01 mm,1.5 mm,2.2 mm,3 mm,4 mm,10 mm,20 mm,40 mm&wear_block=2 mm&units=metric",
    "height=10.9999 in&set=inch_81&units=inch",
    "height=0.6254 in&set=inch_36&units=inch",
    "height=0.08215 in&set=inch_28_thin&units=inch",
    "height=3.14159 mm&own=1.00059 mm,1.041 mm,1.1 mm,2 mm&units=metric",
    "height=199.9875 mm&set=metric_88&units=metric",
    "height=67.8915 mm&set=metric_87&units=metric",
    "height=93.458 mm&set=metric_45&units=metric",
    "height=41.125 mm&set=metric_103&units=metric",
    "height=78.665 mm&set=metric_33&units=metric",
    "height=25.4 mm&set=inch_81&units=metric",
]

ROWS = list(csv.DictReader((pathlib.Path(__file__).parents[2] / "data/gauge_block_sets.csv").open()))


def nanometers(text, unit):
    """An exact length in nanometers."""
    return Fraction(text) * {"in": 25_400_000, "mm": 1_000_000}[unit]


def blocks(given):
    """The blocks at hand, in nanometers."""
    sizes = []
    for row in ROWS:
        if row["set"] == given.get("set") and row["use"] == "stack":
            first, step = nanometers(row["from"], row["unit"]), nanometers(row["step"], row["unit"])
            sizes += [first + at * step for at in range(int(row["count"]))]
    for text in filter(None, given.get("own", "").split(",")):
        sizes.append(nanometers(*text.split(" ")))
    for text in filter(None, given.get("missing", "").split(",")):
        sizes.remove(nanometers(*text.split(" ")))
    return sizes


def fewest(height, sizes):
    """The least number of blocks that make a height."""
    # In steps that divide every block and the height, so that the program has small whole numbers.
    step = Fraction(1, 1)
    whole = numpy.array([float(size / step) for size in sizes])
    grid = numpy.gcd.reduce([int(size / step) for size in sizes])
    if height % grid:
        raise ValueError("no stack")
    exact = LinearConstraint(whole / float(grid), float(height / grid) - 0.25, float(height / grid) + 0.25)
    found = milp(numpy.ones(len(sizes)), constraints=[exact], integrality=1, bounds=Bounds(0, 1))
    chosen = [size for size, take in zip(sizes, found.x) if take > 0.5]
    assert sum(chosen) == height, (float(height), [float(size) for size in chosen])
    return chosen


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/gauge-blocks", "gauge_blocks", "scipy")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        wear = nanometers(*given["wear_block"].split(" ")) if "wear_block" in given else 0
        height = nanometers(*given["height"].split(" "))
        chosen = fewest(height - 2 * wear, blocks(given))
        out.count(inputs, "/block_count", len(chosen) + (2 if wear else 0))
        out.value(inputs, "/stack_height", quantity(given["height"], unit), unit)
        # The number alone is sure to be one; where blocks can be chosen in one way only, so is the thickest.
        thickest = max(chosen)
        others = [size for size in blocks(given) if size != thickest]
        try:
            only = len(fewest(height - 2 * wear, others)) > len(chosen)
        except (ValueError, AssertionError, TypeError):
            only = True
        if only and not wear:
            value = mp.mpf(thickest.numerator) / thickest.denominator / 1_000_000
            out.value(inputs, "/blocks/0/size", convert(value, "mm", unit), unit)
    return out.rows


if __name__ == "__main__":
    show(rows())
