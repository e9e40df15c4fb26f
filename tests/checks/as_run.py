"""As the machine runs: what one second does to spindle, slide and tooth."""

from common import Rows, fields, mp, show
from cutting import put, si

CASES = [
    "spindle_speed=630 rpm&diameter=1/2 in&feed_rate=5 in/min&teeth=4&speed_override=80 percent&feed_override=100 percent&units=inch",
    "spindle_speed=1200 rpm&diameter=12 mm&feed_rate=300 mm/min&teeth=3&speed_override=110 percent&feed_override=70 percent&units=metric",
    "spindle_speed=300 rpm&diameter=10 mm&feed_per_rev=1.5 mm/rev&speed_override=60 percent&operation=tapping&units=metric",
    "spindle_speed=400 rpm&diameter=2 in&feed_per_rev=0.008 in/rev&feed_override=120 percent&units=inch",
    "spindle_speed=1 rpm&diameter=1000 mm&feed_rate=0.1 mm/min&teeth=100&speed_override=10 percent&feed_override=200 percent&units=metric",
    "spindle_speed=60000 rpm&diameter=0.1 mm&feed_rate=1000 mm/min&teeth=1&speed_override=50 percent&feed_override=1 percent&units=inch",
    "spindle_speed=500 rpm&diameter=3/8 in&feed_per_rev=1/16 in/rev&speed_override=150 percent&operation=tapping&units=metric",
    "spindle_speed=250 rpm&diameter=80 mm&feed_per_rev=0.9 mm/rev&teeth=9&feed_override=150 percent&speed_override=25 percent&units=inch",
    "spindle_speed=500 rpm&feed_rate=120 mm/min&teeth=4&speed_override=90 percent&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/as-run", "as_run", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        speed, feed = si(given.get("speed_override", "100 percent")), si(given.get("feed_override", "100 percent"))
        turns = si(given["spindle_speed"]) * speed
        if "feed_rate" in given:
            rate, asked = si(given["feed_rate"]) * feed, si(given["feed_rate"]) / si(given["spindle_speed"])
        else:
            rate, asked = si(given["feed_per_rev"]) * feed * turns, si(given["feed_per_rev"])
        put(out, inputs, given, "/spindle_speed", "turning", turns)
        if "diameter" in given:
            put(out, inputs, given, "/cutting_speed", "speed", mp.pi * si(given["diameter"]) * turns)
        put(out, inputs, given, "/feed_rate", "rate", rate)
        put(out, inputs, given, "/feed_per_rev", "rev", rate / turns)
        put(out, inputs, given, "/chip_change", "share", rate / turns / asked - 1, mp.mpf(1))
        if "teeth" in given:
            put(out, inputs, given, "/feed_per_tooth", "tooth", rate / turns / int(given["teeth"]))
    return out.rows


if __name__ == "__main__":
    show(rows())
