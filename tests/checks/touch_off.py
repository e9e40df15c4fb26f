"""Touch-off: from the tip's far side, which is one shim from the face, back to its middle."""

from common import Rows, convert, fields, mp, quantity, show

CASES = [
    "reading_was=growing&tip_diameter=0.2 in&units=inch",
    "reading_was=falling&tip_diameter=0.2 in&units=inch",
    "reading_was=growing&tip_diameter=0.375 in&shim=0.002 in&face_position=1.25 in&units=inch",
    "reading_was=falling&tip_diameter=10 mm&shim=0.5 mm&face_position=80 mm&units=metric",
    "reading_was=growing&tip_diameter=4 mm&face_position=-12.5 mm&units=metric",
    "reading_was=falling&tip_diameter=6 mm&shim=0.05 mm&face_position=1 in&units=inch",
    "reading_was=growing&tip_diameter=0.001 mm&shim=0.001 mm&face_position=1000 mm&units=metric",
    "reading_was=falling&tip_diameter=100 mm&shim=10 mm&face_position=-0.001 mm&units=metric",
    "reading_was=growing&tip_diameter=1/2 in&shim=1 mm&face_position=-3 in&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/touch-off", "touch_off", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        size = lambda name: quantity(given.get(name, "0 mm"), "mm")
        # The side of the tip that is toward the face is short of it by the shim; the middle lies
        # between that side and the one across the tip.
        toward = 1 if given["reading_was"] == "growing" else -1
        near = size("face_position") - toward * size("shim")
        across = near - toward * size("tip_diameter")
        middle = (near + across) / 2
        reach = convert(abs(size("face_position")) + size("tip_diameter"), "mm", unit)
        out.value(inputs, "/set_reading", convert(middle, "mm", unit), unit, scale=reach)
        from_face = mp.fabs(size("face_position") - middle)
        out.value(inputs, "/spindle_from_face", convert(from_face, "mm", unit), unit, scale=reach)
        out.value(inputs, "/over_face", convert(size("face_position"), "mm", unit), unit, scale=reach)
    return out.rows


if __name__ == "__main__":
    show(rows())
