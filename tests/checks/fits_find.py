"""Preferred fits by trying all of them: deviations of one band as printed, in micrometers."""

from common import Rows, fields, mp, quantity, show

# Sizes over 24 to 30 mm: tolerance grades and the deviations that the letters give, in micrometers.
GRADE = {6: 13, 7: 21, 8: 33, 9: 52, 11: 130}
UPPER = {"c": -110, "d": -65, "f": -20, "g": -7, "h": 0}
LOWER = {"k": 2, "n": 15, "p": 22, "s": 35, "u": 48}
# What a hole K to U of grade 7 gets added.
DELTA = 8
ON_HOLE = ["H11/c11", "H9/d9", "H8/f7", "H7/g6", "H7/h6", "H7/k6", "H7/n6", "H7/p6", "H7/s6", "H7/u6"]
ON_SHAFT = ["C11/h11", "D9/h9", "F8/h7", "G7/h6", "H7/h6", "K7/h6", "N7/h6", "P7/h6", "S7/h6", "U7/h6"]
CASES = [
    "size=30 mm&least_clearance=0.005 mm&greatest_clearance=0.1 mm&units=metric",
    "size=30 mm&least_clearance=0.02 mm&greatest_clearance=0.06 mm&units=metric",
    "size=30 mm&least_clearance=0.02 mm&greatest_clearance=0.06 mm&basis=shaft&units=metric",
    "size=28 mm&greatest_clearance=-0.01 mm&units=metric",
    "size=30 mm&least_clearance=-0.02 mm&greatest_clearance=0.02 mm&basis=shaft&units=metric",
    "size=25 mm&least_clearance=0 mm&units=metric",
]


def deviations(name):
    """Largest and smallest of a class at a size, in micrometers above a size of zero."""
    letter, grade = name[0], int(name[1:])
    width, small = GRADE[grade], letter.lower()
    if letter == small:
        upper = UPPER[small] if small in UPPER else LOWER[small] + width
        return upper, upper - width
    if small in UPPER:
        return -UPPER[small] + width, -UPPER[small]
    upper = -LOWER[small] + DELTA
    return upper, upper - width


def rows():
    """Every library row of this calculator."""
    out = Rows("fits/find", "fits_find", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        least = quantity(given["least_clearance"], "mm") if "least_clearance" in given else -mp.inf
        most = quantity(given["greatest_clearance"], "mm") if "greatest_clearance" in given else mp.inf
        tried = []
        for name in ON_SHAFT if given.get("basis") == "shaft" else ON_HOLE:
            hole, shaft = name.split("/")
            (hole_max, hole_min), (shaft_max, shaft_min) = deviations(hole), deviations(shaft)
            low, high = mp.mpf(hole_min - shaft_max) / 1000, mp.mpf(hole_max - shaft_min) / 1000
            beyond = max(least - low, 0) + max(high - most, 0)
            tried.append((beyond, -(high - low) if beyond == 0 else 0, name, low, high, hole_max, shaft_min))
        beyond, _, name, low, high, hole_max, shaft_min = min(tried, key=lambda fit: fit[:2])
        size = mp.mpf(given["size"].split()[0])
        out.text(inputs, "/fits/0/name", name)
        out.text(inputs, "/fits/0/within", "true" if beyond == 0 else "false")
        out.value(inputs, "/fits/0/least_clearance", low, "mm", scale=size)
        out.value(inputs, "/fits/0/greatest_clearance", high, "mm", scale=size)
        out.value(inputs, "/fits/0/hole_greatest", size + mp.mpf(hole_max) / 1000, "mm")
        out.value(inputs, "/fits/0/shaft_least", size + mp.mpf(shaft_min) / 1000, "mm")
    return out.rows


if __name__ == "__main__":
    show(rows())
