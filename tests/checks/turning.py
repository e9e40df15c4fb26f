"""Turning: tables typed in anew, the volume as that of a ring cut off in a turn."""

from common import Rows, fields, mp, number, show
from cutting import STEPS, cut_powers, put, settings, si

STEEL = {"unit": "0.815", "wear": "1.30", "kc": "2220", "mc": "0.14", "process": "1"}
STAINLESS = {"unit": "0.66", "wear": "1.10", "kc": "2000", "mc": "0.20", "process": "1"}
# Request, cutting speed, feed, material.
CASES = [
    (f"diameter=2 in&depth_of_cut=0.1 in&material=1045-normalised&tool_material=hss&available={STEPS}&spindle_power=1.5 kW&efficiency=80 percent&units=inch", "70 ft/min", "0.010 in/rev", STEEL),
    ("diameter=40 mm&depth_of_cut=0.5 mm&material=316&tool_material=hss&range_point=middle&cut=finish&cutting_edge_angle=60 deg&fastest=900 rpm&available_feeds=0.05 mm/rev,0.08 mm/rev,0.1 mm/rev,0.16 mm/rev&spindle_power=1.5 kW&base_speed=400 rpm&units=metric", "65 ft/min", "0.0065 in/rev", STAINLESS),
    ("diameter=60 mm&depth_of_cut=2 mm&cutting_speed=90 m/min&feed_per_rev=0.2 mm/rev&units=metric", "90 m/min", "0.2 mm/rev", None),
    ("diameter=6 in&spindle_speed=112 rpm&feed_per_rev=0.008 in/rev&units=inch", None, "0.008 in/rev", None),
]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/turning", "turning", "mpmath")
    for inputs, speed, feed, material in CASES:
        given = fields(inputs)
        diameter = si(given["diameter"])
        spindle, feed = settings(out, inputs, given, diameter, speed and si(speed), si(feed))
        chip = feed * mp.sin(mp.radians(number(given.get("cutting_edge_angle", "90 deg").split(" ")[0])))
        if "depth_of_cut" not in given:
            put(out, inputs, given, "/chip_thickness", "length", chip)
            continue
        depth = si(given["depth_of_cut"])
        ring = mp.pi / 4 * (diameter**2 - (diameter - 2 * depth) ** 2)
        put(out, inputs, given, "/chip_thickness", "length", chip)
        put(out, inputs, given, "/mean_diameter", "length", diameter - depth)
        put(out, inputs, given, "/removal_rate", "volume", ring * feed * spindle)
        if material:
            kc = cut_powers(out, inputs, given, {**material, "volume": ring * feed * spindle, "feed": feed, "chip": chip}, spindle)
            put(out, inputs, given, "/cutting_force", "force", kc * depth * feed)
    return out.rows


if __name__ == "__main__":
    show(rows())
