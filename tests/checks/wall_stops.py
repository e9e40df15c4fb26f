"""Library rows of the wall stops: the stop is where the far edge of the cutter's circle, found as an extreme of points
turned about its centre, meets the wall or the allowance on it."""

from common import Rows, fields, mp, quantity, show

CASES = [
    "walls=x_axis,10 mm,minus;x_axis,70 mm,plus;y_axis,15 mm,minus;y_axis,55 mm,plus&cutter_diameter=12 mm&finish_allowance=0.3 mm&units=metric",
    "walls=y_axis,0.500 in,plus;y_axis,1.750 in,minus&cutter_diameter=3/4 in&finish_allowance=0.010 in&units=inch",
    "walls=x_axis,-3.2 mm,plus&cutter_diameter=20 mm&units=metric",
    "walls=x_axis,0 in,minus;x_axis,0.5 in,plus&cutter_diameter=0.5 in&units=inch",
    "walls=x_axis,1 in,minus;y_axis,-12.7 mm,plus&cutter_diameter=6.35 mm&finish_allowance=0.005 in&units=metric",
]


def reach(radius, direction):
    """How far a circle about zero reaches in a direction, as the greatest of points turned about it."""
    return max((radius * mp.expjpi(mp.mpf(turn) / 180) * mp.conj(direction)).real for turn in range(0, 360, 15))


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/wall-stops", "wall_stops", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        radius = quantity(given["cutter_diameter"], unit) / 2
        left = quantity(given.get("finish_allowance", "0 mm"), unit)
        for index, wall in enumerate(given["walls"].split(";")):
            axis, place, side = wall.split(",")
            along = mp.mpc(1, 0) if axis == "x_axis" else mp.mpc(0, 1)
            to_metal = 1 if side == "plus" else -1
            wanted = quantity(place, unit)
            # The edge of the cutter towards the metal stands at stop + to_metal * reach.
            finish = wanted - to_metal * reach(radius, to_metal * along)
            rough = (wanted - to_metal * left) - to_metal * reach(radius, to_metal * along)
            size = abs(wanted) + radius
            out.text(inputs, f"/stops/{index}/axis", axis)
            out.value(inputs, f"/stops/{index}/finish", finish, unit, scale=size)
            out.value(inputs, f"/stops/{index}/rough", rough, unit, scale=size)
    return out.rows


if __name__ == "__main__":
    show(rows())
