"""Reaming: speeds, feeds and stock of the tables typed in anew."""

from common import Rows, fields, show
from cutting import STEPS, put, settings, si

# Request, cutting speed, feed, stock.
CASES = [
    (f"diameter=1/2 in&material=1018&tool_material=hss&available={STEPS}&units=inch", "60 ft/min", "0.006 in/rev", ("0.010 in", "0.016 in")),
    ("diameter=10 mm&material=c93200&tool_material=hss&available_feeds=0.1 mm/rev,0.2 mm/rev,0.3 mm/rev&fastest=630 rpm&units=metric", "100 ft/min", "0.0084 in/rev", ("0.010 in", "0.016 in")),
    ("diameter=6 mm&cutting_speed=10 m/min&feed_per_rev=0.15 mm/rev&units=metric", "10 m/min", "0.15 mm/rev", ("0.008 in", "0.012 in")),
    ("diameter=1 in&material=304&tool_material=carbide&feed_per_rev=0.012 in/rev&units=inch", "150 ft/min", "0.012 in/rev", ("0.015 in", "0.030 in")),
]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/reaming", "reaming", "mpmath")
    for inputs, speed, feed, stock in CASES:
        given = fields(inputs)
        diameter = si(given["diameter"])
        settings(out, inputs, given, diameter, si(speed), si(feed))
        put(out, inputs, given, "/stock_low", "length", si(stock[0]))
        put(out, inputs, given, "/stock_high", "length", si(stock[1]))
        put(out, inputs, given, "/drill_low", "length", diameter - si(stock[1]), diameter)
        put(out, inputs, given, "/drill_high", "length", diameter - si(stock[0]), diameter)
    return out.rows


if __name__ == "__main__":
    show(rows())
