"""Holes on a triangular pitch: sums of two steps of one length, the second turned by 60 degrees."""

from common import Rows, fields, mp, quantity, show
from rows_of_holes import add_check, add_pattern, turn

CASES = [
    "pitch=9/16 in&columns=4&rows=3&second_row=one_fewer&hole_diameter=7/16 in&units=inch",
    "pitch=8 mm&columns=6&rows=5&center_x=30 mm&center_y=25 mm&hole_diameter=5 mm&part=0 mm,0 mm;60 mm,50 mm&numbering=back_and_forth&units=metric",
    "pitch=1 in&columns=2&rows=2&rotation=45 deg&units=inch",
    "pitch=12.7 mm&columns=3&rows=4&second_row=one_fewer&center_x=0 mm&rotation=-15 deg&skip=5&units=inch",
    "pitch=25 mm&columns=3&rows=3&start_x=40 mm&start_y=-10 mm&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("patterns/triangular-pitch", "triangular_pitch", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        pitch = quantity(given["pitch"], "mm")
        columns, count = int(given["columns"]), int(given["rows"])
        slant = pitch * turn(60)
        holes = []
        for row in range(count):
            # Up by the slanted step, and back by a whole pitch at every second one.
            begins = row * slant - (row // 2) * pitch
            long = columns - (row % 2 if given.get("second_row") == "one_fewer" else 0)
            line = [mp.mpc(begins) + column * pitch for column in range(long)]
            holes += line[::-1] if row % 2 and given.get("numbering") == "back_and_forth" else line
        laid = add_pattern(out, inputs, holes)
        _, drilled, to_unit, unit, reach = laid
        out.count(inputs, "/count", len(holes))
        out.value(inputs, "/row_pitch", to_unit(abs(slant.imag)), unit)
        out.value(inputs, "/width", to_unit(holes[-1].imag), unit)
        out.value(inputs, "/length", to_unit(max(h.real for h in holes)), unit, scale=reach)
        add_check(out, inputs, 0, (1, 2), laid)
    return out.rows


if __name__ == "__main__":
    show(rows())
