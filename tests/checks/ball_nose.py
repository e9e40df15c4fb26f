"""Ball nose: the widest circle of the part of the sphere that lies in the work, by search over the sphere."""

from common import Rows, fields, mp, number, show
from cutting import put, si

CASES = [
    "diameter=10 mm&axial_depth=0.5 mm&stepover=0.4 mm&cutting_speed=60 m/min&units=metric",
    "diameter=1/2 in&axial_depth=0.02 in&tilt=15 deg&cusp_height=0.0005 in&spindle_speed=1250 rpm&units=inch",
    "diameter=20 mm&axial_depth=1 mm&tilt=30 deg&stepover=2 mm&spindle_speed=900 rpm&units=metric",
    "diameter=8 mm&axial_depth=2 mm&tilt=60 deg&units=metric",
    "diameter=6 mm&axial_depth=0.1 mm&cusp_height=0.005 mm&cutting_speed=30 m/min&units=metric",
    "diameter=1 mm&axial_depth=0.001 mm&stepover=0.002 mm&spindle_speed=40000 rpm&units=metric",
    "diameter=2 in&axial_depth=1 in&stepover=1.999 in&spindle_speed=60 rpm&units=inch",
    "diameter=12 mm&axial_depth=0.2 mm&tilt=89.9 deg&cutting_speed=100 m/min&units=inch",
    "diameter=3/8 in&axial_depth=0.25 mm&tilt=0.01 deg&cusp_height=0.1 um&cutting_speed=80 ft/min&units=metric",
    # So shallow and so fine that a difference of near numbers would have no figures left.
    "diameter=10 mm&axial_depth=0.000001 mm&stepover=0.0001 mm&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/ball-nose", "ball_nose", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        diameter, depth = si(given["diameter"]), si(given["axial_depth"])
        radius = diameter / 2
        tilt = mp.radians(number(given.get("tilt", "0 deg").split(" ")[0]))
        # The edge of the cut, seen from the ball's middle, and that seen from the cutter's axis.
        edge = mp.atan2(mp.sqrt(radius**2 - (radius - depth) ** 2), radius - depth)
        widest = radius * mp.sin(min(edge + tilt, mp.pi / 2))
        put(out, inputs, given, "/effective_diameter", "length", 2 * widest)
        if "stepover" in given:
            put(out, inputs, given, "/cusp_height", "length", radius - mp.sqrt(radius**2 - (si(given["stepover"]) / 2) ** 2))
        if "cusp_height" in given:
            step = 2 * mp.sqrt(radius**2 - (radius - si(given["cusp_height"])) ** 2)
            put(out, inputs, given, "/stepover", "length", step)
        if "cutting_speed" in given:
            put(out, inputs, given, "/spindle_speed", "turning", si(given["cutting_speed"]) / (2 * mp.pi * widest))
        if "spindle_speed" in given:
            put(out, inputs, given, "/cutting_speed", "speed", 2 * mp.pi * widest * si(given["spindle_speed"]))
    return out.rows


if __name__ == "__main__":
    show(rows())
