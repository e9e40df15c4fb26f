"""Countersinks: the tool as a profile z(r), the depth by where it meets the face, a ball by the least gap to the cone."""

from common import Rows, fields, mp, number, quantity, show

CASES = [
    "diameter=8 mm&point_angle=90 deg&tip_flat=1 mm&units=metric",
    "diameter=0.5 in&point_angle=82 deg&units=inch",
    "diameter=12 mm&point_angle=60 deg&tip_radius=0.5 mm&units=metric",
    "diameter=0.4 mm&point_angle=90 deg&tip_radius=1 mm&units=metric",
    "diameter=12 mm&point_angle=90 deg&hole_diameter=6.6 mm&units=metric",
    "diameter=12 mm&point_angle=120 deg&hole_diameter=6.6 mm&touched=face&tip_flat=2 mm&units=metric",
    "diameter=12.6 mm&point_angle=90 deg&hole_diameter=6.6 mm&ball_diameter=12 mm&units=metric",
    "diameter=0.507 in&point_angle=82 deg&hole_diameter=0.281 in&ball_diameter=0.5 in&units=inch",
    "diameter=0.507 in&point_angle=100 deg&ball_diameter=0.375 in&units=inch",
]

# What the quill went, and the diameter that is found.
WENT = [
    "quill_travel=2 mm&point_angle=90 deg&hole_diameter=6.6 mm&units=metric",
    "quill_travel=3 mm&point_angle=60 deg&tip_radius=0.5 mm&units=metric",
    "quill_travel=0.1 mm&point_angle=60 deg&tip_radius=1 mm&units=metric",
    "quill_travel=0.125 in&point_angle=82 deg&tip_flat=0.03 in&units=inch",
]


def profile(radius, half, flat, ball):
    """Height of the tool's surface over its tip, at a radius."""
    if ball:
        # The cone's line and the ball's circle meet where the slopes agree.
        meets = ball * mp.cos(half)
        if radius <= meets:
            return ball - mp.sqrt(ball**2 - radius**2)
        return ball - ball * mp.sin(half) + (radius - meets) * mp.cot(half)
    return mp.mpf(0) if radius <= flat / 2 else (radius - flat / 2) * mp.cot(half)


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/countersink", "countersink", "mpmath")
    for inputs in CASES + WENT:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        of = lambda name: quantity(given.get(name, "0"), unit)
        half = mp.radians(number(given["point_angle"].split(" ")[0])) / 2
        tool = lambda radius: profile(radius, half, of("tip_flat"), of("tip_radius"))
        hole = of("hole_diameter")
        at_touch = tool(hole / 2) if hole and given.get("touched", "edge") == "edge" else mp.mpf(0)
        if "quill_travel" in given:
            depth = of("quill_travel") + at_touch
            low, high = of("tip_flat") / 2, mp.mpf(100)
            for _ in range(180):
                middle = (low + high) / 2
                low, high = (middle, high) if tool(middle) < depth else (low, middle)
            mouth = 2 * low
            out.value(inputs, "/mouth_diameter", mouth, unit)
        else:
            mouth = of("diameter")
        tip = tool(mouth / 2)
        out.value(inputs, "/tip_depth", tip, unit, scale=mouth)
        out.value(inputs, "/travel", tip - at_touch, unit, scale=mouth)
        if hole:
            out.value(inputs, "/chamfer_width", mouth / 2 - hole / 2, unit, scale=mouth)
            out.value(inputs, "/chamfer_depth", tip - tool(hole / 2), unit, scale=mouth)
        if "ball_diameter" in given:
            ball = of("ball_diameter") / 2
            # The ball's center lies where its distance from the cone's line is its radius.
            apex = mouth / 2 * mp.cot(half)
            above_apex = mp.findroot(lambda z: z * mp.sin(half) - ball, ball)
            out.value(inputs, "/ball_above", above_apex + ball - apex, unit, scale=mouth)
    return out.rows


if __name__ == "__main__":
    show(rows())
