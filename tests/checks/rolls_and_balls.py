"""Tapers over rolls and balls: the flank is turned in the complex plane until it touches both circles."""

from common import Rows, convert, fields, mp, quantity, show
from tangent import distance, root

CASES = [
    "taper=plug&roll_diameter=0.5 in&over_low=2 in&over_high=2.25 in&blocks=3 in&units=inch",
    "taper=hole&large_ball=25 mm&large_ball_depth=4 mm&small_ball=20 mm&small_ball_depth=55 mm&units=metric",
    "taper=plug&roll_diameter=10 mm&over_low=50 mm&over_high=73.09 mm&blocks=20 mm&units=metric",
    "taper=hole&large_ball=1 in&large_ball_depth=-0.1 in&small_ball=0.75 in&small_ball_depth=2.25 in&units=inch",
    "taper=plug&roll_diameter=8 mm&over_low=1.5 in&over_high=1.51 in&blocks=2 in&units=inch",
    "taper=hole&large_ball=12 mm&large_ball_depth=0.5 mm&small_ball=8 mm&small_ball_depth=15 mm&units=metric",
]


def solve(low, high, radius_low, radius_high):
    """The flank right of an axis at zero, leaning out by an angle, that has both circles to one side of it."""
    way = lambda degrees: mp.expjpi((90 - degrees) / 180)
    # With the flank on the low circle, how far the high one misses it.
    side = 1 if radius_low < 0 else -1

    def miss(degrees):
        touch = low + side * abs(radius_low) * mp.mpc(0, -1) * way(degrees)
        return distance(high, touch, way(degrees)) - side * abs(radius_high)

    degrees = root(miss, mp.mpf("0.0001"), 80)
    touch = low + side * abs(radius_low) * mp.mpc(0, -1) * way(degrees)
    return degrees, touch, way(degrees)


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/rolls-and-balls", "rolls_and_balls", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        to_unit = lambda value: convert(value, "mm", unit)
        size = lambda name: quantity(given[name], "mm")
        if given["taper"] == "plug":
            r = size("roll_diameter") / 2
            low = mp.mpc(size("over_low") / 2 - r, r)
            high = mp.mpc(size("over_high") / 2 - r, size("blocks") + r)
            degrees, touch, way = solve(low, high, r, r)
            scale = size("over_low")
        else:
            r, big = size("small_ball") / 2, size("large_ball") / 2
            low = mp.mpc(0, -size("small_ball_depth") - r)
            high = mp.mpc(0, -size("large_ball_depth") - big)
            degrees, touch, way = solve(low, high, -r, -big)
            scale = 2 * big
        # Where the flank meets the plate or the face, at zero.
        end = 2 * (touch - way * touch.imag / way.imag).real
        out.value(inputs, "/half_angle", degrees, "deg")
        out.value(inputs, "/included_angle", 2 * degrees, "deg")
        slope = way.real / way.imag
        out.value(inputs, "/taper_per_foot", to_unit(2 * slope * mp.mpf("304.8")), unit)
        out.value(inputs, "/one_in", 1 / (2 * slope), "")
        out.value(inputs, "/end_diameter", to_unit(end), unit, scale=to_unit(scale))
    return out.rows


if __name__ == "__main__":
    show(rows())
