"""Milling: the chip is cut out of the circle numerically.

The engagement angle is where the cutter's circle meets the uncut face; the
mean chip is an integral and the greatest chip a search over that angle.
"""

from common import Rows, convert, fields, mp, number, quantity, show

STEPS = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm"

CASES = [
    # Light cut, half, three quarters, slot.
    "diameter=0.5 in&teeth=4&cutting_speed=100 ft/min&feed_per_tooth=0.002 in/tooth&radial_depth=0.05 in&axial_depth=0.5 in&units=inch",
    "diameter=1/2 in&teeth=4&cutting_speed=90 ft/min&feed_per_tooth=0.003 in/tooth&radial_depth=0.25 in&axial_depth=0.25 in&units=inch",
    "diameter=12 mm&teeth=3&cutting_speed=30 m/min&feed_per_tooth=0.05 mm/tooth&radial_depth=9 mm&axial_depth=4 mm&units=metric",
    "diameter=16 mm&teeth=2&cutting_speed=28 m/min&feed_per_tooth=0.06 mm/tooth&radial_depth=16 mm&axial_depth=5 mm&units=metric",
    "diameter=20 mm&teeth=4&cutting_speed=25 m/min&feed_per_tooth=0.08 mm/tooth&radial_depth=0.4 mm&axial_depth=30 mm&units=metric",
    # A leaning edge thins the chip along the axis too.
    "diameter=2.5 in&teeth=5&cutting_speed=300 ft/min&feed_per_tooth=0.006 in/tooth&radial_depth=1.75 in&axial_depth=0.08 in&cutting_edge_angle=45 deg&units=inch",
    "diameter=63 mm&teeth=6&cutting_speed=150 m/min&feed_per_tooth=0.15 mm/tooth&radial_depth=20 mm&axial_depth=2 mm&cutting_edge_angle=45 deg&units=metric",
    "diameter=50 mm&teeth=4&cutting_speed=120 m/min&feed_per_tooth=0.2 mm/tooth&radial_depth=30 mm&axial_depth=1 mm&cutting_edge_angle=75 deg&units=metric",
    # Mixed systems.
    "diameter=12 mm&teeth=4&cutting_speed=100 ft/min&feed_per_tooth=0.002 in/tooth&radial_depth=3 mm&axial_depth=0.25 in&units=inch",
    # Steps and limits of the machine.
    f"diameter=0.5 in&teeth=4&cutting_speed=100 ft/min&feed_per_tooth=0.002 in/tooth&radial_depth=0.1 in&axial_depth=0.25 in&available={STEPS}&units=inch",
    f"diameter=0.5 in&teeth=4&cutting_speed=100 ft/min&feed_per_tooth=0.002 in/tooth&radial_depth=0.1 in&axial_depth=0.25 in&available={STEPS}&may_exceed=20 percent&units=inch",
    "diameter=6 mm&teeth=4&cutting_speed=60 m/min&feed_per_tooth=0.03 mm/tooth&radial_depth=2 mm&axial_depth=3 mm&fastest=1250 rpm&units=metric",
    "diameter=12 mm&teeth=4&cutting_speed=60 m/min&feed_per_tooth=0.08 mm/tooth&radial_depth=4 mm&axial_depth=3 mm&fastest_feed=300 mm/min&units=metric",
    f"diameter=16 mm&teeth=4&cutting_speed=25 m/min&feed_per_tooth=0.05 mm/tooth&radial_depth=4 mm&axial_depth=6 mm&available={STEPS}&available_feeds=25 mm/min,40 mm/min,63 mm/min,100 mm/min,160 mm/min&units=metric",
    # Feed raised so that the chip keeps the wanted thickness.
    "diameter=20 mm&teeth=4&cutting_speed=30 m/min&feed_per_tooth=0.05 mm/tooth&radial_depth=4 mm&axial_depth=10 mm&hold_chip=greatest&units=metric",
    "diameter=0.5 in&teeth=2&cutting_speed=100 ft/min&feed_per_tooth=0.002 in/tooth&radial_depth=0.05 in&axial_depth=0.5 in&hold_chip=greatest&units=inch",
    "diameter=20 mm&teeth=4&cutting_speed=30 m/min&feed_per_tooth=0.05 mm/tooth&radial_depth=15 mm&axial_depth=3 mm&hold_chip=greatest&units=metric",
    "diameter=20 mm&teeth=4&cutting_speed=30 m/min&feed_per_tooth=0.05 mm/tooth&radial_depth=4 mm&axial_depth=10 mm&hold_chip=mean&units=metric",
    "diameter=0.75 in&teeth=4&cutting_speed=90 ft/min&feed_per_tooth=0.003 in/tooth&radial_depth=0.25 in&axial_depth=0.5 in&hold_chip=mean&units=inch",
    # The cut in the middle of the cutter, beside it, and wholly on one side of the axis.
    "diameter=80 mm&teeth=6&cutting_speed=150 m/min&feed_per_tooth=0.12 mm/tooth&radial_depth=50 mm&axial_depth=2 mm&cut_offset=0 mm&units=metric",
    "diameter=4 in&teeth=8&cutting_speed=300 ft/min&feed_per_tooth=0.006 in/tooth&radial_depth=2.5 in&axial_depth=0.08 in&cut_offset=-0.5 in&units=inch",
    "diameter=80 mm&teeth=6&cutting_speed=150 m/min&feed_per_tooth=0.12 mm/tooth&radial_depth=15 mm&axial_depth=2 mm&cut_offset=25 mm&cutting_edge_angle=45 deg&units=metric",
    "diameter=80 mm&teeth=6&cutting_speed=150 m/min&feed_per_tooth=0.05 mm/tooth&radial_depth=15 mm&axial_depth=2 mm&cut_offset=25 mm&hold_chip=greatest&units=metric",
    # A ball nose and a corner radius, cutting less deep than it.
    "diameter=10 mm&teeth=2&cutting_speed=60 m/min&feed_per_tooth=0.05 mm/tooth&radial_depth=1 mm&axial_depth=0.5 mm&corner_radius=5 mm&units=metric",
    "diameter=20 mm&teeth=3&cutting_speed=80 m/min&feed_per_tooth=0.08 mm/tooth&radial_depth=8 mm&axial_depth=1 mm&corner_radius=3 mm&units=metric",
    # High-feed edges, whose own thinning is given back in full.
    "diameter=25 mm&teeth=3&cutting_speed=120 m/min&feed_per_tooth=0.1 mm/tooth&radial_depth=20 mm&axial_depth=0.5 mm&cutting_edge_angle=10 deg&hold_chip=greatest&units=metric",
    "diameter=1 in&teeth=3&cutting_speed=300 ft/min&feed_per_tooth=0.005 in/tooth&radial_depth=0.75 in&axial_depth=0.02 in&cutting_edge_angle=15 deg&hold_chip=greatest&units=inch",
]

