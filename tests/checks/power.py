"""Power of a cut by two methods, with the constants of the tables typed in anew."""

from common import Rows, fields, show
from cutting import cut_powers, put, si

# Request, unit power, wear, kc1.1, exponent, process.
CASES = [
    ("material=4140 annealed&operation=milling&removal_rate=0.225 in3/min&feed=0.002 in&chip=0.0013 in&spindle_speed=450 rpm&spindle_power=1.5 kW&efficiency=85 percent&units=inch", "0.725", "1.10", "2200", "0.24", "1.2"),
    ("material=304&operation=turning&removal_rate=20 cm3/min&feed=0.25 mm&spindle_speed=300 rpm&tool_state=sharp&spindle_power=5 kW&base_speed=500 rpm&units=metric", "0.66", "1", "2000", "0.20", "1"),
    ("material=grey-iron-35&operation=face_milling&removal_rate=60 cm3/min&feed=0.2 mm&chip=0.15 mm&spindle_speed=220 rpm&units=metric", "0.655", "1.25", "1050", "0.23", "1.2"),
    ("material=c93200&operation=parting&removal_rate=10 cm3/min&feed=0.08 mm&spindle_speed=500 rpm&units=metric", "0.5", "1.30", "780", "0.18", "1.3"),
]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/power", "power", "mpmath")
    for inputs, unit, wear, kc, mc, process in CASES:
        given = fields(inputs)
        cut = {"unit": unit, "wear": wear, "kc": kc, "mc": mc, "process": process, "volume": si(given["removal_rate"]),
               "feed": si(given["feed"]), "chip": si(given.get("chip", given["feed"]))}
        force = cut_powers(out, inputs, given, cut, si(given["spindle_speed"]))
        put(out, inputs, given, "/specific_force", "specific", force)
    return out.rows


if __name__ == "__main__":
    show(rows())
