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
]


def engagement(diameter, radial):
    """Angle at the axis from the finished face to where the rim meets the uncut face."""
    radius = diameter / 2
    height = radius - radial
    # The uncut face is the line y = -height; the rim meets it at this x.
    across = mp.sqrt(radius**2 - height**2)
    return mp.atan2(across, height)


def chips(phi, lean):
    """Mean and greatest chip for a feed of one: quadrature, and a search for the highest point."""
    thickness = lambda a: lean * mp.sin(a)
    mean = mp.quad(thickness, [0, phi / 2, phi]) / phi
    if thickness(phi * (1 - mp.mpf("1e-9"))) < thickness(phi):
        return mean, thickness(phi)
    return mean, thickness(mp.findroot(lambda a: mp.diff(thickness, a), phi / 2))


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
        phi = engagement(diameter, radial)
        mean, greatest = chips(phi, lean)

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
    return out.rows


if __name__ == "__main__":
    show(rows())