# Speed and feed without a cut.
BARE = [
    f"diameter=1/2 in&teeth=4&cutting_speed=70 ft/min&feed_per_tooth=0.002 in/tooth&available={STEPS}&units=inch",
    "diameter=10 mm&teeth=3&spindle_speed=1000 rpm&feed_per_tooth=0.04 mm/tooth&units=metric",
]

# Cuts in annealed 4140: 0.725 hp min/in3 as the middle of 0.69 to 0.76, feed factor by the table,
# wear 1.10; kc1.1 2200 N/mm2, exponent 0.24, 1.2 for milling.
POWER = [
    (f"diameter=1/2 in&teeth=4&cutting_speed=70 ft/min&material=4140 annealed&tool_material=hss&feed_per_tooth=0.002 in/tooth&radial_depth=0.250 in&axial_depth=0.250 in&available={STEPS}&spindle_power=1.5 kW&efficiency=85 percent&units=inch", "1.40", "85"),
    ("diameter=20 mm&teeth=4&cutting_speed=25 m/min&material=4140-annealed&feed_per_tooth=0.0508 mm/tooth&radial_depth=10 mm&axial_depth=15 mm&spindle_power=1.5 kW&base_speed=800 rpm&units=metric", "1.40", "80"),
]


def engagement(diameter, radial):
    """Angle at the axis from the finished face to where the rim meets the uncut face."""
    radius = diameter / 2
    height = radius - radial
    # The uncut face is the line y = -height; the rim meets it at this x.
    across = mp.sqrt(radius**2 - height**2)
    return mp.atan2(across, height)


