"""Tapping: speeds of the tables typed in anew, lead by the thread's pitch, round feeds by trying them."""

from common import Rows, fields, mp, show
from cutting import STEPS, chosen_speed, put, si

# Request, size, lead, cutting speed with the share that the drive bears, unit of round feeds.
CASES = [
    (f"thread=1/4-20 UNC&material=1018&tool_material=hss&by=rigid&available={STEPS}&units=inch", "1/4 in", "1/20 in", "30 ft/min", None),
    ("thread=M8&material=6061&tool_material=hss&by=rigid&fastest=600 rpm&units=metric", "8 mm", "1.25 mm", "50 ft/min", "1 mm/min"),
    # A head bears 70 percent, a manual spindle, which is what is taken, 40.
    ("thread=M8&material=6061&tool_material=hss&by=tapping_head&units=metric", "8 mm", "1.25 mm", "35 ft/min", "1 mm/min"),
    ("thread=1/4-20 UNC&material=1018&tool_material=hss&units=inch", "1/4 in", "1/20 in", "12 ft/min", "1 in/min"),
    ("thread=M10&spindle_speed=112 rpm&units=metric", "10 mm", "1.5 mm", None, "1 mm/min"),
    ("thread=M10&cutting_speed=8 m/min&units=metric", "10 mm", "1.5 mm", "8 m/min", "1 mm/min"),
    ("thread=1/2-13 UNC&cutting_speed=30 ft/min&units=inch", "1/2 in", "1/13 in", "30 ft/min", "1 in/min"),
]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/tapping", "tapping", "mpmath")
    for inputs, size, lead, speed, unit in CASES:
        given = fields(inputs)
        lead = si(lead)
        exact = si(speed) / (mp.pi * si(size)) if speed else si(given["spindle_speed"])
        spindle = chosen_speed(exact, given)
        put(out, inputs, given, "/exact_speed", "turning", exact)
        put(out, inputs, given, "/spindle_speed", "turning", spindle)
        put(out, inputs, given, "/cutting_speed", "speed", mp.pi * si(size) * spindle)
        put(out, inputs, given, "/feed_rate", "rate", lead * spindle)
        put(out, inputs, given, "/feed_per_rev", "rev", lead)
        if unit:
            greatest = lead * spindle / si(unit)
            place = mp.mpf(10) ** (mp.floor(mp.log10(greatest)) - 1)
            number = max(k * place for k in range(10, 100) if k * place <= greatest)
            put(out, inputs, given, "/round_feed_rate", "rate", number * si(unit))
            put(out, inputs, given, "/round_speed", "turning", number * si(unit) / lead)
    return out.rows


if __name__ == "__main__":
    show(rows())
