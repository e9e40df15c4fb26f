"""Flats on round work: a line against a circle by a quadratic equation, and against the next line by a linear system."""

from common import Rows, fields, mp, quantity, show

CASES = [
    "diameter=1 in&width=3/8 in&units=inch",
    "diameter=2 in&width=0.001 in&units=inch",
    "diameter=12 mm&remaining=10.5 mm&units=metric",
    "diameter=12 mm&remaining=3 mm&units=metric",
    "diameter=25 mm&flats=2&across_flats=22 mm&units=metric",
    "diameter=25 mm&flats=4&across_flats=20 mm&units=metric",
    "diameter=25 mm&flats=4&across_flats=15 mm&units=metric",
    "diameter=1.25 in&flats=6&depth=1/16 in&units=inch",
    "diameter=1.25 in&flats=6&across_flats=1 in&units=inch",
    "diameter=1 in&flats=3&depth=0.2 in&units=inch",
    "diameter=1 in&flats=5&width=0.3 in&units=inch",
    "diameter=50 mm&flats=8&depth=1.5 mm&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/flat-on-round", "flat_on_round", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        size = lambda name: quantity(given[name], unit)
        diameter, flats = size("diameter"), int(given.get("flats", 1))
        radius = diameter / 2
        if "width" in given:
            # Height of the line that cuts a chord of that width: y^2 = r^2 - (w / 2)^2.
            height = max(mp.re(root) for root in mp.polyroots([1, 0, (size("width") / 2) ** 2 - radius**2], maxsteps=200, extraprec=200))
        elif "remaining" in given:
            height = size("remaining") - radius
        elif "across_flats" in given:
            height = size("across_flats") / 2
        else:
            height = radius - size("depth")
        ends = [mp.mpc(-mp.sqrt(radius**2 - height**2), height), mp.mpc(mp.sqrt(radius**2 - height**2), height)]
        corners = radius
        if flats > 2:
            # Where the line meets the one turned on from it: n . p = height for both normals.
            turned = [mp.expjpi(mp.mpf(1) / 2 - mp.mpf(2 * at) / flats) for at in (0, 1)]
            corner = mp.lu_solve(mp.matrix([[one.real, one.imag] for one in turned]), mp.matrix([height, height]))
            corner = mp.mpc(corner[0], corner[1])
            if abs(corner) <= radius:
                ends, corners = [-mp.conj(corner), corner], abs(corner)
            out.text(inputs, "/flats_meet", "true" if abs(corner) <= radius else "false")
            out.value(inputs, "/across_corners", 2 * corners, unit)
            out.value(inputs, "/meeting_depth", radius - radius * mp.cospi(mp.mpf(1) / flats), unit, scale=diameter)
        out.value(inputs, "/set_depth", radius - height, unit, scale=diameter)
        out.value(inputs, "/flat_width", abs(ends[1] - ends[0]), unit, scale=diameter)
        out.value(inputs, "/to_far_side", radius + height, unit)
        if flats % 2 == 0:
            out.value(inputs, "/between_flats", 2 * height, unit)
    return out.rows


if __name__ == "__main__":
    show(rows())
