"""Holes in line: steps along the real axis of the complex plane, turned and moved."""

from common import Rows, fields, mp, quantity, show
from rows_of_holes import add_check, add_pattern

CASES = [
    "holes=6&pitch=2.5 in&start_x=1 in&start_y=0.75 in&hole_diameter=0.28 in&part=0 in,0 in;15 in,1.5 in&units=inch",
    "holes=7&length=240 mm&center_x=200 mm&center_y=80 mm&rotation=30 deg&skip=4&units=metric",
    "holes=5&pitch=35 mm&only=2,5&units=metric",
    "holes=4&length=10 in&rotation=-90 deg&start_x=-2 in&units=inch",
    "holes=3&pitch=1 in&center_x=10 mm&rotation=200.5 deg&hole_diameter=12 mm&units=metric",
    "holes=2&pitch=3/4 in&units=inch",
    "holes=6&pitch=5 in&travel_x=24 in&travel_y=10 in&travel_left=1 in&travel_front=4 in&units=inch",
    "holes=5&pitch=100 mm&start_x=30 mm&travel_x=600 mm&travel_left=150 mm&units=metric",
    "holes=7&pitch=60 mm&rotation=40 deg&travel_x=500 mm&travel_y=240 mm&units=metric",
    "holes=4&pitch=120 mm&start_x=-300 mm&skip=3&travel_x=500 mm&travel_y=240 mm&travel_left=100 mm&travel_front=0 mm&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("patterns/in-line", "in_line", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        count = int(given["holes"])
        if "pitch" in given:
            pitch = quantity(given["pitch"], "mm")
        else:
            pitch = quantity(given["length"], "mm") / (count - 1)
        laid = add_pattern(out, inputs, [mp.mpc(pitch * n, 0) for n in range(count)])
        _, drilled, to_unit, unit, _ = laid
        out.value(inputs, "/pitch", to_unit(pitch), unit)
        out.value(inputs, "/length", to_unit(pitch * (count - 1)), unit)
        if "only" not in given:
            add_check(out, inputs, 0, (1, 2), laid)
            if count > 2:
                add_check(out, inputs, 1, (1, count), laid)
    return out.rows


if __name__ == "__main__":
    show(rows())
