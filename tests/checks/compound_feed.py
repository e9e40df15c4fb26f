"""Fine feeds by the compound slide: the tool's way as a complex number, along the bed and in."""

from common import Rows, fields, mp, quantity, show

CASES = [
    "dial=0.001 in&infeed=0.0001 in&checked_over=1 in&units=inch",
    "dial=0.05 mm&off_diameter=0.01 mm&scale_zero=across_bed&scale_step=0.5 deg&to_take=0.06 mm&units=metric",
    "dial=0.001 in&dial_counts=diameter&scale_angle=30 deg&units=inch",
    "dial=0.02 mm&dial_counts=diameter&infeed=0.002 mm&scale_step=0.25 deg&units=metric",
    "dial=0.005 in&scale_angle=84.26 deg&scale_zero=across_bed&to_take=0.002 in&checked_over=2 in&units=inch",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/compound-feed", "compound_feed", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        size = lambda name: quantity(given[name], unit)
        degrees = lambda name, default: mp.mpf(given.get(name, default).split(" ")[0])
        travel = size("dial") / (2 if given.get("dial_counts") == "diameter" else 1)
        across = given.get("scale_zero") == "across_bed"
        wanted = size("infeed") if "infeed" in given else size("off_diameter") / 2 if "off_diameter" in given else None
        if wanted is None:
            setting = degrees("scale_angle", "")
            exact = mp.mpc(0, 1) * mp.expjpi(-setting / 180) if across else mp.expjpi(setting / 180)
        else:
            # On a circle as wide as the slide travels, the point that is in by the infeed.
            exact = mp.mpc(mp.sqrt(travel**2 - wanted**2), wanted) / travel
            reads = mp.arg(mp.mpc(0, 1) / exact if across else exact) * 180 / mp.pi
            step = degrees("scale_step", "1 deg")
            setting = step * mp.nint(reads / step)
        way = travel * mp.expjpi(((90 - setting) if across else setting) / 180)
        out.value(inputs, "/scale_setting", setting, "deg")
        out.value(inputs, "/bed_angle", mp.arg(exact) * 180 / mp.pi, "deg", scale=90)
        out.value(inputs, "/cross_angle", mp.arg(mp.mpc(0, 1) / exact) * 180 / mp.pi, "deg", scale=90)
        out.value(inputs, "/feeds_in", way.imag, unit, scale=travel)
        out.value(inputs, "/takes_off", 2 * way.imag, unit, scale=travel)
        out.value(inputs, "/along", way.real, unit, scale=travel)
        if wanted is not None:
            out.value(inputs, "/deviation", 100 * (way.imag / wanted - 1), "percent", scale=1000)
        if "to_take" in given:
            moves = size("to_take") / (2 * way.imag)
            out.value(inputs, "/dial_in_all", moves * size("dial"), unit, scale=10 * moves * size("dial"))
            out.value(inputs, "/along_in_all", moves * way.real, unit, scale=10 * moves * way.real)
        if "checked_over" in given:
            out.value(inputs, "/indicator", (size("checked_over") * exact).imag, unit, scale=size("checked_over"))
    return out.rows


if __name__ == "__main__":
    show(rows())
