"""Tram: the cutting circle as points in space, turned by the tilt; the cut is what lies lowest.

The tilt comes from the normal of the plane through three places of the sweep.
"""

from common import Rows, convert, fields, mp, quantity, show

CASES = [
    "difference=0.003 in&sweep_diameter=8 in&cutter_diameter=2.5 in&width=2 in&units=inch",
    "difference=-0.05 mm&sweep_diameter=250 mm&units=metric",
    "difference=-0.05 mm&sweep_diameter=250 mm&cutter_diameter=80 mm&units=metric",
    "difference=0.02 mm&sweep_diameter=200 mm&cutter_diameter=63 mm&width=50 mm&units=metric",
    "difference=1 in&sweep_diameter=10 in&cutter_diameter=3 in&width=1.5 in&units=inch",
    "difference=0 mm&sweep_diameter=200 mm&cutter_diameter=63 mm&width=10 mm&units=metric",
    "difference=0.0001 mm&sweep_diameter=1000 mm&cutter_diameter=10 mm&width=1 mm&units=metric",
    "difference=0.0005 in&sweep_diameter=10 in&cutter_diameter=6 in&units=metric",
    "difference=0.25 mm&sweep_diameter=10 in&cutter_diameter=100 mm&width=99.9 mm&units=inch",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/tram", "tram", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        rise, sweep = (quantity(given[name], "mm") for name in ("difference", "sweep_diameter"))
        # The table as the spindle sees it, through both ends of the sweep and along its other diameter.
        run, across = mp.matrix([sweep, 0, rise]), mp.matrix([0, 1, 0])
        normal = mp.matrix([-run[2] * across[1], 0, run[0] * across[1]])
        tilt = mp.atan2(-normal[0], normal[2])
        out.value(inputs, "/tilt", mp.degrees(tilt), "deg", scale=mp.mpf("1e-3"))
        if "cutter_diameter" not in given:
            continue
        cutter = quantity(given["cutter_diameter"], "mm")
        width = quantity(given.get("width", given["cutter_diameter"]), "mm")
        tooth = lambda side: mp.sqrt(mp.fabs((cutter / 2) ** 2 - side**2))
        # A tooth at `side` off the middle, at the low half of the circle, turned about that diameter.
        low = lambda side: (mp.expj(abs(tilt)) * mp.mpc(-tooth(side), 0)).imag
        scale = convert(cutter * abs(mp.sin(tilt)), "mm", unit)
        out.value(inputs, "/hollow", convert(low(width / 2) - low(mp.mpf(0)), "mm", unit), unit, scale=scale)
        # Across the feed the cut lies in the tilted plane itself.
        edge = lambda side: rise / sweep * side
        step = abs(edge(width / 2) - edge(-width / 2))
        out.value(inputs, "/step", convert(step, "mm", unit), unit, scale=scale)
    return out.rows


if __name__ == "__main__":
    show(rows())
