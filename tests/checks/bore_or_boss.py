"""Bore or boss: a general least squares solver finds the circle, Newton at 50 digits polishes it.

Three touches: the linear system of equal powers of the centre. The hold on the centre is
the block of the inverted normal matrix of all three unknowns.
"""

import numpy as np
from scipy.optimize import least_squares

from common import Rows, convert, fields, mp, points, quantity, show

CASES = [
    # Three touches.
    "points=2 in,0 in;0 in,2 in;-2 in,0 in&units=inch",
    "points=1.1 in,0.35 in;0.2 in,1.45 in;-0.8 in,-0.25 in&tip_diameter=0.2 in&feature=bore&touch_error=0.0005 in&units=inch",
    "points=105 mm,0 mm;90.93 mm,52.5 mm;52.5 mm,90.93 mm&tip_diameter=10 mm&feature=boss&touch_error=0.01 mm&units=metric",
    "points=250.01 mm,-80 mm;251 mm,-79.2 mm;252.5 mm,-78.5 mm&touch_error=2 um&units=metric",
    # Four and more, nearly round.
    "points=3.1502 in,2.0000 in;2.0003 in,3.1497 in;0.8499 in,2.0004 in;1.9999 in,0.8501 in&tip_diameter=0.2 in&feature=bore&touch_error=0.0005 in&units=inch",
    "points=40.012 mm,0 mm;28.281 mm,28.292 mm;0 mm,39.991 mm;-28.279 mm,28.28 mm;-40.003 mm,0 mm;0 mm,-40.008 mm&tip_diameter=6 mm&feature=boss&touch_error=0.01 mm&units=metric",
    "points=1000.52 in,500 in;1000.02 in,500.48 in;999.5 in,500.03 in;999.98 in,499.51 in;1000.35 in,500.36 in&units=inch",
    # A short arc.
    "points=99.998 mm,0 mm;99.623 mm,8.716 mm;98.479 mm,17.365 mm;96.594 mm,25.882 mm;93.967 mm,34.202 mm&touch_error=0.005 mm&units=metric",
    # Far from round.
    "points=1 mm,7 mm;2 mm,6 mm;5 mm,8 mm;7 mm,7 mm;9 mm,5 mm;3 mm,7 mm&units=metric",
    "points=1 in,7 in;2 in,6 in;5 in,8 in;7 in,7 in;9 in,5 in;3 in,7 in&units=inch",
    "points=1.2 in,0 in;0 in,1 in;-1.1 in,0.1 in;0 in,-0.9 in&units=inch",
    # Unevenly spread.
    "points=0 mm,15 mm;14.27 mm,4.64 mm;8.82 mm,-12.13 mm;-8.81 mm,-12.14 mm;-14.26 mm,4.63 mm;0.52 mm,14.98 mm;1.05 mm,14.97 mm&tip_diameter=3 mm&feature=bore&units=metric",
]


def circle_through(p):
    """Centre and radius from x² + y² = 2 a x + 2 b y + c at three points."""
    system = mp.matrix([[2 * x, 2 * y, 1] for x, y in p])
    a, b, c = mp.lu_solve(system, mp.matrix([x * x + y * y for x, y in p]))
    return a, b, mp.sqrt(c + a * a + b * b)


def circle_fitted(p):
    """The circle of least squares, from scipy's and polished."""
    xs, ys = (np.array([float(part) for part in axis]) for axis in zip(*p))
    start = [xs.mean(), ys.mean(), np.hypot(xs - xs.mean(), ys - ys.mean()).mean()]
    found = least_squares(lambda c: np.hypot(xs - c[0], ys - c[1]) - c[2], start, xtol=1e-15, ftol=1e-15, gtol=1e-15)

    def slope(a, b, r):
        """The derivatives of the sum of squares, which vanish where it is least."""
        left = [mp.hypot(x - a, y - b) - r for x, y in p]
        ways = [((x - a) / mp.hypot(x - a, y - b), (y - b) / mp.hypot(x - a, y - b)) for x, y in p]
        return (
            mp.fsum(e * u for e, (u, _) in zip(left, ways)),
            mp.fsum(e * v for e, (_, v) in zip(left, ways)),
            mp.fsum(left),
        )

    polished = mp.findroot(slope, [mp.mpf(part) for part in found.x], tol=1e-60)
    for rough, fine in zip(found.x, polished):
        assert abs(rough - fine) < 1e-5 * max(1, abs(fine)), "scipy found another circle"
    return tuple(polished)


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/bore-or-boss", "bore_or_boss", "scipy")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        to_unit = lambda value: convert(value, "mm", unit)
        p = points(given["points"], "mm")
        a, b, r = circle_through(p) if len(p) == 3 else circle_fitted(p)
        side = {"bore": 1, "boss": -1}.get(given.get("feature"), 0)
        tip = quantity(given.get("tip_diameter", "0 mm"), "mm")
        jacobian = mp.matrix([[(x - a) / mp.hypot(x - a, y - b), (y - b) / mp.hypot(x - a, y - b), 1] for x, y in p])
        covariance = (jacobian.T * jacobian) ** -1
        worst = max(mp.eigsy(covariance[:2, :2], eigvals_only=True))
        # The place of the touches as doubles, blown up by as much as the arc is short.
        scale = to_unit(max(abs(part) for point in p for part in point) * max(1, worst))
        out.value(inputs, "/center/x", to_unit(a), unit, scale=scale)
        out.value(inputs, "/center/y", to_unit(b), unit, scale=scale)
        out.value(inputs, "/diameter", to_unit(2 * r + side * tip), unit, scale=scale)
        if len(p) > 3:
            left = [mp.hypot(x - a, y - b) - r for x, y in p]
            for index, residual in enumerate(left):
                out.value(inputs, f"/residuals/{index}", to_unit(residual), unit, scale=scale)
            out.value(inputs, "/out_of_round", to_unit(max(left) - min(left)), unit, scale=scale)
        if "touch_error" in given:
            error = quantity(given["touch_error"].replace("2 um", "0.002 mm"), "mm")
            out.value(inputs, "/center_uncertainty", to_unit(error * mp.sqrt(worst)), unit, scale=to_unit(error * worst**2))
        # The widest gap by turning each touch back by each other one.
        ways = [mp.mpc(x - a, y - b) for x, y in p]
        gaps = [min(mp.arg(w / v) % (2 * mp.pi) for w in ways if w is not v) for v in ways]
        span = 2 * mp.pi - max(gaps)
        out.value(inputs, "/arc_angle", mp.degrees(span), "deg", scale=360 * max(1, worst))
        out.value(inputs, "/arc_height", to_unit(r - r * mp.cos(span / 2)), unit, scale=scale)
    return out.rows


if __name__ == "__main__":
    show(rows())
