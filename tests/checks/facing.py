"""Facing and parting: the time as an integral over the way, speeds and feeds of the tables typed in anew."""

from common import Rows, fields, mp, show
from cutting import STEPS, cut_powers, put, settings, si

STEEL = {"unit": "0.735", "wear": "1.30", "kc": "1800", "mc": "0.20", "process": "1"}
BRONZE = {"unit": "0.5", "wear": "1.30", "kc": "780", "mc": "0.18", "process": "1.3"}
# Request, cutting speed, feed, material.
CASES = [
    (f"outer_diameter=2 in&inner_diameter=1 in&depth_of_cut=0.05 in&material=1018&tool_material=hss&available={STEPS}&spindle_power=1.5 kW&efficiency=85 percent&units=inch", "80 ft/min", "0.010 in/rev", STEEL),
    ("outer_diameter=50 mm&cutting_speed=60 m/min&feed_per_rev=0.1 mm/rev&hold=surface_speed&fastest=1250 rpm&units=metric", "60 m/min", "0.1 mm/rev", None),
    ("outer_diameter=100 mm&inner_diameter=0 mm&cutting_speed=200 m/min&feed_per_rev=0.2 mm/rev&hold=surface_speed&fastest=3000 rpm&units=metric", "200 m/min", "0.2 mm/rev", None),
    ("outer_diameter=80 mm&inner_diameter=30 mm&cutting_speed=90 m/min&feed_per_rev=0.15 mm/rev&hold=surface_speed&units=metric", "90 m/min", "0.15 mm/rev", None),
    ("outer_diameter=30 mm&depth_of_cut=3 mm&material=c93200&tool_material=hss&cut=parting&fastest=400 rpm&available_feeds=0.05 mm/rev,0.08 mm/rev,0.1 mm/rev&spindle_power=1.5 kW&base_speed=500 rpm&units=metric", "100 ft/min", "0.003 in/rev", BRONZE),
]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/facing", "facing", "mpmath")
    for inputs, speed, feed, material in CASES:
        given = fields(inputs)
        outer, inner = si(given["outer_diameter"]), si(given.get("inner_diameter", "0 mm"))
        speed = si(speed)
        # The feeds of parting in brass and bronze run from 0.003 to 0.007 in.
        published = (si("0.003 in/rev"), si("0.007 in/rev")) if given.get("cut") == "parting" else None
        spindle, feed = settings(out, inputs, given, outer, speed, si(feed), published)
        fastest = si(given["fastest"]) if "fastest" in given else mp.inf
        if given.get("hold") == "surface_speed":
            turns = lambda d: min(speed / (mp.pi * d), fastest) if d else fastest
            limit = speed / (mp.pi * fastest) if fastest < mp.inf else mp.mpf(0)
            ways = [inner, limit, outer] if inner < limit < outer else [inner, outer]
            if inner < limit < outer:
                put(out, inputs, given, "/limit_diameter", "length", limit)
        else:
            turns, ways = lambda d: spindle, [inner, outer]
        time = mp.quad(lambda d: 1 / (2 * feed * turns(d)), ways)
        put(out, inputs, given, "/cutting_time", "time", time)
        put(out, inputs, given, "/inner_spindle_speed", "turning", turns(inner))
        if inner:
            put(out, inputs, given, "/inner_cutting_speed", "speed", mp.pi * inner * turns(inner))
        if material:
            volume = mp.pi * outer * si(given["depth_of_cut"]) * feed * spindle
            put(out, inputs, given, "/removal_rate", "volume", volume)
            cut_powers(out, inputs, given, {**material, "volume": volume, "feed": feed, "chip": feed}, spindle)
    return out.rows


if __name__ == "__main__":
    show(rows())
