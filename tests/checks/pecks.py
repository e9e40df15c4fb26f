"""Pecks, drilled one after the other with exact fractions."""

from fractions import Fraction

from common import Rows, fields, mp, show

CASES = [
    "diameter=8 mm&depth=60 mm&first_peck=16 mm&next_peck=8 mm&smallest_peck=4 mm&shrink=20 percent&units=metric",
    "diameter=0.25 in&depth=2 in&first_peck=0.5 in&next_peck=0.25 in&smallest_peck=0.125 in&shrink=25 percent&units=inch",
    "diameter=5 mm&depth=12 mm&first_peck=12 mm&next_peck=5 mm&smallest_peck=2 mm&shrink=20 percent&units=metric",
    "diameter=6 mm&depth=50 mm&first_peck=12 mm&next_peck=6 mm&smallest_peck=6 mm&shrink=0 percent&feed_rate=60 mm/min&retract_time=8 s&units=metric",
]


def exact(text):
    """The number of a stated quantity."""
    return Fraction(text.split(" ")[0])


def drilled(given):
    """Depth of the tip after each peck."""
    goal, at, depths = exact(given["depth"]), Fraction(0), []
    length = exact(given["first_peck"])
    following = exact(given["next_peck"])
    while at < goal:
        left = goal - at
        # A rest of less than half a peck is shared with the one before it.
        at += left / 2 if length < left < length * Fraction(3, 2) else min(left, length)
        depths.append(at)
        length = max(following, exact(given["smallest_peck"]))
        following *= 1 - exact(given["shrink"]) / 100
    return depths


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/pecks", "pecks", "mpmath")
    number = lambda value: mp.mpf(value.numerator) / value.denominator
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        depths = drilled(given)
        out.count(inputs, "/count", len(depths))
        for at, depth in enumerate(depths):
            out.value(inputs, f"/pecks/{at}/depth", number(depth), unit)
        out.value(inputs, "/depth_in_diameters", number(exact(given["depth"]) / exact(given["diameter"])), "")
        if "feed_rate" in given:
            cut = exact(given["depth"]) / exact(given["feed_rate"]) * 60
            out.value(inputs, "/time", number(cut + (len(depths) - 1) * exact(given["retract_time"])), "s")
    return out.rows


if __name__ == "__main__":
    show(rows())
