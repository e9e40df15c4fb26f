"""Corner: each edge as a line with a normal, pushed by the tip's radius, and the two solved for.

Which way each line is pushed is told here by the case, from a drawing of it, and not worked out.
"""

from common import Rows, convert, fields, mp, points, quantity, show

# The request, and for each edge a direction in which the metal lies from the tip.
CASES = [
    ("first_edge=1 in,-0.098 in;5 in,-0.082 in&second_edge=-0.104 in,1.5 in&tip_diameter=0.2 in&sides=outside&units=inch", (0, 1), (1, 0)),
    ("first_edge=5 in,-0.082 in;1 in,-0.098 in&second_edge=-0.104 in,1.5 in&tip_diameter=0.2 in&sides=outside&units=inch", (0, 1), (1, 0)),
    ("first_edge=53.2 mm,30 mm;53.5 mm,70 mm&second_edge=60 mm,22.9 mm;110 mm,22.4 mm&tip_diameter=6 mm&sides=inside&along=y_axis&units=metric", (-1, 0), (0, -1)),
    # The other three corners of a block.
    ("first_edge=-20 mm,-3 mm;-80 mm,-2 mm&second_edge=3.1 mm,15 mm;2.2 mm,55 mm&tip_diameter=6 mm&sides=outside&units=metric", (0, 1), (-1, 0)),
    ("first_edge=-20 mm,3 mm;-80 mm,2 mm&second_edge=3.1 mm,-15 mm&tip_diameter=6 mm&sides=outside&units=metric", (0, -1), (-1, 0)),
    ("first_edge=20 mm,3 mm;80 mm,4.5 mm&second_edge=-3.1 mm,-15 mm;-3.4 mm,-45 mm&tip_diameter=6 mm&sides=outside&units=metric", (0, -1), (1, 0)),
    # A pocket's far right corner, and a dovetail's acute and obtuse corners.
    ("first_edge=2 in,3.9 in;5 in,3.95 in&second_edge=5.88 in,1 in;5.9 in,3 in&tip_diameter=1/4 in&sides=inside&units=inch", (0, 1), (1, 0)),
    ("first_edge=1 in,-0.1 in;5 in,-0.1 in&second_edge=0.6 in,1.5 in;1.2 in,2.5 in&tip_diameter=0.2 in&sides=outside&units=inch", (0, 1), (1, 0)),
    ("first_edge=1 in,-0.1 in;5 in,-0.1 in&second_edge=-0.9 in,1.5 in;-1.5 in,2.5 in&tip_diameter=0.2 in&sides=outside&units=inch", (0, 1), (1, 0)),
    # The places of the edges themselves.
    ("first_edge=1 in,0.25 in;4 in,0.4 in&second_edge=0.3 in,1 in&units=inch", (0, 1), (1, 0)),
    ("first_edge=10 mm,2 mm;90 mm,-3 mm&second_edge=4 mm,20 mm;9 mm,60 mm&units=metric", (0, 1), (1, 0)),
    # Turned by nearly half a right angle, first edge along Y.
    ("first_edge=1 in,1.2 in;3 in,3.5 in&second_edge=0.2 in,1.4 in&tip_diameter=0.2 in&sides=outside&along=y_axis&units=inch", (-1, 1), (1, 1)),
]


def line(one, way, metal, radius):
    """Normal and its product of a line through `one`, pushed toward the metal."""
    normal = mp.matrix([-way[1], way[0]]) / mp.hypot(*way)
    if mp.fdot(normal, metal) < 0:
        normal = -normal
    return normal, mp.fdot(normal, one) + radius


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/corner", "corner", "mpmath")
    for inputs, first_metal, second_metal in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        first, second = (points(given[name], "mm") for name in ("first_edge", "second_edge"))
        radius = quantity(given.get("tip_diameter", "0 mm"), "mm") / 2
        way = [b - a for a, b in zip(*first)]
        other = [b - a for a, b in zip(*second)] if len(second) == 2 else [-way[1], way[0]]
        one, two = line(first[0], way, first_metal, radius), line(second[0], other, second_metal, radius)
        system = mp.matrix([[one[0][0], one[0][1]], [two[0][0], two[0][1]]])
        corner = mp.lu_solve(system, mp.matrix([one[1], two[1]]))
        reach = convert(max(abs(part) for point in first + second for part in point), "mm", unit)
        out.value(inputs, "/corner/x", convert(corner[0], "mm", unit), unit, scale=4 * reach)
        out.value(inputs, "/corner/y", convert(corner[1], "mm", unit), unit, scale=4 * reach)
        along = mp.mpc(*way)
        if given.get("along") == "y_axis":
            along /= mp.mpc(0, 1)
        angle = mp.degrees(mp.arg(along))
        angle = angle - 180 if angle > 90 else angle + 180 if angle <= -90 else angle
        out.value(inputs, "/angle", angle, "deg", scale=90)
        if len(second) == 2:
            # From the corner toward where each edge was touched.
            ways = [mp.mpc(point[0] - corner[0], point[1] - corner[1]) for point in (first[1], second[1])]
            ends = [mp.mpc(*w) for w in (way, other)]
            ends = [end if (end * mp.conj(w)).real > 0 else -end for end, w in zip(ends, ways)]
            out.value(inputs, "/corner_angle", abs(mp.degrees(mp.arg(ends[1] / ends[0]))), "deg", scale=180)
    return out.rows


if __name__ == "__main__":
    show(rows())
