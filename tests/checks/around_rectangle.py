"""Holes around a rectangle: a walk in the complex plane that turns left at every corner."""

from common import Rows, fields, mp, quantity, show
from rows_of_holes import add_check, add_pattern

CASES = [
    "length=560 mm&width=220 mm&columns=4&rows=3&travel_x=600 mm&travel_y=240 mm&travel_left=60 mm&travel_front=10 mm&units=metric",
    "length=6 in&width=4 in&columns=4&rows=3&start_x=0.5 in&start_y=0.5 in&hole_diameter=9/32 in&part=0 in,0 in;7 in,5 in&units=inch",
    "length=180 mm&width=120 mm&columns=5&rows=4&center_x=0 mm&center_y=0 mm&rotation=90 deg&units=metric",
    "length=100 mm&width=2 in&columns=2&rows=2&rotation=7.5 deg&units=inch",
    "length=250 mm&width=90 mm&columns=6&rows=2&center_x=40 mm&skip=3,9&hole_diameter=11 mm&units=metric",
    "length=9 in&width=9 in&columns=4&rows=4&only=1,4,7,10&units=inch",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("patterns/around-rectangle", "around_rectangle", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        sides = [(quantity(given[side], "mm"), int(given[count]) - 1) for side, count in (("length", "columns"), ("width", "rows"))]
        holes, at, way = [], mp.mpc(0), mp.mpc(1)
        for size, steps in sides * 2:
            for _ in range(steps):
                holes.append(at)
                at += way * size / steps
            way *= mp.mpc(0, 1)
        laid = add_pattern(out, inputs, holes)
        _, drilled, to_unit, unit, _ = laid
        out.count(inputs, "/count", len(holes))
        for (size, steps), field in zip(sides, ("/pitch_x", "/pitch_y")):
            out.value(inputs, field, to_unit(size / steps), unit)
        if "only" not in given and "skip" not in given:
            columns, rows_ = sides[0][1], sides[1][1]
            add_check(out, inputs, 2, (1, columns + rows_ + 1), laid)
            add_check(out, inputs, 3, (columns + 1, 2 * columns + rows_ + 1), laid)
    return out.rows


if __name__ == "__main__":
    show(rows())