def chips(start, end, lean):
    """Mean and greatest chip for a feed of one: quadrature, and a search for the highest point."""
    thickness = lambda a: lean * mp.sin(a)
    mean = mp.quad(thickness, [start, (start + end) / 2, end]) / (end - start)
    little = (end - start) * mp.mpf("1e-9")
    if thickness(end - little) < thickness(end):
        return mean, thickness(end)
    if thickness(start + little) < thickness(start):
        return mean, thickness(start)
    return mean, thickness(mp.findroot(lambda a: mp.diff(thickness, a), (start + end) / 2))


def angles(diameter, radial, offset):
    """Where a tooth comes in and goes out, from the direction square to the feed at the rim."""
    if offset is None:
        return mp.mpf(0), engagement(diameter, radial)
    radius = diameter / 2
    # A side of the cut is a line along the feed; the rim meets it ahead of the axis.
    sides = [offset - radial / 2, offset + radial / 2]
    return tuple(mp.atan2(mp.sqrt(radius**2 - side**2), -side) for side in sides)


def across(diameter, axial, corner):
    """The diameter where the cut is deepest: a circle of the corner's radius met by a line."""
    if corner is None or axial >= corner:
        return diameter
    height = corner - axial
    return diameter - 2 * corner + 2 * mp.sqrt(corner**2 - height**2)


