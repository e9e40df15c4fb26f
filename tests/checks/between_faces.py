"""Between faces: the faces and the scale's shift as unknowns of a linear system of both touches."""

from common import Rows, convert, fields, mp, quantity, show

CASES = [
    "first=-0.1 in&second=3.104 in&tip_diameter=0.2 in&touched=outside&units=inch",
    "first=3.104 in&second=-0.1 in&tip_diameter=0.2 in&touched=outside&units=inch",
    "first=41.35 mm&second=33.27 mm&tip_diameter=4 mm&touched=inside&center_position=30 mm&units=metric",
    "first=33.27 mm&second=41.35 mm&tip_diameter=4 mm&touched=inside&center_position=30 mm&units=metric",
    "first=0 mm&second=25.4 mm&units=inch",
    "first=-3 in&second=-1.5 in&center_position=2 in&units=inch",
    "first=12 mm&second=1 in&tip_diameter=0.25 in&touched=outside&units=metric",
    "first=0.001 mm&second=0.002 mm&units=metric",
    "first=-900 mm&second=900 mm&tip_diameter=0.01 mm&touched=outside&center_position=-450 mm&units=metric",
    "first=1 in&second=1.0001 in&tip_diameter=0.5 in&touched=inside&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/between-faces", "between_faces", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        size = lambda name: quantity(given.get(name, "0 mm"), "mm")
        first, second = size("first"), size("second")
        way = mp.sign(second - first)
        # Outside, the tip stands a radius short of the first face and a radius beyond the second.
        radius = size("tip_diameter") / 2 * {"outside": 1, "inside": -1}.get(given.get("touched"), 0)
        # Unknowns: face 1, face 2, and what is added to every reading.
        system = mp.matrix([[1, 0, 0], [0, 1, 0], [mp.mpf(1) / 2, mp.mpf(1) / 2, 1]])
        known = mp.matrix([first + way * radius, second - way * radius, size("center_position")])
        one, two, shift = mp.lu_solve(system, known)
        scale = convert(max(abs(first), abs(second)), "mm", unit)
        for field, value in (("center", (one + two) / 2), ("width", abs(two - one)), ("set_here", second + shift)):
            out.value(inputs, f"/{field}", convert(value, "mm", unit), unit, scale=scale)
    return out.rows


if __name__ == "__main__":
    show(rows())
