"""Position error: twice the length of a complex number, and squares in circles by turning their corners."""

from common import Rows, fields, mp, quantity, show

CASES = [
    "zone=0.2 mm&basic_x=25 mm&basic_y=40 mm&measured_x=25.03 mm&measured_y=40.04 mm&units=metric",
    "zone=0.014 in&basic_x=1 in&basic_y=1.5 in&measured_x=0.996 in&measured_y=1.503 in&units=inch",
    "zone=0.2 mm&basic_x=0 mm&basic_y=-12.5 mm&measured_x=0.09 mm&measured_y=-12.43 mm&units=metric",
    "zone=0.01 in&basic_x=1 in&basic_y=1.5 in&measured_x=1.004 in&measured_y=1.497 in&measured_size=0.502 in"
    "&mmc_size=0.499 in&feature=hole&units=inch",
    "zone=0.1 mm&basic_x=10 mm&basic_y=10 mm&measured_x=9.98 mm&measured_y=10.05 mm&measured_size=7.95 mm"
    "&mmc_size=8 mm&feature=shaft&units=metric",
]
SQUARES = ["plus_minus=0.005 in&units=inch", "plus_minus=0.1 mm&units=metric"]
ZONES = ["zone=0.014 in&units=inch", "zone=0.3 mm&units=metric"]


def verdict(left):
    """No uncertainty in these cases."""
    return "within" if left >= 0 else "outside"


def rows():
    """Every library row of this calculator."""
    out = Rows("measure/position-error", "position_error", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        at = lambda name: quantity(given[name], unit)
        basic = mp.mpc(at("basic_x"), at("basic_y"))
        off = mp.mpc(at("measured_x"), at("measured_y")) - basic
        error = 2 * abs(off)
        out.value(inputs, "/position_error", error, unit, scale=2 * abs(basic) + 1)
        bonus = mp.mpf(0)
        if "mmc_size" in given:
            sign = 1 if given["feature"] == "hole" else -1
            bonus = max(mp.mpf(0), sign * (at("measured_size") - at("mmc_size")))
            out.value(inputs, "/holes/0/bonus", bonus, unit, scale=at("mmc_size"))
        left = at("zone") + bonus - error
        out.value(inputs, "/holes/0/left", left, unit, scale=2 * abs(basic) + 1)
        out.text(inputs, "/verdict", verdict(left))
    for inputs in SQUARES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        side = quantity(given["plus_minus"], unit)
        corners = [side * (1 + 1j) * mp.expjpi(mp.mpf(turn) / 2) for turn in range(4)]
        out.value(inputs, "/zone_around", abs(corners[0] - corners[2]), unit)
        out.value(inputs, "/zone_inside", abs(corners[0] - corners[1]), unit)
    for inputs in ZONES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        corner = quantity(given["zone"], unit) / 2 * mp.expjpi(mp.mpf(1) / 4)
        out.value(inputs, "/plus_minus_inside", corner.real, unit)
    return out.rows


if __name__ == "__main__":
    show(rows())
