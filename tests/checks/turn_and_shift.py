"""Turn and shift: points as complex numbers, mirrored by conjugation, turned by multiplication."""

from common import Rows, convert, fields, mp, number, point, points, show

CASES = [
    "points=1.25 in,0.75 in;5.2486 in,0.8547 in;1.1715 in,3.749 in&origin=1.25 in,0.75 in&angle=-1.5 deg&units=inch",
    "points=0 mm,0 mm;60 mm,0 mm;60 mm,35 mm&mirror=x&angle=30 deg&origin=-40 mm,-25 mm&order=turn_first&units=metric",
    "points=0 mm,0 mm;60 mm,0 mm;60 mm,35 mm&mirror=x&angle=30 deg&origin=-40 mm,-25 mm&units=metric",
    "points=3 in,4 in;-1 in,2.5 in&mirror=y&angle=-120.25 deg&units=inch",
    "points=3 in,4 in;-1 in,2.5 in&mirror=y&origin=0.5 in,-0.125 in&order=turn_first&angle=200 deg&units=inch",
    "points=10 mm,1 in;5 mm,2 in&angle=45 deg&origin=1 mm,0 mm&units=metric",
    "points=2 in,1 in&angle=90 deg&units=inch",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/turn-and-shift", "turn_and_shift", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        origin = mp.mpc(*point(given.get("origin", "0 mm,0 mm"), "mm"))
        turn = mp.expjpi(number(given.get("angle", "0 deg").split(" ")[0]) / 180)
        for index, (x, y) in enumerate(points(given["points"], "mm")):
            at = mp.mpc(x, y)
            at = {"x": -mp.conj(at), "y": mp.conj(at)}.get(given.get("mirror"), at)
            reach = convert(abs(at) + abs(origin), "mm", unit)
            at = at * turn - origin if given.get("order") == "turn_first" else (at - origin) * turn
            out.value(inputs, f"/positions/{index}/x", convert(at.real, "mm", unit), unit, scale=reach)
            out.value(inputs, f"/positions/{index}/y", convert(at.imag, "mm", unit), unit, scale=reach)
    return out.rows


if __name__ == "__main__":
    show(rows())
