"""Blend radii: centers by a solver along all places a radius from the one, where they are a radius from the other; tangent points
as the nearest points of lines and circles."""

from common import Rows, convert, fields, mp, point, points, quantity

CASES = [
    "radius=1/2 in&corner_angle=60 deg&edge_length=3 in&cutter_diameter=3/4 in&side=inside&units=inch",
    "radius=12 mm&first_line=20 mm,0 mm;90 mm,0 mm&second_line=10 mm,20 mm;40 mm,80 mm&cutter_diameter=10 mm&side=outside&units=metric",
    "radius=1 in&first_line=-5 in,0 in;5 in,0 in&first_center=0 in,1 in&first_diameter=3 in&units=inch",
    "radius=60 mm&first_center=0 mm,0 mm&first_diameter=50 mm&second_center=90 mm,0 mm&second_diameter=30 mm&units=metric",
    "radius=8 mm&corner_angle=135 deg&units=metric",
    "radius=0.3 in&first_line=1 in,2 in;4 in,3 in&second_line=5 in,1 in;2 in,6 in&units=inch",
    "radius=20 mm&first_line=0 mm,-30 mm;10 mm,40 mm&first_center=50 mm,8 mm&first_diameter=36 mm&cutter_diameter=16 mm&side=inside&units=metric",
    "radius=10 mm&first_center=5 mm,-3 mm&first_diameter=80 mm&second_center=35 mm,22 mm&second_diameter=44 mm&units=metric",
]


def line_of(pair):
    """A line as a point and a left normal, in complex numbers."""
    a, b = (mp.mpc(*p) for p in pair)
    way = (b - a) / abs(b - a)
    return a, way * mp.mpc(0, 1)


def dot(a, b):
    """The scalar product of two complex numbers."""
    return mp.re(a * mp.conj(b))


def places(shape, target, size):
    """The places at a distance from a shape, by one number, and where to look for it."""
    if shape[0] == "line":
        way = shape[2] * mp.mpc(0, -1)
        return (lambda t: shape[1] + target * shape[2] + t * way), [size * mp.mpf(at) / 400 for at in range(-401, 402)]
    return (lambda t: shape[1] + target * mp.expj(t)), [mp.pi * (mp.mpf(at) + mp.mpf("0.123")) / 200 for at in range(401)]


def roots(run_and_looks, gap):
    """The places on a run where the gap vanishes, by its changes of sign."""
    run, at = run_and_looks
    with mp.workdps(15):
        signs = [gap(run(t)) > 0 for t in at]
    pairs = [(at[n], at[n + 1]) for n in range(len(at) - 1) if signs[n] != signs[n + 1]]
    return [run(mp.findroot(lambda t: gap(run(t)), pair, solver="anderson", tol=1e-80, maxsteps=200)) for pair in pairs]


def near(shape):
    """The distance of a place from a line, signed, or from a circle's center."""
    if shape[0] == "line":
        return lambda place: dot(place - shape[1], shape[2])
    return lambda place: abs(place - shape[1])


def foot(shape, place):
    """The nearest and the farthest points of a shape."""
    if shape[0] == "line":
        return [place - dot(place - shape[1], shape[2]) * shape[2]]
    way = (place - shape[1]) / abs(place - shape[1])
    return [shape[1] + shape[2] * way, shape[1] - shape[2] * way]


def blends(given, unit):
    """Every arc: center, tangent points, and the corner of two lines."""
    radius = quantity(given["radius"], unit)
    shapes = []
    if "corner_angle" in given:
        angle = mp.radians(mp.mpf(given["corner_angle"].split()[0]))
        shapes = [("line", mp.mpc(0), mp.mpc(0, 1)), ("line", mp.mpc(0), mp.expj(angle) * mp.mpc(0, 1))]
    for name in ("first_line", "second_line"):
        if name in given:
            shapes.append(("line", *line_of(points(given[name], unit))))
    for name in ("first", "second"):
        if f"{name}_center" in given:
            shapes.append(("circle", mp.mpc(*point(given[f"{name}_center"], unit)), quantity(given[f"{name}_diameter"], unit) / 2))
    targets = [[radius, -radius] if s[0] == "line" else [s[2] + radius, abs(s[2] - radius)] for s in shapes]
    size = 4 * max([radius] + [abs(part) for s in shapes for part in s[1:]])
    found = []
    for one in targets[0]:
        for two in targets[1]:
            g = near(shapes[1])
            for center in roots(places(shapes[0], one, size), lambda p: g(p) - two):
                touch = [min(foot(s, center), key=lambda q: abs(abs(q - center) - radius)) for s in shapes]
                found.append((center, *touch))
    corner = None
    if all(s[0] == "line" for s in shapes):
        (corner,) = roots(places(shapes[0], mp.mpf(0), size), near(shapes[1]))
    return radius, shapes, found, corner


