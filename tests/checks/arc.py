"""Arc: a circle drawn point by point, and every angle at which it has the two stated sizes.

Chord and height are distances between points of the circle and the segment's
area is a line integral round it; a scan over the whole turn and a root search
then find all solutions, without the closed forms that a program would use.
"""

from functools import lru_cache
from itertools import pairwise

from common import Rows, convert, fields, mp, number, points, quantity, show

# How each size grows with the radius.
POWER = {"radius": 1, "chord": 1, "height": 1, "arc_length": 1, "angle": 0, "segment_area": 2}

CASES = [
    "radius=2 in&chord=3 in&units=inch",
    "radius=40 mm&chord=25 mm&units=metric",
    "radius=2 in&chord=4 in&units=inch",
    "radius=3 in&height=0.5 in&units=inch",
    "radius=50 mm&height=80 mm&units=metric",
    "radius=1.5 in&arc_length=2 in&units=inch",
    "radius=60 mm&arc_length=250 mm&units=metric",
    "radius=2.25 in&angle=75 deg&units=inch",
    "radius=35 mm&angle=300 deg&units=metric",
    "radius=1000 mm&angle=0.5 deg&units=metric",
    "radius=2 in&segment_area=1 in2&units=inch",
    "radius=30 mm&segment_area=2000 mm2&units=metric",
    "chord=6 in&height=1 in&units=inch",
    "chord=30 mm&height=40 mm&units=metric",
    "chord=100 mm&height=0.01 mm&units=metric",
    "chord=4 in&arc_length=5 in&units=inch",
    "chord=20 mm&arc_length=90 mm&units=metric",
    "chord=3 in&angle=60 deg&units=inch",
    "chord=45 mm&angle=210 deg&units=metric",
    "chord=5 in&segment_area=3 in2&units=inch",
    "chord=24 mm&segment_area=1500 mm2&units=metric",
    # Height against length has none, two or one; both of the two are major arcs.
    "height=10 mm&arc_length=28 mm&units=metric",
    "height=1 in&arc_length=3 in&units=inch",
    "height=10 mm&arc_length=60 mm&units=metric",
    "height=0.75 in&angle=100 deg&units=inch",
    "height=55 mm&angle=270 deg&units=metric",
    "height=1 in&segment_area=4 in2&units=inch",
    "height=20 mm&segment_area=700 mm2&units=metric",
    "arc_length=4 in&angle=135 deg&units=inch",
    "arc_length=75 mm&angle=15 deg&units=metric",
    # A rope of one length encloses the same area twice, either side of the half circle.
    "arc_length=10 in&segment_area=12 in2&units=inch",
    "arc_length=100 mm&segment_area=900 mm2&units=metric",
    "arc_length=100 mm&segment_area=500 mm2&units=metric",
    "angle=90 deg&segment_area=2 in2&units=inch",
    "angle=240 deg&segment_area=350 mm2&units=metric",
    # Mixed systems.
    "radius=50.8 mm&chord=1.5 in&units=inch",
]


def point(angle):
    """A point of the circle of radius one."""
    return mp.mpc(mp.cos(angle), mp.sin(angle))


def shape(name, angle):
    """One size of the arc over `angle` on a circle of radius one."""
    start, middle, end = point(0), point(angle / 2), point(angle)
    if name == "radius":
        return mp.mpf(1)
    if name == "chord":
        return abs(end - start)
    if name == "height":
        return abs(middle - (start + end) / 2)
    if name == "arc_length":
        return angle
    if name == "angle":
        return mp.mpf(1)
    # Half the integral of x dy - y dx along the arc, then back along the chord.
    along_chord = (end.real * start.imag - start.real * end.imag) / 2
    return angle / 2 + along_chord


def area_by_quadrature(angle):
    """The segment's area again, as strips along the chord's normal."""
    lowest = mp.cos(angle / 2)
    strips = sorted({lowest, mp.mpf(0), mp.mpf(1)}) if lowest < 0 else [lowest, mp.mpf(1)]
    return mp.quad(lambda u: 2 * mp.sqrt(1 - u * u), strips)


@lru_cache(maxsize=None)
def scan(first, second):
    """Angles round the turn, with the ratio of the two sizes at each, freed of the radius."""
    ratio = lambda a: shape(first, a) ** POWER[second] / shape(second, a) ** POWER[first]
    # Fine enough that no two roots share a step in the cases above.
    angles = [2 * mp.pi * k / 720 for k in range(721)]
    angles[0] = mp.mpf("1e-5")
    return ratio, [(a, ratio(a)) for a in angles]


def solve(first, second, value_one, value_two):
    """Every (angle, radius) at which the circle has both sizes, smallest angle first."""
    if "angle" in (first, second):
        degrees, (name, value) = (
            (value_one, (second, value_two)) if first == "angle" else (value_two, (first, value_one))
        )
        angle = mp.radians(degrees)
        return [(angle, mp.root(value / shape(name, angle), POWER[name]))]
    goal = value_one ** POWER[second] / value_two ** POWER[first]
    ratio, table = scan(first, second)
    found = []
    for (a, at_a), (b, at_b) in pairwise(table):
        if (at_a - goal) * (at_b - goal) < 0:
            found.append(mp.findroot(lambda x: ratio(x) - goal, (a, b), solver="anderson", tol=1e-60, maxsteps=200))
        elif at_b == goal or abs(at_b - goal) < mp.mpf("1e-45"):
            found.append(b)
    radius = lambda x: mp.root(value_one / shape(first, x), POWER[first])
    return [(x, radius(x)) for x in sorted(found)]


