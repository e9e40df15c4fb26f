"""Power of a cut by two methods, with the constants of the tables typed in anew."""

from common import Rows, fields, mp, show
from cutting import cut_powers, put, si

# Request, unit power, wear, kc1.1, exponent, process.
CASES = [
    ("material=4140 annealed&operation=milling&removal_rate=0.225 in3/min&feed=0.002 in&chip=0.0013 in&spindle_speed=450 rpm&spindle_power=1.5 kW&efficiency=85 percent&units=inch", "0.725", "1.10", "2200", "0.24", "1.2"),
    ("material=304&operation=turning&removal_rate=20 cm3/min&feed=0.25 mm&spindle_speed=300 rpm&tool_state=sharp&spindle_power=5 kW&base_speed=500 rpm&units=metric", "0.66", "1", "2000", "0.20", "1"),
    ("material=grey-iron-35&operation=face_milling&removal_rate=60 cm3/min&feed=0.2 mm&chip=0.15 mm&spindle_speed=220 rpm&units=metric", "0.655", "1.25", "1050", "0.23", "1.2"),
    ("material=c93200&operation=parting&removal_rate=10 cm3/min&feed=0.08 mm&spindle_speed=500 rpm&units=metric", "0.5", "1.30", "780", "0.18", "1.3"),
]

FORCE = "cutting_force=800 N&cutting_speed=60 m/min&spindle_power=1.5 kW&units=metric"
OWN = "unit_power=0.8 hp.min/in3&specific_force=2200 N/mm2&removal_rate=1.2 in3/min&spindle_speed=450 rpm&units=inch"


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/power", "power", "mpmath")
    # What the request itself states, in watts.
    given = fields(FORCE)
    power = si("800 N") * si("60 m/min")
    put(out, FORCE, given, "/power_by_force", "power", power)
    put(out, FORCE, given, "/power", "power", power)
    put(out, FORCE, given, "/motor_power", "power", power / mp.mpf("0.8"))
    put(out, FORCE, given, "/load", "share", power / (si("1.5 kW") * mp.mpf("0.8")))
    given = fields(OWN)
    by_unit, by_force = si("0.8 hp.min/in3") * si("1.2 in3/min"), si("2200 N/mm2") * si("1.2 in3/min")
    put(out, OWN, given, "/power", "power", by_unit)
    put(out, OWN, given, "/power_by_specific_force", "power", by_force)
    put(out, OWN, given, "/difference", "share", by_force / by_unit - 1, mp.mpf(1))
    put(out, OWN, given, "/torque", "torque", by_unit / (2 * mp.pi * si("450 rpm")))
    for inputs, unit, wear, kc, mc, process in CASES:
        given = fields(inputs)
        cut = {"unit": unit, "wear": wear, "kc": kc, "mc": mc, "process": process, "volume": si(given["removal_rate"]),
               "feed": si(given["feed"]), "chip": si(given.get("chip", given["feed"]))}
        force = cut_powers(out, inputs, given, cut, si(given["spindle_speed"]))
        put(out, inputs, given, "/specific_force", "specific", force)
    return out.rows


if __name__ == "__main__":
    show(rows())
