"""General tolerances: limits about sizes and angles, with the tolerance of each cell typed here."""

from common import Rows, fields, mp, quantity, show

# Tolerance in mm of the cells that the cases reach.
CASES = {
    "size=5 mm&class=f&units=metric": "0.05",
    "size=25 mm&class=m&units=metric": "0.2",
    "size=30 mm&class=m&units=metric": "0.2",
    "size=30.001 mm&class=m&units=metric": "0.3",
    "size=80 mm&class=m&units=metric": "0.3",
    "size=400 mm&class=c&units=metric": "1.2",
    "size=1500 mm&class=v&units=metric": "6",
}
ANGLES = {
    "angle=45 deg&shorter_side=25 mm&class=c&units=metric": "60",
    "angle=30 deg&shorter_side=100 mm&class=m&units=metric": "20",
    "angle=60 deg&shorter_side=8 mm&class=v&units=metric": "180",
}


def rows():
    """Every library row of this calculator."""
    out = Rows("measure/general-tolerance", "general_tolerance", "mpmath")
    for inputs, tolerance in CASES.items():
        size = quantity(fields(inputs)["size"], "mm")
        out.value(inputs, "/tolerance", mp.mpf(tolerance), "mm")
        out.value(inputs, "/least", size - mp.mpf(tolerance), "mm", scale=size)
        out.value(inputs, "/greatest", size + mp.mpf(tolerance), "mm", scale=size)
    for inputs, minutes in ANGLES.items():
        given = fields(inputs)
        degrees = mp.mpf(minutes) / 60
        out.value(inputs, "/angle_tolerance", degrees, "deg")
        out.value(inputs, "/greatest_angle", mp.mpf(given["angle"].split()[0]) + degrees, "deg")
    return out.rows


if __name__ == "__main__":
    show(rows())
