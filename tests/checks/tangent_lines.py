"""Tangent lines: each line as a normal angle, found by a solver from the condition that it touches; belts by adding
up their straight parts and arcs."""

from common import Rows, convert, fields, mp, point, quantity

CASES = [
    "first_center=0 in,0 in&first_diameter=3 in&second_center=8 in,0 in&second_diameter=1 in&units=inch",
    "first_center=60 mm,35 mm&first_diameter=40 mm&from_point=0 mm,0 mm&units=metric",
    "first_center=4 in,3 in&first_diameter=2 in&angle=30 deg&units=inch",
    "first_center=-20 mm,15 mm&first_diameter=30 mm&second_center=70 mm,-44 mm&second_diameter=62 mm&units=metric",
    "first_center=1 in,1 in&first_diameter=2 in&second_center=1.5 in,2.25 in&second_diameter=3/2 in&units=inch",
    "first_center=10 mm,-5 mm&first_diameter=12 mm&from_point=-40 mm,31 mm&units=metric",
    "first_center=-3 mm,8 mm&first_diameter=25 mm&angle=-105 deg&units=metric",
    "first_center=0 mm,0 mm&first_diameter=100 mm&second_center=0 mm,300 mm&second_diameter=100 mm&units=metric",
]


def touching(center, radius, other, other_radius):
    """Lines that touch circle and circle: tangent points as complex numbers, outer before crossing, left first."""
    way = other - center
    base = mp.arg(way)
    found = []
    for same in [1, -1] if other_radius else [1]:
        if same < 0 and abs(way) <= radius + other_radius:
            continue
        for side in [1, -1]:
            # The normal's angle t from the way: the second center lies as far over the line as its radius.
            gap = lambda t: abs(way) * mp.cos(t) - radius + same * other_radius
            turn = mp.findroot(gap, (mp.mpf("1e-9"), mp.pi - mp.mpf("1e-9")), solver="anderson", tol=1e-80, maxsteps=300)
            normal = mp.expj(base + side * turn)
            found.append((center + radius * normal, other + same * other_radius * normal, same, turn))
    return found


def lines(given, unit):
    """The lines of a request, and where they are from two circles the belts."""
    center = mp.mpc(*point(given["first_center"], unit))
    radius = quantity(given["first_diameter"], unit) / 2
    if "angle" in given:
        angle = mp.radians(mp.mpf(given["angle"].split()[0]))
        return [(center + side * radius * mp.expj(angle + mp.pi / 2), None) for side in (1, -1)], {}, angle
    if "from_point" in given:
        other = mp.mpc(*point(given["from_point"], unit))
        found = [(a, b) for a, b, _, _ in touching(center, radius, other, mp.mpf(0))]
        # Left as seen from the point is right as seen from the circle.
        return found[::-1], {}, None
    other = mp.mpc(*point(given["second_center"], unit))
    second = quantity(given["second_diameter"], unit) / 2
    all_lines = touching(center, radius, other, second)
    belts = {}
    for a, b, same, turn in all_lines[::2]:
        # The belt wraps what of each circle is turned away from the other.
        wrap = 2 * (mp.pi - turn)
        around = radius * wrap + second * (2 * mp.pi - wrap if same > 0 else wrap)
        belts["open_belt" if same > 0 else "crossed_belt"] = 2 * abs(b - a) + around
    return [(a, b) for a, b, _, _ in all_lines], belts, None


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/tangents", "tangent_lines", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        found, belts, angle = lines(given, unit)
        scale = 4 * max(abs(part) for line in found for part in line if part is not None)
        for at, (first, second) in enumerate(found):
            out.value(inputs, f"/tangents/{at}/first/x", mp.re(first), unit, scale=scale)
            out.value(inputs, f"/tangents/{at}/first/y", mp.im(first), unit, scale=scale)
            if second is not None:
                out.value(inputs, f"/tangents/{at}/length", abs(second - first), unit, scale=scale)
                angle = mp.arg(second - first)
            turned = mp.degrees(angle) % 180
            out.value(inputs, f"/tangents/{at}/angle", turned - 180 if turned > 90 + mp.mpf(10) ** -30 else turned, "deg", scale=360)
            if "second_center" in given:
                out.value(inputs, f"/tangents/{at}/second/x", mp.re(second), unit, scale=scale)
                out.value(inputs, f"/tangents/{at}/second/y", mp.im(second), unit, scale=scale)
        for name, length in belts.items():
            out.value(inputs, f"/{name}", length, unit, scale=scale)
    return out.rows
