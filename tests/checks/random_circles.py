"""Writes tests/circles_and_lines/random.csv: random circles through points, blends and tangent lines, by angles and by
linear systems in 50 digits, which are other ways than the service's.

A size is read as the double that its text is, so that rounding of the text counts for nothing.
"""

import random
from pathlib import Path

from common import mp

COUNT = 1000
OUT = Path(__file__).resolve().parents[1] / "circles_and_lines" / "random.csv"


def through(n):
    """Circle through three points: a linear system. The radius takes the place of a tangent point."""
    p = [(n[0], n[1]), (n[2], n[3]), (n[4], n[5])]
    a, b, c = mp.lu_solve(mp.matrix([[2 * x, 2 * y, 1] for x, y in p]), mp.matrix([x * x + y * y for x, y in p]))
    return [(mp.mpc(a, b), mp.mpc(mp.sqrt(c + a * a + b * b)))]


def pair(n):
    """Both circles of a radius through two points: by the angle at the first point."""
    one, two, radius = mp.mpc(n[0], n[1]), mp.mpc(n[2], n[3]), n[4]
    lean = mp.acos(abs(two - one) / (2 * radius))
    return [(one + radius * mp.expj(mp.arg(two - one) + side * lean), mp.mpc(radius)) for side in (1, -1)]


def tangents(n):
    """Lines that touch two circles: by the angle of their normals."""
    one, two, r, q = mp.mpc(n[0], n[1]), mp.mpc(n[3], n[4]), n[2] / 2, n[5] / 2
    c, base = abs(two - one), mp.arg(two - one)
    found = []
    for same in (1, -1):
        if same > 0 or c > r + q:
            turn = mp.acos((r - same * q) / c)
            for side in (1, -1):
                normal = mp.expj(base + side * turn)
                found.append((one + r * normal, two + same * q * normal))
    return found


def from_point(n):
    """Lines from a point: by the angle at the point."""
    center, point, r = mp.mpc(n[0], n[1]), mp.mpc(n[3], n[4]), n[2] / 2
    c = abs(center - point)
    lean = mp.asin(r / c)
    return [(point + c * mp.cos(lean) * mp.expj(mp.arg(center - point) + side * lean),) for side in (1, -1)]


def corners(n):
    """Blends of two lines: along the halving lines of each corner, by angles."""
    a, b, c, d = (mp.mpc(n[at], n[at + 1]) for at in (0, 2, 4, 6))
    # The corner by the ratio of triangles' areas.
    area = lambda p, q, s: mp.im(mp.conj(q - p) * (s - p))
    corner = a + (b - a) * area(a, c, d) / (area(a, c, d) - area(b, c, d))
    one, two, r = mp.arg(b - a), mp.arg(d - c), n[8]
    found = []
    for f in (0, mp.pi):
        for g in (0, mp.pi):
            half = mp.arg(mp.expj(two + g - one - f)) / 2
            reach = r / abs(mp.tan(half))
            center = corner + r / abs(mp.sin(half)) * mp.expj(one + f + half)
            found.append((center, corner + reach * mp.expj(one + f), corner + reach * mp.expj(two + g)))
    return found


def circles(n):
    """Blends of two circles: by the law of cosines."""
    one, two, p, q, r = mp.mpc(n[0], n[1]), mp.mpc(n[3], n[4]), n[2] / 2, n[5] / 2, n[6]
    c, base = abs(two - one), mp.arg(two - one)
    found = []
    for s in (1, -1):
        for t in (1, -1):
            d, e = p + s * r, q + t * r
            cosine = (c * c + d * d - e * e) / (2 * c * abs(d))
            if abs(cosine) < 1:
                for side in (1, -1):
                    center = one + abs(d) * mp.expj(base + side * mp.acos(cosine))
                    found.append((center, one + (center - one) * p / d, two + (center - two) * q / e))
    return found


