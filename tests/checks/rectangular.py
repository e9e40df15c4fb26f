"""Holes in rows and columns: whole steps along both axes of the complex plane, turned and moved."""

from common import Rows, fields, mp, quantity, show
from rows_of_holes import add_check, add_pattern

CASES = [
    "columns=2&rows=2&pitch_x=5 in&pitch_y=3 in&start_x=1 in&start_y=1 in&hole_diameter=13/32 in&part=0 in,0 in;7 in,5 in&units=inch",
    "columns=6&rows=4&length=125 mm&width=75 mm&center_x=0 mm&center_y=0 mm&numbering=back_and_forth&hole_diameter=8 mm&units=metric",
    "columns=3&rows=3&pitch_x=40 mm&pitch_y=40 mm&rotation=12 deg&skip=5&units=metric",
    "columns=4&rows=2&pitch_x=30 mm&width=1 in&rotation=-33.3 deg&center_x=5 in&center_y=-2 in&units=inch",
    "columns=1&rows=5&pitch_y=0.75 in&start_y=0.5 in&units=inch",
    "columns=3&rows=4&pitch_x=25 mm&pitch_y=30 mm&numbering=back_and_forth&only=4,12,1&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("patterns/rectangular", "rectangular", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        columns, count = int(given["columns"]), int(given["rows"])

        def step(pitch, span, steps):
            if pitch in given:
                return quantity(given[pitch], "mm")
            return quantity(given[span], "mm") / (steps - 1) if span in given else mp.mpf(0)

        right, up = step("pitch_x", "length", columns), step("pitch_y", "width", count)
        holes = []
        for row in range(count):
            line = [mp.mpc(right * column, up * row) for column in range(columns)]
            holes += line[::-1] if row % 2 and given.get("numbering") == "back_and_forth" else line
        laid = add_pattern(out, inputs, holes)
        _, drilled, to_unit, unit, _ = laid
        if columns > 1:
            out.value(inputs, "/length", to_unit(right * (columns - 1)), unit)
        out.value(inputs, "/width", to_unit(up * (count - 1)), unit)
        if "only" not in given and columns > 1:
            number = {hole: n for n, hole in enumerate(holes, 1)}
            find = lambda column, row: number[mp.mpc(right * column, up * row)]
            add_check(out, inputs, 2, (1, find(columns - 1, count - 1)), laid)
            add_check(out, inputs, 3, (find(columns - 1, 0), find(0, count - 1)), laid)
    return out.rows


if __name__ == "__main__":
    show(rows())
