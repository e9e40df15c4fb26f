"""Holes for helical coil inserts: the wire's triangle stacked on the screw's, and the notes' sums in pitches."""

from common import Rows, convert, fields, mp, number, quantity, show
from drill_point import point_length

THREADS = {
    "1/4-20 UNC": ("in", "1/4", "20"),
    "1/2-13 UNC": ("in", "1/2", "13"),
    "M6": ("mm", "6", "1"),
    "M8": ("mm", "8", "1.25"),
    "M12": ("mm", "12", "1.75"),
}

CASES = [
    "thread=1/4-20 UNC&insert_length=0.375 in&tap_chamfer=plug&drill=17/64 in&units=inch",
    "thread=1/2-13 UNC&diameters=1.5&tap_chamfer=plug&drill=17/32 in&units=inch",
    "thread=M6&diameters=1.5&tap_chamfer=bottoming&drill=6.3 mm&thickness=25 mm&units=metric",
    "thread=M8&insert_length=12 mm&tap_chamfer=plug&drill=8.4 mm&units=metric",
    "thread=M12&diameters=2&tap_chamfer=plug&drill=12.5 mm&point_angle=135 deg&floor=5 mm&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/inserts", "inserts", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        of, size, said = THREADS[given["thread"]]
        pitch = convert(1 / number(said) if of == "in" else number(said), of, unit)
        size = convert(number(size), of, unit)
        # Heights of the sharp triangle above the screw's major diameter, on both sides.
        height = pitch * mp.sin(mp.pi / 3)
        for name, eighths in (("minor_min", 2), ("pitch_min", 6), ("major_min", 12)):
            out.value(inputs, f"/{name}", size + height * eighths / 8, unit)
        length = quantity(given["insert_length"], unit) if "insert_length" in given else number(given["diameters"]) * size
        turns = 4 if given["tap_chamfer"] == "plug" else 2
        center = size / 2 if turns == 4 and given["thread"] in ("1/4-20 UNC", "M6", "M8") else 0
        full = length + center + (turns + 2) * pitch
        drill = quantity(given["drill"], unit)
        tip = full + point_length(drill, number(given.get("point_angle", "118 deg").split(" ")[0]), mp.mpf(0))
        for name, value in (("length", length), ("thread_depth", length + pitch), ("full_depth", full), ("tip_depth", tip), ("tap_depth", full - pitch)):
            out.value(inputs, f"/{name}", value, unit)
        if "thickness" in given:
            out.value(inputs, "/floor_left", quantity(given["thickness"], unit) - tip, unit, scale=tip)
        if "floor" in given:
            out.value(inputs, "/thickness_needed", quantity(given["floor"], unit) + tip, unit)
    return out.rows


if __name__ == "__main__":
    show(rows())
