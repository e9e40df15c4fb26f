"""Library rows of the cross slide: a slide whose true place is the radius it turns, and a dial that shows that place
or twice it; the rows are the dial at the two places and the way between them, by exact fractions."""

from fractions import Fraction

import pint

from common import Rows, fields, mp, show

UNITS = pint.UnitRegistry(non_int_type=Fraction)
NAME = {"in": "inch", "mm": "millimeter"}

CASES = [
    "measured_diameter=1.2620 in&target_diameter=1.2500 in&dial=diameter&units=inch",
    "measured_diameter=1.2620 in&target_diameter=1.2500 in&dial=radius&units=inch",
    "measured_diameter=39.46 mm&target_diameter=40 mm&dial=radius&surface=inside&units=metric",
    "measured_diameter=39.46 mm&target_diameter=40 mm&dial=diameter&surface=inside&units=metric",
    "measured_diameter=25.52 mm&target_diameter=1 in&dial=diameter&units=metric",
    "measured_diameter=25.52 mm&target_diameter=25.52 mm&dial=radius&units=metric",
    "measured_diameter=0.0200 mm&target_diameter=0.0100 mm&dial=diameter&units=metric",
    "measured_diameter=999.999 mm&target_diameter=0.001 mm&dial=radius&units=inch",
    "measured_diameter=1 in&target_diameter=25.5 mm&dial=diameter&surface=inside&units=inch",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/lathe-touch-off", "lathe_touch_off", "pint")
    real = lambda value: mp.mpf(value.numerator) / value.denominator
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"

        def slide(name):
            value, stated = given[name].split(" ")
            return (Fraction(value) * UNITS(NAME[stated])).to(NAME[unit]).magnitude / 2

        now, end = slide("measured_diameter"), slide("target_diameter")
        counts = 2 if given["dial"] == "diameter" else 1
        out.value(inputs, "/set_reading", real(counts * now), unit)
        out.value(inputs, "/target_reading", real(counts * end), unit)
        out.value(inputs, "/infeed_left", real(counts * abs(now - end)), unit, scale=real(2 * now))
        out.value(inputs, "/slide_travel", real(abs(now - end)), unit, scale=real(2 * now))
    return out.rows


if __name__ == "__main__":
    show(rows())
