"""Circle through points: the fits of bore_or_boss, and the two circles of a radius as roots of a quadratic."""

from bore_or_boss import circle_fitted, circle_through
from common import Rows, convert, fields, mp, points, quantity

CASES = [
    "points=62 mm,15 mm;48 mm,38.5 mm;20 mm,47 mm&tip_diameter=4 mm&feature=boss&touch_error=0.01 mm&units=metric",
    "points=8.003 in,1 in;6.948 in,4.949 in;4.952 in,6.949 in;1 in,8.002 in;-2.501 in,7.062 in&units=inch",
    "points=1 in,0 in;0 in,1 in;-1 in,0.2 in&tip_diameter=0.2 in&feature=bore&units=inch",
    "points=1 mm,7 mm;2 mm,6 mm;5 mm,8 mm;7 mm,7 mm;9 mm,5 mm;3 mm,7 mm&units=metric",
    "points=0 in,0 in;2 in,0.5 in&radius=1.5 in&touch_error=0.001 in&units=inch",
    "points=10 mm,5 mm;50 mm,15 mm&radius=40 mm&tip_diameter=6 mm&feature=bore&touch_error=0.01 mm&units=metric",
    "points=-30 mm,80 mm;-55 mm,20 mm&radius=33 mm&tip_diameter=4 mm&feature=boss&touch_error=0.02 mm&units=metric",
]


def centers(a, b, radius):
    """Both centers of a circle of that radius through two points, the one left of the way first."""
    # On the bisector: the middle and a multiple of the normal, by the root of a quadratic.
    one, two = mp.mpc(*a), mp.mpc(*b)
    middle, normal = (one + two) / 2, (two - one) * mp.mpc(0, 1)
    roots = mp.polyroots([abs(normal) ** 2, 0, abs(middle - one) ** 2 - radius**2], maxsteps=200, extraprec=100)
    roots = sorted((mp.re(root) for root in roots), reverse=True)
    return [middle + root * normal for root in roots]


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/circle-through", "circle_through", "scipy")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        to_unit = lambda value: convert(value, "mm", unit)
        p = points(given["points"], "mm")
        side = {"bore": 1, "boss": -1}.get(given.get("feature"), 0)
        tip = quantity(given.get("tip_diameter", "0 mm"), "mm")
        if "radius" in given:
            radius = quantity(given["radius"], "mm")
            left, right = centers(*p, radius - side * tip / 2)
            ways = [(mp.mpc(*q) - left) / abs(mp.mpc(*q) - left) for q in p]
            jacobian = mp.matrix([[mp.re(w), mp.im(w)] for w in ways])
            worst = max(mp.eigsy((jacobian.T * jacobian) ** -1, eigvals_only=True))
            scale = to_unit(4 * radius * worst + max(abs(part) for q in p for part in q))
            out.value(inputs, "/center/x", to_unit(mp.re(left)), unit, scale=scale)
            out.value(inputs, "/center/y", to_unit(mp.im(left)), unit, scale=scale)
            out.value(inputs, "/other_center/x", to_unit(mp.re(right)), unit, scale=scale)
            out.value(inputs, "/other_center/y", to_unit(mp.im(right)), unit, scale=scale)
            out.value(inputs, "/radius", to_unit(radius), unit)
            error = quantity(given["touch_error"], "mm")
            out.value(inputs, "/center_uncertainty", to_unit(error * mp.sqrt(worst)), unit, scale=to_unit(error * worst**2))
            out.value(inputs, "/arc_angle", abs(mp.degrees(mp.arg(ways[1] / ways[0]))), "deg", scale=180 * worst)
            continue
        a, b, r = circle_through(p) if len(p) == 3 else circle_fitted(p)
        scale = to_unit(4 * r + max(abs(part) for q in p for part in q))
        out.value(inputs, "/center/x", to_unit(a), unit, scale=scale)
        out.value(inputs, "/center/y", to_unit(b), unit, scale=scale)
        out.value(inputs, "/radius", to_unit(r + side * tip / 2), unit, scale=scale)
        if len(p) > 3:
            left = [mp.hypot(x - a, y - b) - r for x, y in p]
            out.value(inputs, "/out_of_round", to_unit(max(left) - min(left)), unit, scale=scale)
    return out.rows
