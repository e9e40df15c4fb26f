"""Center drills: the cone as a triangle whose flank stands at 30 degrees, on a complex plane."""

from common import Rows, fields, mp, quantity, show

# Pilots as their standards give them.
PILOT = {"#3": "7/64 in", "#4": "1/8 in", "A 2.5": "2.5 mm", "A 4": "4 mm", "B 4": "4 mm"}

CASES = [
    "size=#3&cone=0.2 in&pilot_length=0.11 in&units=inch",
    "size=#4&cone=0.25 in&pilot_length=0.125 in&units=inch",
    "size=A 2.5&cone=5 mm&pilot_length=3.4 mm&units=metric",
    "size=A 4&cone=8 mm&pilot_length=5.5 mm&units=metric",
    "size=B 4&cone=8.5 mm&pilot_length=5.5 mm&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/centre-drill", "centre_drill", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        across = (quantity(given["cone"], unit) - quantity(PILOT[given["size"]], unit)) / 2
        flank = mp.expjpi(mp.mpf(1) / 3)
        depth = across / mp.re(flank) * mp.im(flank)
        out.value(inputs, "/cone_depth", depth, unit, scale=quantity(given["cone"], unit))
        out.value(inputs, "/tip_depth", depth + quantity(given["pilot_length"], unit), unit)
    return out.rows


if __name__ == "__main__":
    show(rows())
