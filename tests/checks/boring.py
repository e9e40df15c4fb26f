"""Boring: tables typed in anew, the volume as that of a ring cut out in a turn."""

from common import Rows, fields, mp, number, show
from cutting import STEPS, cut_powers, put, settings, si

IRON = {"unit": "0.655", "wear": "1.30", "kc": "1050", "mc": "0.23", "process": "1.2"}
BRONZE = {"unit": "0.5", "wear": "1.30", "kc": "780", "mc": "0.18", "process": "1.2"}
# Request, cutting speed, feed, material.
CASES = [
    (f"diameter=1-1/2 in&depth_of_cut=0.05 in&material=grey-iron-35&tool_material=hss&overhang=3 in&bar_diameter=5/8 in&available={STEPS}&spindle_power=1.5 kW&efficiency=85 percent&units=inch", "45 ft/min", "0.003 in/rev", IRON),
    ("diameter=40 mm&depth_of_cut=0.5 mm&material=c93200&tool_material=hss&cutting_edge_angle=75 deg&fastest=900 rpm&available_feeds=0.05 mm/rev,0.1 mm/rev&spindle_power=1.5 kW&base_speed=400 rpm&units=metric", "75 ft/min", "0.002 in/rev", BRONZE),
    ("diameter=50 mm&depth_of_cut=1 mm&cutting_speed=60 m/min&feed_per_rev=0.1 mm/rev&units=metric", "60 m/min", "0.1 mm/rev", None),
]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/boring", "boring", "mpmath")
    for inputs, speed, feed, material in CASES:
        given = fields(inputs)
        diameter, depth = si(given["diameter"]), si(given["depth_of_cut"])
        spindle, feed = settings(out, inputs, given, diameter, si(speed), si(feed))
        chip = feed * mp.sin(mp.radians(number(given.get("cutting_edge_angle", "90 deg").split(" ")[0])))
        ring = mp.pi / 4 * (diameter**2 - (diameter - 2 * depth) ** 2)
        put(out, inputs, given, "/chip_thickness", "length", chip)
        put(out, inputs, given, "/removal_rate", "volume", ring * feed * spindle)
        if "overhang" in given:
            put(out, inputs, given, "/overhang_ratio", "plain", si(given["overhang"]) / si(given["bar_diameter"]))
        if material:
            kc = cut_powers(out, inputs, given, {**material, "volume": ring * feed * spindle, "feed": feed, "chip": chip}, spindle)
            put(out, inputs, given, "/cutting_force", "force", kc * depth * feed)
    return out.rows


if __name__ == "__main__":
    show(rows())