def power_rows(out):
    """Power, torque and load of cuts with a material."""
    hp = mp.mpf(550) * 12 * mp.mpf("0.0254") * mp.mpf("0.45359237") * mp.mpf("9.80665")
    for inputs, factor, efficiency in POWER:
        given = fields(inputs)
        inch = given["units"] == "inch"
        diameter = quantity(given["diameter"], "mm")
        radial, axial = quantity(given["radial_depth"], "mm"), quantity(given["axial_depth"], "mm")
        feed, teeth = quantity(given["feed_per_tooth"], "mm/tooth"), int(given["teeth"])
        spindle = quantity(given["cutting_speed"], "m/min") * 1000 / (mp.pi * diameter)
        if "available" in given:
            spindle = max(s for s in (number(t.split(" ")[0]) for t in given["available"].split(",")) if s <= spindle)
        volume = radial * axial * feed * teeth * spindle
        start, end = angles(diameter, radial, None)
        mean, _ = chips(start, end, mp.mpf(1))
        unit = mp.mpf("0.725") * hp / convert(mp.mpf(1), "in3/min", "cm3/min") / 1000
        by_unit = unit * volume * number(factor) * mp.mpf("1.10")
        by_force = 2200 * (feed * mean) ** mp.mpf("-0.24") * mp.mpf("1.2") * volume / 60000
        share = number(efficiency) / 100
        available = 1500 * share * min(1, spindle / number(given.get("base_speed", "1 rpm").split(" ")[0]))
        name, size = ("hp", hp) if inch else ("kW", mp.mpf(1000))
        out.value(inputs, "/power", by_unit / size, name)
        out.value(inputs, "/power_by_specific_force", by_force / size, name)
        out.value(inputs, "/motor_power", by_unit / share / size, name)
        out.value(inputs, "/power_available", available / size, name)
        out.value(inputs, "/load", 100 * by_unit / available, "percent")
        torque = by_unit * 60 / (2 * mp.pi * spindle)
        foot = mp.mpf("0.3048") * mp.mpf("0.45359237") * mp.mpf("9.80665")
        out.value(inputs, "/torque", torque / foot if inch else torque, "lbf·ft" if inch else "N·m")


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/milling", "milling", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        inch = given["units"] == "inch"
        unit = lambda a, b: a if inch else b
        diameter = quantity(given["diameter"], "mm")
        radial = quantity(given["radial_depth"], "mm")
        axial = quantity(given["axial_depth"], "mm")
        feed = quantity(given["feed_per_tooth"], "mm/tooth")
        teeth = int(given["teeth"])
        lean = mp.sin(mp.radians(number(given.get("cutting_edge_angle", "90 deg").split(" ")[0])))
        offset = quantity(given["cut_offset"], "mm") if "cut_offset" in given else None
        corner = quantity(given["corner_radius"], "mm") if "corner_radius" in given else None
        start, end = angles(diameter, radial, offset)
        phi = end - start
        mean, greatest = chips(start, end, lean)
        diameter = across(diameter, axial, corner)

        exact = quantity(given["cutting_speed"], "m/min") * 1000 / (mp.pi * diameter)
        spindle = exact
        if "fastest" in given:
            spindle = min(exact, number(given["fastest"].split(" ")[0]))
        if "available" in given:
            over = number(given.get("may_exceed", "0 percent").split(" ")[0])
            top = exact * (1 + over / 100)
            spindle = max(s for s in (number(t.split(" ")[0]) for t in given["available"].split(",")) if s <= top)

        hold = given.get("hold_chip", "none")
        if hold != "none":
            feed = feed / (greatest if hold == "greatest" else mean)
        rate = feed * teeth * spindle
        if "fastest_feed" in given:
            rate = min(rate, quantity(given["fastest_feed"], "mm/min"))
        if "available_feeds" in given:
            rate = max(f for f in (quantity(t, "mm/min") for t in given["available_feeds"].split(",")) if f <= rate)
        feed = rate / (teeth * spindle)

        length = unit("in", "mm")
        tooth = unit("in/tooth", "mm/tooth")
        per_minute = unit("in/min", "mm/min")
        surface = unit("ft/min", "m/min")
        volume = unit("in3/min", "cm3/min")
        out.value(inputs, "/exact_speed", exact, "rpm")
        out.value(inputs, "/spindle_speed", spindle, "rpm")
        out.value(inputs, "/cutting_speed", convert(mp.pi * diameter * spindle / 1000, "m/min", surface), surface)
        out.value(inputs, "/feed_rate", convert(rate, "mm/min", per_minute), per_minute)
        out.value(inputs, "/feed_per_tooth", convert(feed, "mm/tooth", tooth), tooth)
        out.value(inputs, "/mean_chip", convert(feed * mean, "mm", length), length)
        out.value(inputs, "/greatest_chip", convert(feed * greatest, "mm", length), length)
        out.value(inputs, "/removal_rate", convert(radial * axial * rate / 1000, "cm3/min", volume), volume)
        out.value(inputs, "/engagement_angle", mp.degrees(phi), "deg")
        out.value(inputs, "/teeth_in_cut", teeth * phi / (2 * mp.pi), "")
        if corner is not None:
            out.value(inputs, "/effective_diameter", convert(diameter, "mm", length), length)
    for inputs in BARE:
        given = fields(inputs)
        surface, tooth, per_minute = ("ft/min", "in/tooth", "in/min") if given["units"] == "inch" else ("m/min", "mm/tooth", "mm/min")
        diameter, feed = quantity(given["diameter"], "mm"), quantity(given["feed_per_tooth"], "mm/tooth")
        if "spindle_speed" in given:
            spindle = number(given["spindle_speed"].split(" ")[0])
        else:
            exact = quantity(given["cutting_speed"], "m/min") * 1000 / (mp.pi * diameter)
            spindle = max(s for s in (number(t.split(" ")[0]) for t in given["available"].split(",")) if s <= exact)
        out.value(inputs, "/spindle_speed", spindle, "rpm")
        out.value(inputs, "/cutting_speed", convert(mp.pi * diameter * spindle / 1000, "m/min", surface), surface)
        out.value(inputs, "/feed_rate", convert(feed * int(given["teeth"]) * spindle, "mm/min", per_minute), per_minute)
        out.value(inputs, "/feed_per_tooth", convert(feed, "mm/tooth", tooth), tooth)
    power_rows(out)
    return out.rows


if __name__ == "__main__":
    show(rows())