def named(given, shapes, arc, radius, corner, unit):
    """The words for where an arc lies, told from its place alone."""
    center, first, second = arc
    if "corner_angle" in given:
        return "in the corner" if mp.re(first) > 0 and dot(second, mp.expj(mp.radians(mp.mpf(given["corner_angle"].split()[0])))) > 0 else None
    if corner is not None:
        on = []
        for touch, name in ((first, "first_line"), (second, "second_line")):
            farther = max((mp.mpc(*p) for p in points(given[name], unit)), key=lambda p: abs(p - corner))
            on.append(dot(touch - corner, farther - corner) > 0)
        words = {(True, True): "in the corner between the points given", (False, True): "past the corner on the first line", (True, False): "past the corner on the second line", (False, False): "past the corner on both lines"}
        return words[tuple(on)]

    def beside(circle):
        away = abs(center - circle[1])
        return "outside" if away > max(circle[2], radius) and abs(away - circle[2] - radius) < 1e-9 else "inside" if radius < circle[2] else "around"

    if shapes[0][0] == "line":
        of_circle = near(shapes[0])(shapes[1][1])
        same = near(shapes[0])(center) * of_circle > 0
        ends = [mp.mpc(*p) for p in points(given["first_line"], unit)]
        toward = "second" if dot(center - shapes[1][1], ends[1] - ends[0]) > 0 else "first"
        side = "on the circle's side of the line" if same else "on the other side of the line"
        return f"{beside(shapes[1])} the circle, {side}, toward the line's {toward} point"
    a, b = (beside(circle) for circle in shapes)
    lies = f"{a} both circles" if a == b else f"{a} the first, {b} the second circle"
    way = shapes[1][1] - shapes[0][1]
    left = mp.im((center - shapes[0][1]) * mp.conj(way)) > 0
    return f"{lies}, {'left' if left else 'right'} from first to second"


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/fillet", "fillet", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        radius, shapes, found, corner = blends(given, unit)
        scale = 8 * max(abs(part) for arc in found for part in arc)
        for arc in found:
            lies = named(given, shapes, arc, radius, corner, unit)
            if lies is None:
                continue
            at = f"/fillets[lies={lies}]"
            for name, place in zip(("center", "first", "second"), arc):
                out.value(inputs, f"{at}/{name}/x", mp.re(place), unit, scale=scale)
                out.value(inputs, f"{at}/{name}/y", mp.im(place), unit, scale=scale)
            out.value(inputs, f"{at}/across", abs(arc[2] - arc[1]), unit, scale=scale)
            turn = mp.arg((arc[1] - arc[0]) / (arc[2] - arc[0]))
            out.value(inputs, f"{at}/arc_angle", abs(mp.degrees(turn)), "deg", scale=3600)
            if corner is not None:
                out.value(inputs, f"{at}/to_tangents", abs(arc[1] - corner), unit, scale=scale)
                out.value(inputs, f"{at}/to_arc", abs(arc[0] - corner) - radius, unit, scale=scale)
            if "cutter_diameter" in given:
                cutter = quantity(given["cutter_diameter"], unit) / 2
                path = radius - cutter if given["side"] == "inside" else radius + cutter
                for name, touch in (("first_cutter", arc[1]), ("second_cutter", arc[2])):
                    place = arc[0] + (touch - arc[0]) / abs(touch - arc[0]) * path
                    out.value(inputs, f"{at}/{name}/x", mp.re(place), unit, scale=scale)
                    out.value(inputs, f"{at}/{name}/y", mp.im(place), unit, scale=scale)
    return out.rows
