"""Sine bar: the high roll on a circle about the low one in the complex plane, tapers by their two sides."""

from fractions import Fraction

from common import Rows, fields, mp, quantity, show
from gauge_blocks import blocks, fewest

CASES = [
    "bar_length=5 in&angle=30 deg&units=inch",
    "bar_length=5 in&angle=0.25 deg&low_stack=1 in&units=inch",
    "bar_length=100 mm&angle=12.8 deg&units=metric",
    "bar_length=200 mm&angle=59 deg&units=metric",
    "bar_length=5 in&taper=0.6 in&taper_length=12 in&units=inch",
    "bar_length=5 in&taper=3.5 in&units=inch",
    "bar_length=100 mm&taper=1 mm&taper_length=20 mm&units=metric",
    "bar_length=5 in&stack=2.5 in&units=inch",
    "bar_length=100 mm&stack=17.4 mm&indicated=0.01 mm&indicated_over=60 mm&units=metric",
    "bar_length=10 in&angle=15 deg&indicated=-0.002 in&indicated_over=3 in&low_stack=0.5 in&units=inch",
    "bar_length=5 in&angle=7.25 deg&set=inch_81&missing=0.1009 in&most_blocks=6&units=inch",
    "bar_length=100 mm&angle=12.8 deg&set=metric_88&units=metric",
    "bar_length=200 mm&angle=0.5 deg&low_stack=20 mm&set=metric_112&units=metric",
    "bar_length=10 in&angle=41.3 deg&set=inch_36&units=inch",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/sine-bar", "sine_bar", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        size = lambda name, default=None: quantity(given.get(name, default), unit)
        length = size("bar_length")
        if "angle" in given:
            roll = length * mp.expjpi(mp.mpf(given["angle"].split(" ")[0]) / 180)
        elif "taper" in given:
            side = mp.mpc(size("taper_length", "12 in"), size("taper") / 2)
            roll = length * (side / abs(side)) ** 2
        else:
            # A roll so high above the plate, and as far away as the bar is long.
            roll = mp.mpc(mp.sqrt(length**2 - size("stack") ** 2), size("stack"))
        out.value(inputs, "/height", roll.imag, unit)
        out.value(inputs, "/bar_angle", mp.arg(roll) * 180 / mp.pi, "deg")
        out.value(inputs, "/high_stack", roll.imag + size("low_stack", "0 mm"), unit)
        out.value(inputs, "/height_per_minute", mp.diff(lambda t: (roll * mp.expjpi(t / 10800)).imag, 0), unit)
        if "indicated" in given:
            slope = mp.mpc(size("indicated_over"), size("indicated"))
            level = roll * mp.conj(slope) / abs(slope)
            out.value(inputs, "/part_angle", mp.arg(level) * 180 / mp.pi, "deg")
            out.value(inputs, "/level_height", level.imag, unit)
        if "set" in given:
            nanometers = 1_000_000 * (mp.mpf("25.4") if unit == "in" else 1)
            low = size("low_stack", "0 mm")
            # Every block is a whole number of the step, of which the nearest that can be made is taken.
            step = Fraction(1270) if unit == "in" else Fraction(500)
            near = int(mp.nint((roll.imag + low) * nanometers / int(step)))
            ways = sorted(range(near - 20, near + 21), key=lambda at: abs(at * int(step) - (roll.imag + low) * nanometers))
            height = next(at * step for at in ways if fewest(at * step, blocks(given)) is not None)
            made = mp.mpf(int(height)) / nanometers
            out.value(inputs, "/stack_height", made, unit)
            out.count(inputs, "/block_count", fewest(height, blocks(given)))
            # The high roll at that height, on its circle about the low one.
            up = made - low
            sets = mp.arg(mp.mpc(mp.sqrt(length**2 - up**2), up)) * 180 / mp.pi
            out.value(inputs, "/set_angle", sets, "deg")
            out.value(inputs, "/error_seconds", (sets - mp.arg(roll) * 180 / mp.pi) * 3600, "", scale=324000)
    return out.rows


if __name__ == "__main__":
    show(rows())
