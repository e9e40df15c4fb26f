"""What the scripts of cutting calculators share: units of power and force, and a machine's steps."""

from common import convert, mp, number, quantity

STEPS = "112 rpm,160 rpm,224 rpm,315 rpm,450 rpm,630 rpm,900 rpm,1250 rpm"

POUND = mp.mpf("0.45359237") * mp.mpf("9.80665")  # newtons
INCH = mp.mpf("0.0254")
HORSEPOWER = 550 * 12 * INCH * POUND  # watts

# The service's spelling, and how many SI units it is.
SI = {
    "hp": HORSEPOWER,
    "kW": mp.mpf(1000),
    "lbf·ft": 12 * INCH * POUND,
    "N·m": mp.mpf(1),
    "lbf": POUND,
    "N": mp.mpf(1),
    "hp·min/in³": HORSEPOWER * 60 / INCH**3,
    "J/mm³": mp.mpf(10) ** 9,
    "N/mm²": mp.mpf(10) ** 6,
    "psi": POUND / INCH**2,
    "µin": INCH / 10**6,
    "µm": mp.mpf(10) ** -6,
    "in": INCH,
    "mm": mp.mpf(10) ** -3,
    "in/min": INCH / 60,
    "mm/min": mp.mpf(10) ** -3 / 60,
    "in/rev": INCH,
    "mm/rev": mp.mpf(10) ** -3,
    "in/tooth": INCH,
    "mm/tooth": mp.mpf(10) ** -3,
    "ft/min": 12 * INCH / 60,
    "m/min": mp.mpf(1) / 60,
    "rpm": mp.mpf(1) / 60,
    "in3/min": INCH**3 / 60,
    "cm3/min": mp.mpf(10) ** -6 / 60,
    "min": mp.mpf(60),
    "s": mp.mpf(1),
    "percent": mp.mpf("0.01"),
    "deg": mp.pi / 180,
    "W": mp.mpf(1),
}

INCH_UNITS = {
    "speed": "ft/min", "rate": "in/min", "rev": "in/rev", "tooth": "in/tooth", "volume": "in3/min", "length": "in",
    "power": "hp", "torque": "lbf·ft", "force": "lbf", "specific": "psi", "rough": "µin", "turning": "rpm",
    "time": "min", "short": "s", "share": "percent", "angle": "deg", "plain": "",
}
METRIC_UNITS = {
    **INCH_UNITS, "speed": "m/min", "rate": "mm/min", "rev": "mm/rev", "tooth": "mm/tooth", "volume": "cm3/min",
    "length": "mm", "power": "kW", "torque": "N·m", "force": "N", "specific": "N/mm²", "rough": "µm",
}


def si(text):
    """A stated quantity in SI units."""
    value, unit = text.rsplit(" ", 1)
    names = {"N.m": "N·m", "um": "µm", "uin": "µin", "N/mm2": "N/mm²", "hp.min/in3": "hp·min/in³"}
    return number(value) * SI[names.get(unit, unit)]


def put(out, inputs, given, field, kind, value, scale=None):
    """A row of a value in SI units, in the units of the answer."""
    unit = (INCH_UNITS if given["units"] == "inch" else METRIC_UNITS)[kind]
    size = SI[unit] if unit else mp.mpf(1)
    out.value(inputs, field, value / size, unit, None if scale is None else scale / size)


def chosen_speed(exact, given):
    """The speed of the machine for an exact one, in turns a second."""
    speed = exact
    if "fastest" in given:
        speed = min(speed, si(given["fastest"]))
    if "available" in given:
        over = si(given.get("may_exceed", "0 percent"))
        steps = [si(step) for step in given["available"].split(",")]
        steps = [s for s in steps if "fastest" not in given or s <= si(given["fastest"])]
        steps = [s for s in steps if "slowest" not in given or s >= si(given["slowest"])]
        allowed = [step for step in steps if step <= exact * (1 + over)]
        speed = max(allowed) if allowed else min(steps)
    return speed


def chosen_feed(wanted, speed, given, published):
    """The feed rate of the machine for a wanted one: the step below it, or the one above where only that is inside the
    published range, a tenth below which counts as inside."""
    if "fastest_feed" in given:
        wanted = min(wanted, si(given["fastest_feed"]))
    listed = given.get("available_feeds", given.get("quill_feeds"))
    if listed:
        steps = [si(step) * (speed if "/rev" in step else 1) for step in listed.split(",")]
        below = [step for step in steps if step <= wanted]
        above = [step for step in steps if step > wanted]
        if published and above and wanted >= published[0] * speed:
            least, most = published[0] * speed * mp.mpf("0.9"), published[1] * speed
            if min(above) <= most and not (below and max(below) >= least):
                return min(above)
        wanted = max(below) if below else wanted
    return wanted


def settings(out, inputs, given, diameter, speed, feed, published=None):
    """Rows of speed and feed of a tool that feeds by the turn; gives spindle speed and feed per turn."""
    exact = si(given["spindle_speed"]) if "spindle_speed" in given else speed / (mp.pi * diameter)
    spindle = chosen_speed(exact, given)
    rate = chosen_feed(feed * spindle, spindle, given, published)
    put(out, inputs, given, "/exact_speed", "turning", exact)
    put(out, inputs, given, "/spindle_speed", "turning", spindle)
    put(out, inputs, given, "/cutting_speed", "speed", mp.pi * diameter * spindle)
    put(out, inputs, given, "/feed_rate", "rate", rate)
    put(out, inputs, given, "/feed_per_rev", "rev", rate / spindle)
    return spindle, rate / spindle


def feed_factor(feed):
    """The factor of unit power at a feed in metres: the table typed in anew, linear between its rows."""
    rows = ("0.001 1.60 0.002 1.40 0.003 1.30 0.004 1.25 0.005 1.19 0.006 1.15 0.007 1.11 0.008 1.08 0.009 1.06 "
            "0.010 1.04 0.012 1.00 0.015 0.96 0.020 0.90 0.025 0.86 0.030 0.83 0.040 0.78 0.060 0.72").split()
    points = [(mp.mpf(a), mp.mpf(b)) for a, b in zip(rows[::2], rows[1::2])]
    inches = feed / INCH
    if inches <= points[0][0]:
        return points[0][1]
    for (a, fa), (b, fb) in zip(points, points[1:]):
        if inches <= b:
            return fa + (inches - a) / (b - a) * (fb - fa)
    return points[-1][1]


def cut_powers(out, inputs, given, cut, spindle):
    """Rows of power, torque and load: cut has volume, feed, chip, unit power, wear, kc1.1, exponent, process."""
    unit = mp.mpf(cut["unit"]) * SI["hp·min/in³"]
    by_unit = unit * cut["volume"] * feed_factor(cut["feed"]) * mp.mpf(cut["wear"])
    kc = mp.mpf(cut["kc"]) * 10**6 * (cut["chip"] * 1000) ** -mp.mpf(cut["mc"]) * mp.mpf(cut["process"])
    share = si(given.get("efficiency", "80 percent"))
    put(out, inputs, given, "/power", "power", by_unit)
    put(out, inputs, given, "/power_by_specific_force", "power", kc * cut["volume"])
    put(out, inputs, given, "/torque", "torque", by_unit / (2 * mp.pi * spindle))
    put(out, inputs, given, "/motor_power", "power", by_unit / share)
    if "spindle_power" in given:
        available = si(given["spindle_power"]) * share
        if "base_speed" in given:
            available *= min(1, spindle / si(given["base_speed"]))
        put(out, inputs, given, "/power_available", "power", available)
        put(out, inputs, given, "/load", "share", by_unit / available)
    return kc
