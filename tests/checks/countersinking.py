"""Countersinking: a share of the drilling speed, feeds of the tables typed in anew."""

from common import Rows, fields, mp, show
from cutting import STEPS, settings, si

# Request, drilling speed, share, feed.
CASES = [
    (f"diameter=3/4 in&material=1018&tool_material=hss&available={STEPS}&units=inch", "90 ft/min", "0.25", "0.003 in/rev"),
    ("diameter=12 mm&material=6061&tool_material=hss&range_point=middle&speed_share=50 percent&fastest=1250 rpm&fastest_feed=300 mm/min&units=metric", "250 ft/min", "0.5", "0.010 in/rev"),
    ("diameter=18 mm&cutting_speed=8 m/min&feed_per_rev=0.1 mm/rev&units=metric", "8 m/min", "1", "0.1 mm/rev"),
    ("diameter=1 mm&cutting_speed=1 m/min&feed_per_rev=0.001 mm/rev&units=metric", "1 m/min", "1", "0.001 mm/rev"),
    ("diameter=3 in&cutting_speed=30 m/min&feed_per_rev=0.2 mm/rev&slowest=40 rpm&fastest=100 rpm&units=inch", "30 m/min", "1", "0.2 mm/rev"),
]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/countersinking", "countersinking", "mpmath")
    for inputs, speed, share, feed in CASES:
        given = fields(inputs)
        settings(out, inputs, given, si(given["diameter"]), si(speed) * mp.mpf(share), si(feed))
    return out.rows


if __name__ == "__main__":
    show(rows())
