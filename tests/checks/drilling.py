"""Drilling: speeds and feeds of the tables typed in anew, forces by the formulas at 50 digits."""

from common import Rows, fields, mp, number, show
from cutting import INCH, POUND, STEPS, put, settings, si

# Request, cutting speed, feed, reductions, (Kd of torque and thrust, A, B, J), (kc1.1, exponent), K.
STANDARD, SPLIT = ("1.085", "1.355", "0.030"), ("1.000", "1.100", "0.001")
CASES = [
    (f"diameter=1/2 in&material=4140 annealed&tool_material=hss&available={STEPS}&units=inch",
     "50 ft/min", "0.004 in/rev", ("0", "0"), ("24560", "24560", STANDARD), ("2200", "0.24"), None),
    ("diameter=8 mm&material=304&tool_material=hss&depth=40 mm&point_angle=135 deg&point=split&units=metric",
     "30 ft/min", "0.004 in/rev", ("0.30", "0.20"), ("24000", "35000", SPLIT), ("2000", "0.20"), None),
    ("diameter=10 mm&cutting_speed=25 m/min&feed_per_rev=0.2 mm/rev&material=1018&units=metric",
     "25 m/min", "0.2 mm/rev", ("0", "0"), ("24000", "24000", STANDARD), ("1800", "0.20"), "2.22"),
    ("diameter=12 mm&cutting_speed=18 m/min&feed_per_rev=0.18 mm/rev&material=4140-prehardened&fastest=450 rpm&available_feeds=0.1 mm/rev,0.15 mm/rev,0.2 mm/rev&units=metric",
     "18 m/min", "0.18 mm/rev", ("0", "0"), ("29985", "29985", STANDARD), ("2500", "0.26"), "2.41"),
    ("diameter=1 in&cutting_speed=60 ft/min&feed_per_rev=0.01 in/rev&material=nylon&units=inch",
     "60 ft/min", "0.01 in/rev", ("0", "0"), None, ("150", "0.2"), None),
    ("diameter=6 mm&spindle_speed=900 rpm&feed_per_rev=0.12 mm/rev&quill_feeds=0.05 mm/rev,0.1 mm/rev&material=1018&units=metric",
     None, "0.12 mm/rev", ("0", "0"), ("24000", "24000", STANDARD), ("1800", "0.20"), "2.22"),
]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/drilling", "drilling", "mpmath")
    for inputs, speed, feed, cut, handbook, force, catalogue in CASES:
        given = fields(inputs)
        diameter = si(given["diameter"])
        speed = speed and si(speed) * (1 - number(cut[0]))
        feed = si(feed) * (1 - number(cut[1]))
        spindle, feed = settings(out, inputs, given, diameter, speed, feed)
        put(out, inputs, given, "/removal_rate", "volume", mp.pi * diameter**2 / 4 * feed * spindle)
        half = mp.radians(number(given.get("point_angle", "118 deg").split(" ")[0])) / 2
        chip = feed / 2 * mp.sin(half) * 1000
        kc = number(force[0]) * 10**6 * chip ** -number(force[1]) * mp.mpf("1.2")
        by_force = kc * feed * diameter**2 / 8
        put(out, inputs, given, "/torque_by_specific_force", "torque", by_force)
        torque = by_force
        if handbook:
            a, b, j = (number(factor) for factor in handbook[2])
            f, d, wear = feed / INCH, diameter / INCH, mp.mpf("1.3")
            eight = mp.mpf("0.8")
            torque = POUND * INCH * number(handbook[0]) * f**eight * d ** mp.mpf("1.8") * a * wear
            thrust = POUND * (2 * number(handbook[1]) * f**eight * d**eight * b * wear + number(handbook[1]) * d**2 * j * wear)
            put(out, inputs, given, "/thrust", "force", thrust)
        put(out, inputs, given, "/torque", "torque", torque)
        put(out, inputs, given, "/power", "power", 2 * mp.pi * spindle * torque)
        if catalogue:
            d, f = diameter * 1000, feed * 1000
            put(out, inputs, given, "/torque_by_catalogue", "torque", number(catalogue) * d**2 * (mp.mpf("0.630") + mp.mpf("16.84") * f) / 100)
            put(out, inputs, given, "/thrust_by_catalogue", "force", 570 * number(catalogue) * d * f ** mp.mpf("0.85"))
    return out.rows


if __name__ == "__main__":
    show(rows())
