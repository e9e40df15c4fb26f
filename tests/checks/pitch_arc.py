"""Holes along an arc: the step is found by a root of the chord drawn in the complex plane, then turned again and again."""

from common import Rows, convert, fields, mp, number, quantity, show
from rows_of_holes import listed, turn

CASES = [
    "diameter=14 in&holes=5&chord=1.25 in&start_angle=0 deg&hole_diameter=3/8 in&units=inch",
    "diameter=220 mm&holes=4&arc_pitch=30 mm&middle_angle=90 deg&center_x=150 mm&center_y=100 mm&units=metric",
    "diameter=9 in&holes=6&step_angle=12.5 deg&skip=3&units=inch",
    "diameter=100 mm&holes=3&chord=2 in&start_angle=200 deg&hole_order=clockwise&units=metric",
    "diameter=80 mm&holes=7&step_angle=50 deg&middle_angle=10 deg&hole_order=clockwise&hole_diameter=6 mm&units=metric",
    "diameter=5 in&holes=2&arc_pitch=100 mm&only=2&units=inch",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("patterns/pitch-arc", "pitch_arc", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        size = lambda name: quantity(given.get(name, "0 mm"), "mm")
        degrees = lambda name: number(given.get(name, "0 deg").split(" ")[0])
        to_unit = lambda value: convert(value, "mm", unit)
        radius, holes = size("diameter") / 2, int(given["holes"])
        if "chord" in given:
            apart = lambda angle: abs(radius * turn(angle) - radius) - size("chord")
            step = mp.findroot(apart, (mp.mpf("0.001"), 180), solver="anderson")
        elif "arc_pitch" in given:
            step = mp.degrees(size("arc_pitch") / radius)
        else:
            step = degrees("step_angle")
        sense = -1 if given.get("hole_order") == "clockwise" else 1
        sweep = step * (holes - 1)
        start = degrees("middle_angle") - sense * sweep / 2 if "middle_angle" in given else degrees("start_angle")
        center = mp.mpc(size("center_x"), size("center_y"))
        at = [center + radius * turn(start + sense * step * n) for n in range(holes)]
        reach = to_unit(radius + abs(center))
        for index, n in enumerate(listed(given, holes)):
            out.count(inputs, f"/positions/{index}/number", n)
            out.value(inputs, f"/positions/{index}/x", to_unit(at[n - 1].real), unit, scale=reach)
            out.value(inputs, f"/positions/{index}/y", to_unit(at[n - 1].imag), unit, scale=reach)
        out.value(inputs, "/step_angle", step, "deg")
        out.value(inputs, "/sweep", sweep, "deg")
        out.value(inputs, "/arc_pitch", to_unit(radius * mp.radians(step)), unit)
        out.value(inputs, "/ends_chord", to_unit(abs(at[-1] - at[0])), unit, scale=reach)
        out.value(inputs, "/adjacent_chord", to_unit(abs(at[1] - at[0])), unit)
        if "hole_diameter" in given:
            chord, pin = abs(at[1] - at[0]), size("hole_diameter")
            out.value(inputs, "/gap", to_unit(chord - pin), unit, scale=reach)
            out.value(inputs, "/over_pins", to_unit(chord + pin), unit, scale=reach)
    return out.rows


if __name__ == "__main__":
    show(rows())