# As measured on a part: by a gauge with legs, or by three points.
MEASURED = [
    "leg_spacing=4 in&rise=0.2113 in&leg_tip_radius=0.125 in&surface=raised&legs=two&units=inch",
    "leg_spacing=100 mm&rise=3 mm&units=metric",
    "leg_spacing=2 in&rise=0.05 in&legs=three&leg_tip_radius=3 mm&surface=hollow&units=inch",
    "leg_spacing=60 mm&rise=20 mm&leg_tip_radius=2.5 mm&surface=raised&units=metric",
    "points=0 mm,0 mm;60 mm,25 mm;140 mm,10 mm&units=metric",
    "points=1 in,2 in;2 in,-0.5 in;-1.5 in,0.25 in&units=inch",
    "points=0 mm,0 mm;10 mm,1 mm;20 mm,0.5 mm&units=metric",
]


def by_gauge(given):
    """Radius and angle of the work: its circle is drawn under the tips so that it meets tips and rod."""
    spacing, rise = quantity(given["leg_spacing"], "mm"), quantity(given["rise"], "mm")
    tip = quantity(given.get("leg_tip_radius", "0 mm"), "mm")
    arm = abs(1 + mp.expjpi(mp.mpf(1) / 3)) / 3 * spacing if given.get("legs") == "three" else spacing / 2
    sense = -1 if given.get("surface") == "hollow" else 1
    # Tip centers at zero height; the rod ends at -tip on a flat. The work's circle through the rod's end must be a tip
    # farther from a tip's center than its radius, or nearer in a hollow.
    center = lambda r: mp.mpc(0, -tip + sense * rise - sense * r)
    apart = lambda r: abs(mp.mpc(arm, 0) - center(r)) - (r + sense * tip)
    radius = mp.findroot(apart, (arm * mp.mpf("1.001"), 100 * arm), solver="anderson", tol=1e-70, maxsteps=300)
    return 2 * abs(mp.arg((mp.mpc(arm, 0) - center(radius)) / mp.mpc(0, sense))), radius


def by_points(given):
    """Radius and angle of the arc through three points, by its center where two bisectors meet."""
    a, b, c = (mp.mpc(*pair) for pair in points(given["points"], "mm"))
    p, q = (a + b) / 2, (b + c) / 2
    u, v = mp.mpc(0, 1) * (b - a), mp.mpc(0, 1) * (c - b)
    along = ((q - p) * mp.conj(v)).imag / (u * mp.conj(v)).imag
    center = p + along * u
    turn = lambda one, other: mp.arg((other - center) / (one - center))
    way = mp.sign((mp.conj(b - a) * (c - b)).imag)
    return sum((way * turn(*pair)) % (2 * mp.pi) for pair in ((a, b), (b, c))), abs(a - center)


def measured_rows(out):
    """The rows of arcs as measured."""
    for inputs in MEASURED:
        given = fields(inputs)
        length, area = ("in", "in2") if given["units"] == "inch" else ("mm", "mm2")
        angle, radius = by_points(given) if "points" in given else by_gauge(given)
        for name, power in POWER.items():
            value = shape(name, angle) * radius**power
            if name == "angle":
                out.value(inputs, "/solutions/0/angle", mp.degrees(angle), "deg")
            elif power == 2:
                out.value(inputs, f"/solutions/0/{name}", convert(value, "mm2", area), area)
            else:
                out.value(inputs, f"/solutions/0/{name}", convert(value, "mm", length), length)


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/arc", "arc", "mpmath")
    measured_rows(out)
    for inputs in CASES:
        given = fields(inputs)
        inch = given.pop("units") == "inch"
        names = list(given)
        length, area = ("in", "in2") if inch else ("mm", "mm2")
        read = lambda name: (
            number(given[name].split(" ")[0]) if name == "angle"
            else quantity(given[name], "mm2" if name == "segment_area" else "mm")
        )
        solutions = solve(*names, *map(read, names))
        assert solutions, inputs
        for index, (angle, radius) in enumerate(solutions):
            strips = area_by_quadrature(angle)
            assert abs(strips - shape("segment_area", angle)) < mp.mpf("1e-30"), inputs
            for name, power in POWER.items():
                if name in names:
                    continue
                at = f"/solutions/{index}/{name}"
                value = shape(name, angle) * radius**power
                if name == "angle":
                    out.value(inputs, at, mp.degrees(angle), "deg")
                elif name == "segment_area":
                    out.value(inputs, at, convert(value, "mm2", area), area)
                else:
                    out.value(inputs, at, convert(value, "mm", length), length)
    return out.rows


if __name__ == "__main__":
    show(rows())
