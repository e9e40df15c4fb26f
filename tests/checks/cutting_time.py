"""Cutting time: where the cutter's circle first touches the work and last leaves it, by search along the feed."""

from common import Rows, fields, mp, number, show
from cutting import put, si

CASES = [
    "operation=face_milling&length=6 in&feed_rate=5 in/min&diameter=2 in&width=1-1/4 in&cut_offset=0.25 in&clear_out=clear&approach=0.1 in&passes=2&units=inch",
    "operation=face_milling&length=200 mm&feed_rate=300 mm/min&diameter=100 mm&width=60 mm&units=metric",
    "operation=face_milling&length=200 mm&feed_rate=300 mm/min&diameter=100 mm&width=20 mm&cut_offset=-35 mm&units=metric",
    "operation=slab_milling&length=400 mm&feed_rate=348 mm/min&diameter=80 mm&depth_of_cut=5 mm&units=metric",
    "operation=slab_milling&length=10 in&feed_rate=9 in/min&diameter=2.5 in&depth_of_cut=0.3 in&clear_out=clear&overtravel=0.2 in&units=inch",
    "operation=drilling&length=50 mm&feed_rate=60 mm/min&diameter=15 mm&point_angle=118 deg&depth_to=full_diameter&approach=2 mm&overtravel=2 mm&units=metric",
    "operation=drilling&length=1 in&feed_rate=2 in/min&diameter=1/2 in&depth_to=point&approach=0.1 in&units=inch",
    "operation=turning&length=120 mm&feed_rate=80 mm/min&approach=2 mm&passes=3&units=metric",
]


def ahead(radius, side):
    """How far before the axis the rim stands at a distance from its path."""
    return mp.sqrt(max(radius**2 - side**2, 0))


def extra(given):
    """What cutter or drill adds: the way of the axis from first touch to the end, less the work."""
    operation = given["operation"]
    if operation == "turning":
        return mp.mpf(0)
    radius = si(given["diameter"]) / 2
    if operation == "drilling":
        if given.get("depth_to") == "point":
            return mp.mpf(0)
        half = mp.radians(number(given.get("point_angle", "118 deg").split(" ")[0])) / 2
        return radius * mp.cot(half)
    if operation == "slab_milling":
        # The cutter's middle stands a radius less the depth above the face.
        touch = ahead(radius, radius - si(given["depth_of_cut"]))
        return 2 * touch if given.get("clear_out") == "clear" else touch
    off, half = si(given.get("cut_offset", "0 mm")), si(given["width"]) / 2
    sides = [off - half, off + half]
    nearest = mp.mpf(0) if sides[0] <= 0 <= sides[1] else min(abs(side) for side in sides)
    first = ahead(radius, nearest)
    if given.get("clear_out") == "clear":
        return 2 * first
    return first - min(ahead(radius, side) for side in sides)


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/cutting-time", "cutting_time", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        added = extra(given)
        travel = si(given["length"]) + added + si(given.get("approach", "0 mm")) + si(given.get("overtravel", "0 mm"))
        time = travel / si(given["feed_rate"])
        put(out, inputs, given, "/tool_approach", "length", added, travel)
        put(out, inputs, given, "/travel", "length", travel)
        put(out, inputs, given, "/time_per_pass", "time", time)
        put(out, inputs, given, "/cutting_time", "time", time * int(given.get("passes", "1")))
    return out.rows


if __name__ == "__main__":
    show(rows())
