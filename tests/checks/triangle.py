"""Triangles: corners as points in the plane, sides as their distances, angles as those between their directions.

Two sides and the angle opposite one of them are found where the circle about a corner meets the other leg.
"""

from common import Rows, fields, mp, quantity, show

CASES = [
    # Right triangles.
    "side_a=3 in&side_b=4 in&angle_c=90 deg&units=inch",
    "side_c=200 mm&angle_a=37 deg&angle_c=90 deg&units=metric",
    "side_a=5 in&side_c=13 in&angle_c=90 deg&units=inch",
    "side_a=60 mm&angle_a=20 deg&angle_c=90 deg&units=metric",
    # Three sides, needles among them: of sizes that binary numbers hold exactly.
    "side_a=80 mm&side_b=65 mm&side_c=52 mm&units=metric",
    "side_a=7 in&side_b=8 in&side_c=9 in&units=inch",
    "side_a=100 mm&side_b=99.9998779296875 mm&side_c=0.000244140625 mm&units=metric",
    "side_a=10 in&side_b=5.0009765625 in&side_c=5 in&units=inch",
    # Two sides and the angle between.
    "side_b=50 mm&side_c=90 mm&angle_a=120 deg&units=metric",
    "side_a=2 in&side_b=2 in&angle_c=0.001 deg&units=inch",
    "side_a=2 in&side_c=3 in&angle_b=179.984375 deg&units=inch",
    # Two angles and a side.
    "side_c=2.5 in&angle_a=35 deg&angle_b=60 deg&units=inch",
    "side_a=75 mm&angle_a=100 deg&angle_c=30 deg&units=metric",
    "side_b=75 mm&angle_a=0.01 deg&angle_c=0.02 deg&units=metric",
    # Two sides and an angle opposite one: one triangle, two, and the right angle between them.
    "side_a=90 mm&side_b=120 mm&angle_a=40 deg&units=metric",
    "side_a=20 in&side_b=17 in&angle_a=61 deg&units=inch",
    "side_b=4 in&side_c=3 in&angle_b=120 deg&units=inch",
    "side_a=50 mm&side_b=100 mm&angle_a=30 deg&units=metric",
    "side_c=60 mm&side_b=100 mm&angle_c=36 deg&units=metric",
    "side_a=10 in&side_b=10 in&angle_a=75 deg&units=inch",
]

NAMES = "abc"


def corners(a, b, c, angle_a):
    """The corners A, B, C: A at zero, B along X."""
    return [mp.mpc(0), mp.mpc(c), b * mp.expjpi(angle_a / 180)]


def measured(points):
    """Everything that can be measured of three corners."""
    out = {}
    for at, name in enumerate(NAMES):
        here, one, other = (points[(at + step) % 3] for step in range(3))
        out[f"side_{name}"] = abs(one - other)
        out[f"angle_{name}"] = abs(mp.arg((one - here) / (other - here))) * 180 / mp.pi
    first, second = points[1] - points[0], points[2] - points[0]
    area = abs((mp.conj(first) * second).imag) / 2
    out["area"] = area
    out["perimeter"] = sum(out[f"side_{name}"] for name in NAMES)
    for name in NAMES:
        out[f"height_{name}"] = 2 * area / out[f"side_{name}"]
    out["inscribed_radius"] = 2 * area / out["perimeter"]
    out["circumscribed_radius"] = out["side_a"] * out["side_b"] * out["side_c"] / (4 * area)
    return out


def solve(sides, angles):
    """All triangles, as what is measured of them: `sides` and `angles` by letter, angles in degrees."""
    known, free = list(angles), [name for name in NAMES if name not in sides]
    if not known:
        a, b, c = (sides[name] for name in NAMES)
        return [measured(corners(a, b, c, mp.acos((b * b + c * c - a * a) / (2 * b * c)) * 180 / mp.pi))]
    if len(known) == 2:
        angles = dict(angles)
        angles[next(name for name in NAMES if name not in angles)] = 180 - sum(angles.values())
        given = next(iter(sides))
        per = sides[given] / mp.sin(mp.radians(angles[given]))
        b, c = (per * mp.sin(mp.radians(angles[name])) for name in "bc")
        return [measured(corners(None, b, c, angles["a"]))]
    angle = known[0]
    if angle in free:
        # The corner of the angle at zero, and the other two letters after it.
        turned = turn(sides, angle)
        return [back(measured(corners(None, turned["b"], turned["c"], angles[angle])), angle)]
    # Rename so that the angle is A and the other side b: the circle of radius a about C meets the leg.
    third = free[0]
    other = next(name for name in NAMES if name not in (angle, third))
    leg = mp.expjpi(angles[angle] / 180) * sides[other]
    half = sides[angle] ** 2 - leg.imag**2
    if abs(half) < mp.mpf(10) ** -30:
        half = mp.mpf(0)
    roots = {leg.real + mp.sqrt(half), leg.real - mp.sqrt(half)}
    found = []
    for length in sorted((root for root in roots if root > mp.mpf(10) ** -30), reverse=True):
        values = measured([mp.mpc(0), mp.mpc(length), leg])
        rename = {"a": angle, "b": other, "c": third}
        found.append({swap(name, rename): value for name, value in values.items()})
    return found


def turn(sides, angle):
    """The sides by the letters that they have once the angle is A."""
    at = NAMES.index(angle)
    return {NAMES[(NAMES.index(name) - at) % 3]: side for name, side in sides.items()}


def back(values, angle):
    """Measured values by their own letters again."""
    at = NAMES.index(angle)
    return {swap(name, {old: NAMES[(NAMES.index(old) + at) % 3] for old in NAMES}): v for name, v in values.items()}


def swap(name, rename):
    """The name of a value with its letter renamed."""
    head, _, letter = name.rpartition("_")
    return f"{head}_{rename[letter]}" if head and letter in rename else name


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/triangle", "triangle", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        sides = {name: quantity(given[f"side_{name}"], unit) for name in NAMES if f"side_{name}" in given}
        angles = {name: mp.mpf(given[f"angle_{name}"].split(" ")[0]) for name in NAMES if f"angle_{name}" in given}
        for at, found in enumerate(solve(sides, angles)):
            for name, value in found.items():
                stated = "deg" if name.startswith("angle") else f"{unit}2" if name == "area" else unit
                out.value(inputs, f"/solutions/{at}/{name}", value, stated)
    return out.rows


if __name__ == "__main__":
    show(rows())
