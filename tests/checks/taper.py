"""Tapers: the sides as lines through points of the plane, angles as arguments, set-over by turning the axis."""

from common import Rows, fields, mp, quantity, show

# Taper in inches a foot, as it is printed.
STANDARD = {"Morse 3": "0.60235", "Jarno 8": "0.6", "7/24 No. 40": "3.5", "Brown and Sharpe 9": "0.50085", "NPT": "0.75"}

CASES = [
    "standard=Morse 3&bar_travel=2 in&units=inch",
    "standard=Jarno 8&between_centers=10 in&units=inch",
    "standard=7/24 No. 40&bar_travel=40 mm&units=metric",
    "standard=Brown and Sharpe 9&length=2 in&small_diameter=0.9 in&units=inch",
    "standard=NPT&large_diameter=1 in&length=1 in&units=inch",
    "large_diameter=1.5 in&small_diameter=1.25 in&length=6 in&between_centers=9 in&units=inch",
    "ratio=20&large_diameter=30 mm&length=80 mm&units=metric",
    "included_angle=60 deg&large_diameter=25 mm&small_diameter=5 mm&units=metric",
    "per_foot=0.6 in&small_diameter=0.7 in&length=2 in&units=inch",
    "half_angle=5 deg&large_diameter=40 mm&length=12 mm&bar_travel=25 mm&units=metric",
    "included_angle=150 deg&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/taper", "taper", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        size = lambda name: quantity(given[name], unit) if name in given else None
        foot = quantity("12 in", unit)
        large, small, length = size("large_diameter"), size("small_diameter"), size("length")
        # A side of the taper: a way along the axis and the growth of the radius on it.
        if "standard" in given:
            side = mp.mpc(24, mp.mpf(STANDARD[given["standard"]]))
        elif "per_foot" in given:
            side = mp.mpc(2 * foot, size("per_foot"))
        elif "ratio" in given:
            side = mp.mpc(2 * mp.mpf(given["ratio"]), 1)
        elif "included_angle" in given:
            side = mp.sqrt(mp.expjpi(mp.mpf(given["included_angle"].split(" ")[0]) / 180))
        elif "half_angle" in given:
            side = mp.expjpi(mp.mpf(given["half_angle"].split(" ")[0]) / 180)
        else:
            side = mp.mpc(2 * length, large - small)
        growth = 2 * side.imag / side.real
        out.value(inputs, "/slide_angle", mp.arg(side) * 180 / mp.pi, "deg")
        out.value(inputs, "/from_cross_slide", mp.arg(mp.mpc(0, 1) / side) * 180 / mp.pi, "deg")
        out.value(inputs, "/full_angle", mp.arg(side / mp.conj(side)) * 180 / mp.pi, "deg")
        out.value(inputs, "/taper_per_foot", growth * foot, unit)
        out.value(inputs, "/one_in", 1 / growth, "")
        if large and length and not small:
            out.value(inputs, "/small_end", large - growth * length, unit, scale=large)
        if small and length and not large:
            out.value(inputs, "/large_end", small + growth * length, unit)
        if large and small and not length:
            out.value(inputs, "/taper_length", (large - small) / growth, unit, scale=large)
        if "between_centers" in given:
            out.value(inputs, "/set_over", size("between_centers") * (side / abs(side)).imag, unit)
        if "bar_travel" in given:
            out.value(inputs, "/slide_dial", size("bar_travel") * (side / abs(side)).imag, unit)
            out.value(inputs, "/carriage_dial", size("bar_travel") * growth / 2, unit)
    return out.rows


if __name__ == "__main__":
    show(rows())
