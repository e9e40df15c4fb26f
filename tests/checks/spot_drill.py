"""Spot drills: where the flank of the cone, laid through the flat's edge, comes out of the face, by a linear system."""

from common import Rows, fields, mp, number, quantity, show

CASES = [
    "mouth=0.3 in&spot_angle=90 deg&units=inch",
    "chamfer=0.02 in&drill=1/4 in&spot_angle=90 deg&units=inch",
    "chamfer=0.5 mm&drill=8 mm&spot_angle=120 deg&tip_flat=0.3 mm&units=metric",
    "mouth=5 mm&drill=8 mm&spot_angle=142 deg&point_angle=140 deg&units=metric",
    "mouth=9 mm&drill=6.8 mm&spot_angle=82 deg&tip_flat=0.5 mm&units=metric",
]


def depth(mouth, angle, flat):
    """The flank from (flat/2, 0) upward by s (sin, cos) reaches half the mouth."""
    flank = mp.matrix([[mp.sinpi(angle / 360), 0], [mp.cospi(angle / 360), -1]])
    return mp.lu_solve(flank, mp.matrix([(mouth - flat) / 2, 0]))[1]


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/spot-drill", "spot_drill", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        size = lambda name: quantity(given.get(name, "0 mm"), unit)
        angle = number(given["spot_angle"].split(" ")[0])
        mouth = size("mouth") if "mouth" in given else size("drill") + 2 * size("chamfer")
        out.value(inputs, "/mouth_diameter", mouth, unit)
        out.value(inputs, "/spot_depth", depth(mouth, angle, size("tip_flat")), unit)
        if "drill" in given and mouth > size("drill"):
            left = (mouth - size("drill")) / 2
            out.value(inputs, "/chamfer_left", left, unit, scale=mouth)
            out.value(inputs, "/chamfer_depth", depth(mouth, angle, size("drill")), unit, scale=mouth)
        if "drill" in given:
            point = number(given.get("point_angle", "118 deg").split(" ")[0])
            words = "center" if angle > point else "lips" if angle < point else "center and lips together"
            out.text(inputs, "/touches_with", words)
    return out.rows


if __name__ == "__main__":
    show(rows())
