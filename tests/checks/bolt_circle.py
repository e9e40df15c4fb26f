"""Bolt circle: every hole is the one before it turned by a complex number of length one."""

from common import Rows, convert, fields, mp, number, quantity, show
from rows_of_holes import add_reach

CASES = [
    "diameter=250 mm&holes=8&travel_x=600 mm&travel_y=240 mm&travel_left=100 mm&travel_front=100 mm&units=metric",
    "diameter=9 in&holes=5&start_angle=10 deg&travel_x=24 in&travel_y=10 in&travel_left=4 in&travel_front=4 in&units=inch",
    "diameter=4 in&holes=6&units=inch",
    "diameter=3.25 in&holes=5&units=inch",
    "diameter=100 mm&holes=7&units=metric",
    "diameter=80 mm&holes=4&start_angle=45 deg&units=metric",
    "diameter=2.5 in&holes=3&start_angle=90 deg&center_x=1.25 in&center_y=-0.75 in&units=inch",
    "diameter=120 mm&holes=8&start_angle=22.5 deg&center_x=150 mm&center_y=75 mm&units=metric",
    # Part of a circle has a hole at each end.
    "diameter=6 in&holes=4&start_angle=0 deg&sweep=90 deg&units=inch",
    "diameter=150 mm&holes=5&start_angle=15 deg&sweep=200 deg&center_x=10 mm&center_y=20 mm&units=metric",
    "diameter=90 mm&holes=2&start_angle=-30 deg&sweep=60 deg&units=metric",
    # The other way round, and from the other axis.
    "diameter=4 in&holes=6&start_angle=30 deg&hole_order=clockwise&units=inch",
    "diameter=110 mm&holes=5&start_angle=0 deg&angle_from=y_axis&angle_sense=clockwise&hole_order=clockwise&units=metric",
    "diameter=110 mm&holes=5&start_angle=20 deg&angle_from=y_axis&angle_sense=counterclockwise&hole_order=counterclockwise&units=metric",
    "diameter=5 in&holes=4&start_angle=25 deg&angle_sense=clockwise&hole_order=counterclockwise&units=inch",
    "diameter=5 in&holes=4&start_angle=10 deg&sweep=120 deg&angle_from=y_axis&angle_sense=clockwise&hole_order=clockwise&units=inch",
    # Some of the holes; steps run between the holes listed.
    "diameter=8 in&holes=12&only=1,4,6,11&units=inch",
    "diameter=200 mm&holes=9&only=2,3,9&center_x=50 mm&center_y=-40 mm&units=metric",
    # A hole picked up on the part (3-4-5) gives the direction of the first.
    "diameter=5 in&holes=6&through=1.5 in,2 in&units=inch",
    "diameter=130 mm&holes=3&through=25 mm,60 mm&units=metric",
    # With a hole size: gap, and over and between pins.
    "diameter=4 in&holes=6&hole_diameter=0.5 in&units=inch",
    "diameter=3.5 in&holes=8&hole_diameter=11/32 in&units=inch",
    "diameter=100 mm&holes=5&hole_diameter=9 mm&units=metric",
    "diameter=75 mm&holes=3&sweep=100 deg&hole_diameter=6.6 mm&units=metric",
    # Some left out.
    "diameter=90 mm&holes=7&skip=4&units=metric",
    # Mixed systems.
    "diameter=100 mm&holes=6&start_angle=10 deg&units=inch",
]

WORDED_ANGLES = ("angle_from", "angle_sense", "hole_order", "through")


def turn(degrees):
    """A turn of so many degrees as a complex number; expjpi keeps quarter turns exact."""
    return mp.expjpi(degrees / 180)


def rows():
    """Every library row of this calculator."""
    out = Rows("patterns/bolt-circle", "bolt_circle", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        size = lambda name: quantity(given.get(name, "0 mm"), "mm")
        degrees = lambda name, usual: number(given.get(name, usual + " deg").split(" ")[0])
        holes = int(given["holes"])
        centre = mp.mpc(size("center_x"), size("center_y"))
        sweep = degrees("sweep", "360")
        step = sweep / holes if sweep == 360 else sweep / (holes - 1)
        start = degrees("start_angle", "0")

        first = turn(start)
        if given.get("angle_sense") == "clockwise":
            first = mp.conj(first)
        if given.get("angle_from") == "y_axis":
            first *= mp.mpc(0, 1)
        arm = first * size("diameter") / 2
        if "through" in given:
            x, y = (quantity(part, "mm") for part in given["through"].split(","))
            arm = mp.mpc(x, y) - centre
        one = turn(step)
        if given.get("hole_order") == "clockwise":
            one = mp.conj(one)
        places = []
        for _ in range(holes):
            places.append(centre + arm)
            arm *= one

        to_unit = lambda value: convert(value, "mm", unit)
        reach = to_unit(size("diameter") / 2 + abs(centre))
        left_out = [int(n) for n in given.get("skip", "0").split(",")]
        listed = [n for n in range(1, holes + 1) if n not in left_out]
        if "only" in given:
            listed = [int(n) for n in given["only"].split(",")]
        plain = not any(name in given for name in WORDED_ANGLES)
        last = mp.mpc(0)
        for index, hole in enumerate(listed):
            place = places[hole - 1]
            at = f"/positions/{index}"
            if "only" in given or "skip" in given:
                out.count(inputs, f"{at}/number", hole)
            out.value(inputs, f"{at}/x", to_unit(place.real), unit, scale=reach)
            out.value(inputs, f"{at}/y", to_unit(place.imag), unit, scale=reach)
            # The first step is from zero; the second and the last stand for the rest.
            if index in (0, 1, len(listed) - 1):
                out.value(inputs, f"{at}/dx", to_unit((place - last).real), unit, scale=reach)
                out.value(inputs, f"{at}/dy", to_unit((place - last).imag), unit, scale=reach)
            # In other conventions and past a full turn the printed angle is a choice of words.
            if index in (1, len(listed) - 1) and plain and 0 <= start + step * (hole - 1) < 360:
                out.value(inputs, f"{at}/angle", start + step * (hole - 1), "deg", scale=360)
            last = place
        add_reach(out, inputs, {n: places[n - 1] for n in listed}, to_unit, unit)
        chord = abs(places[1] - places[0])
        out.value(inputs, "/step_angle", step, "deg")
        out.value(inputs, "/adjacent_chord", to_unit(chord), unit)
        if "hole_diameter" in given:
            pin = size("hole_diameter")
            out.value(inputs, "/gap", to_unit(chord - pin), unit, scale=reach)
            out.value(inputs, "/over_pins", to_unit(chord + pin), unit, scale=reach)
            out.value(inputs, "/between_pins", to_unit(chord - pin), unit, scale=reach)
    return out.rows


if __name__ == "__main__":
    show(rows())
