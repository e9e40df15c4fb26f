"""Regular polygons: corners on a circle in the complex plane, scaled until the size asked for is met."""

from common import Rows, fields, mp, quantity, show

CASES = [
    *[f"sides={n}&inside_diameter=1 in&units=inch" for n in (3, 4, 5, 6, 8, 12)],
    "sides=4&corner_diameter=30 mm&units=metric",
    "sides=7&corner_diameter=100 mm&units=metric",
    "sides=360&corner_diameter=8 in&units=inch",
    "sides=5&side=20 mm&units=metric",
    "sides=64&side=0.25 in&units=inch",
    "sides=5&caliper=38 mm&units=metric",
    "sides=6&caliper=1.5 in&units=inch",
    "sides=3&caliper=2 in&units=inch",
]


def measured(sides):
    """What can be measured of the polygon in a circle of radius one."""
    corners = [mp.expjpi(mp.mpf(2 * at) / sides) for at in range(sides)]
    middle = (corners[0] + corners[1]) / 2
    far = max(abs(((corner - middle) / (corners[1] - corners[0])).imag) for corner in corners)
    side = abs(corners[1] - corners[0])
    pairs = list(zip(corners, corners[1:] + corners[:1]))
    return {
        "inside_diameter": 2 * abs(middle),
        "corner_diameter": mp.mpf(2),
        "side": side,
        "caliper": far * side,
        "flat_depth": 1 - abs(middle),
        "perimeter": sum(abs(a - b) for a, b in pairs),
        "area": sum((mp.conj(a) * b).imag for a, b in pairs) / 2,
        "turn": abs(mp.arg(corners[1] / corners[0])) * 180 / mp.pi,
        "corner_angle": abs(mp.arg((corners[0] - corners[1]) / (corners[2] - corners[1]))) * 180 / mp.pi,
    }


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/polygon", "polygon", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        of_one = measured(int(given["sides"]))
        name = next(name for name in given if name not in ("sides", "units"))
        scale = quantity(given[name], unit) / of_one[name]
        for field, value in of_one.items():
            power = {"area": 2, "turn": 0, "corner_angle": 0}.get(field, 1)
            stated = {2: f"{unit}2", 0: "deg", 1: unit}[power]
            size = of_one["corner_diameter"] * scale if field == "flat_depth" else None
            out.value(inputs, f"/{field}", value * scale**power, stated, scale=size)
    return out.rows


if __name__ == "__main__":
    show(rows())