def line_and_circle(n):
    """Blends of a line and a circle: in a frame on the line, by Pythagoras."""
    a, b, center, p, r = mp.mpc(n[0], n[1]), mp.mpc(n[2], n[3]), mp.mpc(n[4], n[5]), n[6] / 2, n[7]
    way = mp.expj(mp.arg(b - a))
    seen = (center - a) / way
    found = []
    for q in (1, -1):
        for t in (1, -1):
            d, across = p + t * r, q * r - mp.im(seen)
            if abs(across) < abs(d):
                for side in (1, -1):
                    x = mp.re(seen) + side * mp.sqrt(d * d - across * across)
                    at = mp.mpc(x, q * r)
                    found.append((a + at * way, a + x * way, center + (at - seen) * way * p / d))
    return found


# The calculator, how many numbers, the request in their words, and the way to its places.
KINDS = [
    ("circle-through", 6, "points={0}mm,{1}mm;{2}mm,{3}mm;{4}mm,{5}mm", through),
    ("circle-through", 5, "points={0}mm,{1}mm;{2}mm,{3}mm&radius={4}mm", pair),
    ("tangents", 6, "first_center={0}mm,{1}mm&first_diameter={2}mm&second_center={3}mm,{4}mm&second_diameter={5}mm", tangents),
    ("tangents", 5, "first_center={0}mm,{1}mm&first_diameter={2}mm&from_point={3}mm,{4}mm", from_point),
    ("fillet", 9, "first_line={0}mm,{1}mm;{2}mm,{3}mm&second_line={4}mm,{5}mm;{6}mm,{7}mm&radius={8}mm", corners),
    ("fillet", 7, "first_center={0}mm,{1}mm&first_diameter={2}mm&second_center={3}mm,{4}mm&second_diameter={5}mm&radius={6}mm", circles),
    ("fillet", 8, "first_line={0}mm,{1}mm;{2}mm,{3}mm&first_center={4}mm,{5}mm&first_diameter={6}mm&radius={7}mm", line_and_circle),
]
# Which numbers are sizes, above zero.
SIZES = {through: [], pair: [4], tangents: [2, 5], from_point: [2], corners: [8], circles: [2, 5, 6], line_and_circle: [6, 7]}


def places(way, n):
    """What a way finds, or nothing where there is nothing to find."""
    try:
        found = way(n)
    except ZeroDivisionError:
        return []
    return found if all(abs(mp.im(mp.re(part))) == 0 for place in found for part in place) else []


def possible(way, n):
    """Whether the numbers have an answer of their kind."""
    if way is pair:
        return mp.hypot(n[2] - n[0], n[3] - n[1]) < 2 * n[4] * mp.mpf("0.9999")
    if way is tangents:
        return mp.hypot(n[3] - n[0], n[4] - n[1]) > abs(n[5] - n[2]) / 2
    if way is from_point:
        return mp.hypot(n[3] - n[0], n[4] - n[1]) > n[2] / 2
    return True


def main():
    """Write the file."""
    draw = random.Random(11)
    lines = ["calculator,request,number,x,y,first_x,first_y,second_x,second_y,condition"]
    step = mp.mpf(10) ** -25
    for _ in range(COUNT):
        name, count, request, way = draw.choice(KINDS)
        size = 10 ** draw.uniform(0, 3)
        numbers = [float(f"{draw.uniform(-1, 1) * size:.6g}") for _ in range(count)]
        for at in SIZES[way]:
            numbers[at] = float(f"{draw.uniform(0.05, 1) * size:.6g}")
        exact = [mp.mpf(value) for value in numbers]
        found = places(way, exact) if possible(way, exact) else []
        reach = max(abs(value) for value in exact)
        # How far the places move, by as much as one number does.
        conditions = [mp.mpf(1)] * len(found)
        for at in range(count):
            moved = list(exact)
            moved[at] += step * reach
            for row, (one, other) in enumerate(zip(found, places(way, moved))):
                worst = max(abs(b - a) for a, b in zip(one, other)) / (step * reach)
                conditions[row] = max(conditions[row], worst)
        for one, condition in zip(found, conditions):
            if condition > 1e6:
                continue
            cells = [mp.nstr(f(part), 17) for part in one for f in (mp.re, mp.im)] + [""] * (6 - 2 * len(one))
            lines.append(",".join([name, '"' + request.format(*(repr(value) for value in numbers)) + '"', str(len(found)), *cells, mp.nstr(condition, 3)]))
    OUT.write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
