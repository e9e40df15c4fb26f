"""A tapped blind hole, walked down from the face one part after the other; the drill's point as in drill_point."""

from common import Rows, convert, fields, mp, number, quantity, show
from drill_point import point_length

# Pitch or threads an inch, in the thread's unit.
PITCH = {"1/4-20 UNC": ("in", "20"), "3/8-16 UNC": ("in", "16"), "M6": ("mm", "1"), "M8": ("mm", "1.25"), "M10": ("mm", "1.5")}

CASES = [
    "thread=1/4-20 UNC&thread_depth=1/2 in&chamfer_threads=4&extra_turns=2&drill=No.7&units=inch",
    "thread=3/8-16 UNC&full_threads=10&chamfer_threads=5&extra_turns=1&drill=5/16 in&units=inch",
    "thread=M8&thread_depth=16 mm&chamfer_threads=2&extra_turns=1.5&drill=6.8 mm&units=metric",
    "thread=M10&full_threads=12&chamfer_threads=3.5&extra_turns=1&drill=8.5 mm&point_angle=135 deg&units=metric",
    "thread=M6&thread_depth=9 mm&chamfer_threads=4&extra_turns=1&tap_center=2 mm&drill=5 mm&thickness=25 mm&floor=2 mm&units=metric",
    "thread=M8&thread_depth=12 mm&chamfer_threads=2&extra_turns=1&drill=6.8 mm&thickness=30 mm&units=metric",
]

DRILL = {"No.7": "0.201 in"}


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/tapped-blind", "tapped_blind", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        of, said = PITCH[given["thread"]]
        pitch = convert(1 / number(said) if of == "in" else number(said), of, "mm")
        count = number(given["full_threads"]) if "full_threads" in given else quantity(given["thread_depth"], "mm") / pitch
        # Down the hole: thread, chamfer, center point, free turns, point.
        stops = [count * pitch]
        stops.append(stops[-1] + number(given["chamfer_threads"]) * pitch + quantity(given.get("tap_center", "0 mm"), "mm"))
        stops.append(stops[-1] + number(given["extra_turns"]) * pitch)
        drill = quantity(DRILL.get(given["drill"], given["drill"]), "mm")
        angle = number(given.get("point_angle", "118 deg").split(" ")[0])
        stops.append(stops[-1] + point_length(drill, angle, mp.mpf(0)))
        names = ("full_thread_depth", "tap_depth", "full_depth", "tip_depth")
        for name, depth in zip(names, stops):
            out.value(inputs, f"/{name}", convert(depth, "mm", unit), unit)
        out.value(inputs, "/full_thread_count", count, "")
        out.value(inputs, "/tap_turns", stops[1] / pitch, "")
        tip = stops[-1]
        if "thickness" in given:
            left = quantity(given["thickness"], "mm") - tip
            out.value(inputs, "/floor_left", convert(left, "mm", unit), unit, scale=convert(tip, "mm", unit))
        if "floor" in given:
            needed = tip + quantity(given["floor"], "mm")
            out.value(inputs, "/thickness_needed", convert(needed, "mm", unit), unit)
    return out.rows


if __name__ == "__main__":
    show(rows())
