"""Drill sizes: the nearest of a rule-made list, sorted by numpy.

Fractions go by 64ths of an inch and metric drills by the steps of BS 328; the
number and letter sizes follow no rule and are checked against printed tables.
"""

from fractions import Fraction

import numpy as np

from common import Rows, convert, fields, mp, quantity, show

CASES = [
    "diameter=0.4 in&systems=fraction&count=1&units=inch",
    "diameter=0.4 in&systems=fraction&count=3&units=inch",
    "diameter=0.261 in&systems=fraction&side=under&count=1&units=inch",
    "diameter=0.261 in&systems=fraction&side=over&count=1&units=inch",
    "diameter=0.772 in&systems=fraction&side=under&count=2&units=inch",
    "diameter=9.3 mm&systems=fraction&count=1&units=inch",
    "diameter=11 mm&systems=fraction&side=over&count=1&units=metric",
    "diameter=5.13 mm&systems=metric&count=1&units=metric",
    "diameter=5.13 mm&systems=metric&side=over&count=2&units=metric",
    "diameter=2.63 mm&systems=metric&side=under&count=2&units=metric",
    "diameter=14.6 mm&systems=metric&count=1&units=metric",
    "diameter=0.3 in&systems=metric&count=1&units=metric",
    "diameter=0.3 in&systems=metric&side=over&count=1&units=inch",
    "diameter=0.171 in&systems=fraction,metric&count=3&units=inch",
    "diameter=8.72 mm&systems=fraction,metric&count=2&units=metric",
]


# Between two limits: every drill of the rule-made series that lies there.
BETWEEN = [
    "least=8.5 mm&greatest=8.75 mm&systems=metric&count=9&units=metric",
    "least=0.4 in&greatest=0.45 in&systems=fraction&count=9&units=inch",
    "least=2.31 mm&greatest=2.44 mm&systems=metric&count=9&units=metric",
]


def fraction_name(size):
    """27/64, or 1-1/16 past the inch."""
    whole, part = divmod(size, 1)
    return "-".join(str(word) for word in (whole, part) if word)


def sizes(system):
    """(name, exact size in mm) of the part of a series that the cases reach."""
    if system == "fraction":
        inches = [Fraction(n, 64) for n in range(1, 65)]
        return [(fraction_name(size), size * Fraction(127, 5)) for size in inches]
    # BS 328: 0.05 mm from 1 to 3, 0.1 mm from 3 to 14, 0.25 mm from 14 to 25.
    hundredths = [*range(100, 300, 5), *range(300, 1400, 10), *range(1400, 2501, 25)]
    return [(f"{n / 100:g} mm", Fraction(n, 100)) for n in hundredths]


def nearest(wanted, systems, side, count):
    """The `count` sizes next to `wanted` (mm), nearest first."""
    drills = [drill for system in systems for drill in sizes(system)]
    gap = np.array([float(size) - float(wanted) for _, size in drills])
    allowed = {"nearest": gap == gap, "under": gap <= 0, "over": gap >= 0}[side]
    order = np.argsort(np.where(allowed, np.abs(gap), np.inf), kind="stable")[: count + 1]
    distance = np.abs(gap[order])
    # A tie would leave the order to chance.
    assert np.all(np.diff(distance) > 1e-6), wanted
    return [drills[i] for i in order[:count]]


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/drill-size", "drill_size", "numpy")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        wanted = quantity(given["diameter"], "mm")
        found = nearest(wanted, given["systems"].split(","), given.get("side", "nearest"), int(given["count"]))
        for index, (name, exact) in enumerate(found):
            size = mp.mpf(exact.numerator) / exact.denominator
            at = f"/drills/{index}"
            out.text(inputs, f"{at}/name", name)
            out.text(inputs, f"{at}/system", "metric" if name.endswith("mm") else "fraction")
            out.value(inputs, f"{at}/diameter", convert(size, "mm", unit), unit)
            difference = convert(size - wanted, "mm", unit)
            out.value(inputs, f"{at}/difference", difference, unit, scale=convert(size, "mm", unit))
    for inputs in BETWEEN:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        low, high = quantity(given["least"], "mm"), quantity(given["greatest"], "mm")
        exact = lambda size: mp.mpf(size.numerator) / size.denominator
        inside = [drill for drill in sizes(given["systems"]) if low <= exact(drill[1]) <= high]
        for index in range(len(inside)):
            out.text(inputs, f"/drills/{index}/system", given["systems"])
        middle = (low + high) / 2
        first = min(inside, key=lambda drill: (abs(exact(drill[1]) - middle), drill[1]))
        out.text(inputs, "/drills/0/name", first[0])
        out.value(inputs, "/drills/0/room", convert(high - exact(first[1]), "mm", unit), unit, scale=convert(high, "mm", unit))
    return out.rows


if __name__ == "__main__":
    show(rows())
