"""Counterbores: what stands on what, stacked from the floor up; room all round as a gap between two circles."""

from common import Rows, fields, mp, quantity, show

# Request, height of the head and its diameter as printed.
CASES = [
    ("screw=M8&thickness=20 mm&room=0.8 mm&units=metric", "8", "13"),
    ("screw=M8&head=low_socket&thickness=12 mm&below=0.5 mm&room=1 mm&units=metric", "5", "13"),
    ("screw=M6&washer_thickness=1.6 mm&washer_diameter=11.8 mm&head_diameter=10.2 mm&head_height=5.9 mm"
     "&thickness=16 mm&room=0.6 mm&units=metric", "5.9", "10.2"),
    ("screw=1/4&below=0.03125 in&thickness=0.75 in&room=0.0625 in&units=inch", "0.25", "0.375"),
    ("screw=3/8&wrench_diameter=0.875 in&head=hexagon&thickness=1 in&room=0.03125 in&units=inch", "0.25", "0.6495"),
]


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/counterbore", "counterbore", "mpmath")
    for inputs, height, head in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        of = lambda name: quantity(given.get(name, "0"), unit)
        # From the far face up: what is left, the washer, the head, what it lies below.
        top = of("thickness") - of("below")
        floor = top - mp.mpf(height) - of("washer_thickness")
        out.value(inputs, "/left_under_head", floor, unit, scale=of("thickness"))
        out.value(inputs, "/depth", of("thickness") - floor, unit, scale=of("thickness"))
        widest = max(mp.mpf(head), of("washer_diameter"), of("wrench_diameter"))
        out.value(inputs, "/diameter", 2 * (widest / 2 + of("room")), unit)
        out.value(inputs, "/room_around", of("room"), unit, scale=widest)
    return out.rows


if __name__ == "__main__":
    show(rows())
