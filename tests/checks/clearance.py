"""Clearance holes: a slot as the track of a disk in exact arithmetic, and what two shifted holes leave a screw.

The holes themselves are facts of standards and are checked against printed lists; here the sizes of the cases are
written out, and what follows from them is worked out another way.
"""

from common import Rows, fields, mp, quantity, show

# Screw, fit, hole and screw diameter as printed.
CASES = [
    ("screw=M8&fit=medium&adjustment=20 mm&cutter_diameter=8 mm&units=metric", "9", "8"),
    ("screw=M6&fit=close&adjustment=12.5 mm&cutter_diameter=6 mm&units=metric", "6.4", "6"),
    ("screw=M12&fit=free&adjustment=30 mm&cutter_diameter=10 mm&units=metric", "14.5", "12"),
    ("screw=1/4&fit=medium&adjustment=0.75 in&cutter_diameter=0.25 in&units=inch", "0.281", "0.25"),
    ("screw=1/2-13 UNC&fit=close&adjustment=1 in&cutter_diameter=0.5 in&units=inch", "0.531", "0.5"),
]


def bisect(holds):
    """The greatest value from 0 to 10 for which `holds` is true, by halving."""
    low, high = mp.mpf(0), mp.mpf(10)
    for _ in range(180):
        middle = (low + high) / 2
        low, high = (middle, high) if holds(middle) else (low, middle)
    return low


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/clearance", "clearance", "mpmath")
    for inputs, hole, screw in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        hole, screw = mp.mpf(hole), mp.mpf(screw)
        move, cutter = quantity(given["adjustment"], unit), quantity(given["cutter_diameter"], unit)
        # Two disks of the hole's size, their centers `apart`, have a disk of the screw's size in common.
        common = lambda apart: hole - apart >= screw
        out.value(inputs, "/off_place", bisect(lambda off: common(2 * off)), unit, scale=hole)
        # The screw stands still in the tapped hole, so it must lie within the other hole alone.
        within = lambda apart: screw / 2 + apart <= hole / 2
        out.value(inputs, "/off_place_tapped", bisect(lambda off: within(2 * off)), unit, scale=hole)
        ends = (-move / 2 - hole / 2, move / 2 + hole / 2)
        out.value(inputs, "/slot_length", ends[1] - ends[0], unit)
        out.value(inputs, "/slot_width", hole, unit)
        centers = (ends[0] + cutter / 2, ends[1] - cutter / 2)
        out.value(inputs, "/cutter_travel", centers[1] - centers[0], unit, scale=ends[1] - ends[0])
        out.value(inputs, "/cutter_offset", hole / 2 - cutter / 2, unit, scale=hole)
    return out.rows


if __name__ == "__main__":
    show(rows())
