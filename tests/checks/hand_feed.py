"""Feed by hand: a slide that its screw moves."""

from common import Rows, fields, show
from cutting import put, si

CASES = [
    "feed_rate=3.6 in/min&travel_per_turn=0.1 in&distance=6 in&units=inch",
    "feed_rate=40 mm/min&travel_per_turn=2.5 mm&units=metric",
    "feed_rate=2 in/min&travel_per_turn=5 mm&distance=120 mm&units=metric",
    "feed_rate=0.01 mm/min&travel_per_turn=10 mm&distance=0.5 mm&units=metric",
    "feed_rate=200 in/min&travel_per_turn=0.02 in&distance=100 in&units=inch",
    "feed_rate=25.4 mm/min&travel_per_turn=1/10 in&distance=1 in&units=metric",
    "feed_rate=0.001 in/min&travel_per_turn=0.001 in&units=inch",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/hand-feed", "hand_feed", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        turns = si(given["feed_rate"]) / si(given["travel_per_turn"])
        put(out, inputs, given, "/time_per_turn", "short", 1 / turns)
        put(out, inputs, given, "/turns_per_minute", "turning", turns)
        if "distance" in given:
            put(out, inputs, given, "/turns", "plain", si(given["distance"]) / si(given["travel_per_turn"]))
            put(out, inputs, given, "/cutting_time", "time", si(given["distance"]) / si(given["feed_rate"]))
    return out.rows


if __name__ == "__main__":
    show(rows())
