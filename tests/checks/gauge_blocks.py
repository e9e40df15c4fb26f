"""Gauge block stacks: the fewest blocks from the least number for every height, over the sets as their ranges say."""

import csv
import pathlib
from fractions import Fraction

import numpy
from common import Rows, convert, fields, mp, quantity, show

CASES = [
    "height=1.3787 in&set=inch_81&units=inch",
    "height=58.345 mm&set=metric_112&units=metric",
    "height=2.1437 in&set=inch_83&wear_block=0.05 in&missing=0.1007 in&most_blocks=8&units=inch",
    "height=52.215 mm&own=1.005 mm,1.01 mm,1.5 mm,2.2 mm,3 mm,4 mm,10 mm,20 mm,40 mm&wear_block=2 mm&units=metric",
    "height=10.9999 in&set=inch_81&units=inch",
    "height=0.6254 in&set=inch_36&units=inch",
    "height=0.08215 in&set=inch_28_thin&units=inch",
    "height=3.14159 mm&own=1.00059 mm,1.041 mm,1.1 mm,1.1 mm,2 mm&units=metric",
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
    """The least number of blocks that make a height, each used once; none where they do not."""
    grid = numpy.gcd.reduce([int(size) for size in sizes])
    if height % grid:
        return None
    end = int(height // grid)
    # The least number for every height in steps of the grid; 255 where there is none.
    count = numpy.full(end + 1, 255, dtype=numpy.uint8)
    count[0] = 0
    for size in sizes:
        step = int(size // grid)
        if step <= end:
            more = count[: end + 1 - step].astype(numpy.uint16) + 1
            count[step:] = numpy.minimum(count[step:], numpy.minimum(more, 255)).astype(numpy.uint8)
    return None if count[end] == 255 else int(count[end])


def without(sizes, size):
    """All but one of that size."""
    left = list(sizes)
    left.remove(size)
    return left


def thickest(height, sizes, number):
    """The thickest block, where every stack of so many blocks has the same one at the bottom."""
    for size in sorted(sizes, reverse=True):
        others = without(sizes, size)
        rest = 0 if size == height else fewest(height - size, others) if size < height else None
        if rest is not None and rest + 1 == number:
            other_way = fewest(height, others)
            return size if other_way is None or other_way > number else None
    return None


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/gauge-blocks", "gauge_blocks", "numpy")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        wear = nanometers(*given["wear_block"].split(" ")) if "wear_block" in given else 0
        height = nanometers(*given["height"].split(" "))
        number = fewest(height - 2 * wear, blocks(given))
        out.count(inputs, "/block_count", number + (2 if wear else 0))
        out.value(inputs, "/stack_height", quantity(given["height"], unit), unit)
        bottom = None if wear else thickest(height, blocks(given), number)
        if bottom is not None:
            value = mp.mpf(bottom.numerator) / bottom.denominator / 1_000_000
            out.value(inputs, "/blocks/0/size", convert(value, "mm", unit), unit)
    return out.rows


if __name__ == "__main__":
    show(rows())
