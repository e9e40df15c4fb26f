"""Keyseats: the corners of the slot where a vertical line crosses the circle, by a quadratic equation."""

from common import Rows, fields, mp, quantity, show

# The request, then the key's width and height, depth in the shaft and in the hub, whether these count from the corners,
# and the diameter of the cutter, all in the request's unit.
CASES = [
    ("shaft_diameter=1 in&units=inch", "1/4 in", "1/4 in", "1/8 in", "0.130 in", True, None),
    ("shaft_diameter=1 in&measured_diameter=0.992 in&tip_diameter=3/8 in&shim=0.002 in&units=inch", "1/4 in", "1/4 in", "1/8 in", "0.130 in", True, None),
    ("shaft_diameter=1-1/2 in&shape=rectangular&units=inch", "3/8 in", "1/4 in", "1/8 in", "0.130 in", True, None),
    ("shaft_diameter=1-1/2 in&key=1/4 x 3/16&units=inch", "1/4 in", "3/16 in", "3/32 in", "0.09875 in", True, None),
    ("shaft_diameter=25 mm&units=metric", "8 mm", "7 mm", "4 mm", "3.3 mm", False, None),
    ("shaft_diameter=25 mm&measured_diameter=24.8 mm&tip_diameter=10 mm&units=metric", "8 mm", "7 mm", "4 mm", "3.3 mm", False, None),
    ("shaft_diameter=40 mm&key=10 x 8&units=metric", "10 mm", "8 mm", "5 mm", "3.3 mm", False, None),
    ("shaft_diameter=3/4 in&kind=woodruff&key=606&units=inch", "3/16 in", "0.313 in", "0.2143 in", "0.0997 in", True, "3/4 in"),
    ("shaft_diameter=20 mm&kind=woodruff&standard=din&key=4 x 6.5&units=metric", "4 mm", "6.5 mm", "5 mm", "1.7 mm", False, "16 mm"),
    ("shaft_diameter=20 mm&kind=woodruff&key=5 x 6.5&units=metric", "5 mm", "6.5 mm", "4.5 mm", "2.3 mm", False, "16 mm"),
]


def corner(diameter, width):
    """Height of the corners of a slot of that width over the middle of the round."""
    roots = mp.polyroots([1, 0, (width / 2) ** 2 - (diameter / 2) ** 2], maxsteps=200, extraprec=200)
    return max(mp.re(root) for root in roots)


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/keyseat", "keyseat", "mpmath")
    for inputs, *key, from_corners, cutter in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        width, height, seat, slot = (quantity(text, unit) for text in key)
        nominal = quantity(given["shaft_diameter"], unit)
        measured = quantity(given.get("measured_diameter", given["shaft_diameter"]), unit)
        # Heights over the axis: the bottom of the seat on a nominal shaft, and that of the slot in the hub.
        top = corner(nominal, width) if from_corners else nominal / 2
        bottom, roof = top - seat, top + slot
        depth = measured / 2 - bottom
        put = lambda field, value: out.value(inputs, field, value, unit, scale=nominal)
        out.value(inputs, "/key_width", width, unit)
        put("/depth_from_top", depth)
        put("/depth_at_side", corner(measured, width) - bottom)
        put("/chord_height", measured / 2 - corner(measured, width))
        put("/to_far_side", bottom + measured / 2)
        put("/over_key", bottom + height + measured / 2)
        put("/hub_depth", roof - nominal / 2)
        put("/over_hub", roof + nominal / 2)
        put("/top_clearance", roof - bottom - height)
        if cutter:
            radius = quantity(cutter, unit) / 2
            # The cutter's circle, its middle over the top of the shaft, crosses the line of the top.
            put("/seat_length", 2 * corner(2 * radius, 2 * (radius - depth)))
        if "tip_diameter" in given:
            put("/move_over", (measured + quantity(given["tip_diameter"], unit)) / 2 + quantity(given.get("shim", "0"), unit))
    return out.rows


if __name__ == "__main__":
    show(rows())
