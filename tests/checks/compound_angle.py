"""Compound angles: the upright of the face as a vector, brought upright by turns about the axes of a vise or of two plates."""

from common import Rows, fields, mp, quantity, show

CASES = [
    "front_angle=20 deg&side_angle=30 deg&plate_length=10 in&units=inch",
    "true_angle=25 deg&direction=40 deg&lower=side&units=metric",
    "front_angle=-12.5 deg&side_angle=8 deg&plate_length=100 mm&lower=side&units=metric",
    "front_angle=-3 deg&side_angle=-70 deg&units=inch",
    "true_angle=45 deg&direction=-160 deg&plate_length=5 in&units=inch",
    "front_angle=0 deg&side_angle=15 deg&units=inch",
    "true_angle=5 deg&direction=300 deg&plate_length=200 mm&units=metric",
]

UP = mp.matrix([0, 0, 1])


def about_x(t):
    """A turn about the axis to the right."""
    return mp.matrix([[1, 0, 0], [0, mp.cos(t), -mp.sin(t)], [0, mp.sin(t), mp.cos(t)]])


def about_y(t):
    """A turn about the axis to the back; positive lowers the right."""
    return mp.matrix([[mp.cos(t), 0, mp.sin(t)], [0, 1, 0], [-mp.sin(t), 0, mp.cos(t)]])


def about_z(t):
    """A turn seen from above, counterclockwise."""
    return mp.matrix([[mp.cos(t), -mp.sin(t), 0], [mp.sin(t), mp.cos(t), 0], [0, 0, 1]])


def cross(a, b):
    """The vector square to two others."""
    return mp.matrix([a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]])


def dot(a, b):
    """The product along each other."""
    return sum(x * y for x, y in zip(a, b))


def unit(a):
    """The same, one long."""
    return a / mp.norm(a)


def degrees(text):
    """An angle in radians."""
    return mp.radians(mp.mpf(text.split(" ")[0]))


def upright(given):
    """The upright of the face."""
    if "front_angle" in given:
        front, side = degrees(given["front_angle"]), degrees(given["side_angle"])
        right, back = mp.matrix([mp.cos(front), 0, mp.sin(front)]), mp.matrix([0, mp.cos(side), mp.sin(side)])
        return unit(cross(right, back))
    # Tilted to the right by the true angle, then turned about the upright.
    return about_z(degrees(given["direction"])) * about_y(-degrees(given["true_angle"])) * UP


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/compound-angle", "compound_angle", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        n = upright(given)
        angle = lambda field, value: out.value(inputs, field, mp.degrees(value), "deg", scale=90)
        true = mp.acos(n[2])
        rise = mp.atan2(-n[1], -n[0])
        stated = degrees(given["direction"]) if "direction" in given else rise
        angle("/true_angle", true)
        angle("/direction", stated)
        angle("/turn", -rise)
        angle("/front_angle", mp.atan2(-n[0], n[2]))
        angle("/side_angle", mp.atan2(-n[1], n[2]))
        # The lower plate turns about a fixed axis, the upper one about an axis that the lower one carries; the part is
        # level where both together bring its upright up.
        if given.get("lower", "front") == "front":
            level = lambda p, q: about_y(p) * about_x(-q) * n
        else:
            level = lambda p, q: about_x(-p) * about_y(q) * n
        start = (true / 3, true / 3)
        first = lambda p, q: tuple(level(p, q)[at] for at in (0, 1))
        best = None
        for signs in ((1, 1), (1, -1), (-1, 1), (-1, -1)):
            try:
                found = mp.findroot(first, (signs[0] * start[0], signs[1] * start[1]))
            except (ValueError, ZeroDivisionError):
                continue
            if level(*found)[2] > 0 and max(abs(found[0]), abs(found[1])) < mp.pi / 2:
                best = found
        angle("/lower_tilt", best[0])
        angle("/upper_tilt", best[1])
        if "plate_length" in given:
            size = "in" if given["units"] == "inch" else "mm"
            length = quantity(given["plate_length"], size)
            out.value(inputs, "/lower_stack", abs((length * mp.expj(best[0])).imag), size, scale=length)
            out.value(inputs, "/upper_stack", abs((length * mp.expj(best[1])).imag), size, scale=length)
        # The angle in the metal is what the uprights of two faces lack of a half turn.
        angle("/front_corner", mp.pi - mp.acos(dot(n, mp.matrix([0, -1, 0]))))
        angle("/left_corner", mp.pi - mp.acos(dot(n, mp.matrix([-1, 0, 0]))))
    return out.rows


if __name__ == "__main__":
    show(rows())
