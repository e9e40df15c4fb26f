"""Spindle speed: pint carries cutting speed and diameter to one unit; a turn lays off one circumference."""

from common import Rows, convert, fields, mp, number, quantity, show

STEPS = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm"

CASES = [
    "cutting_speed=100 ft/min&diameter=0.5 in&units=inch",
    "cutting_speed=90 ft/min&diameter=3/4 in&units=inch",
    "cutting_speed=350 ft/min&diameter=2.5 in&units=inch",
    "cutting_speed=25 m/min&diameter=12 mm&units=metric",
    "cutting_speed=120 m/min&diameter=63 mm&units=metric",
    # Mixed systems: the factor 12 x 25.4 must not be lost on the way.
    "cutting_speed=30 m/min&diameter=0.375 in&units=inch",
    "cutting_speed=80 ft/min&diameter=16 mm&units=metric",
    f"cutting_speed=100 ft/min&diameter=0.5 in&available={STEPS}&units=inch",
    f"cutting_speed=100 ft/min&diameter=0.5 in&available={STEPS}&may_exceed=20 percent&units=inch",
    f"cutting_speed=100 ft/min&diameter=0.5 in&available={STEPS}&may_exceed=15 percent&units=inch",
    f"cutting_speed=25 m/min&diameter=12 mm&available={STEPS}&units=metric",
    f"cutting_speed=70 ft/min&diameter=1 in&available={STEPS}&units=inch",
    f"cutting_speed=18 m/min&diameter=40 mm&available={STEPS}&may_exceed=12 percent&units=metric",
    "cutting_speed=100 ft/min&diameter=0.25 in&fastest=1250 rpm&units=inch",
    "cutting_speed=60 m/min&diameter=6 mm&fastest=2000 rpm&units=metric",
    f"cutting_speed=100 ft/min&diameter=0.24 in&available={STEPS}&fastest=1000 rpm&units=inch",
    # Nothing as slow: the slowest is the nearest.
    f"cutting_speed=70 ft/min&diameter=6 in&available={STEPS}&units=inch",
    "cutting_speed=10 m/min&diameter=200 mm&slowest=60 rpm&units=metric",
]


def rim_speed(spindle, diameter, unit):
    """Circumference a turn times turns a minute, from metres to `unit`."""
    return convert(mp.pi * diameter * spindle, "m/min", unit)


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/spindle-speed", "spindle_speed", "pint")
    for inputs in CASES:
        given = fields(inputs)
        speed_unit = "ft/min" if given["units"] == "inch" else "m/min"
        diameter = quantity(given["diameter"], "mm") / 1000
        exact = quantity(given["cutting_speed"], "m/min") / (mp.pi * diameter)
        steps = [number(step.split(" ")[0]) for step in given.get("available", "").split(",") if step]
        fastest = number(given["fastest"].split(" ")[0]) if "fastest" in given else mp.inf
        over = number(given.get("may_exceed", "0 percent").split(" ")[0])
        chosen = min(exact, fastest)
        if steps:
            top = min(exact * (1 + over / 100), fastest)
            chosen = max([step for step in steps if step <= top] or [min(steps)])
        if "slowest" in given:
            chosen = max(chosen, number(given["slowest"].split(" ")[0]))
        out.value(inputs, "/exact_speed", exact, "rpm")
        out.value(inputs, "/spindle_speed", chosen, "rpm")
        out.value(inputs, "/cutting_speed", rim_speed(chosen, diameter, speed_unit), speed_unit)
        if steps and fastest == mp.inf:
            below = [step for step in steps if step <= exact]
            above = [step for step in steps if step > exact]
            for name, side, nearest in (("below", below, max), ("above", above, min)):
                if not side:
                    continue
                step = nearest(side)
                out.value(inputs, f"/{name}/spindle_speed", step, "rpm")
                out.value(inputs, f"/{name}/cutting_speed", rim_speed(step, diameter, speed_unit), speed_unit)
                out.value(inputs, f"/{name}/deviation", 100 * (step - exact) / exact, "percent", scale=100)
    return out.rows


if __name__ == "__main__":
    show(rows())
