"""Drill point: where the line of the lip meets the line of the margin, by a linear system."""

from common import Rows, convert, fields, mp, number, quantity, show

CASES = [
    *[f"diameter=0.5 in&point_angle={a} deg&full_depth=1 in&units=inch" for a in (60, 82, 90, 118, 135)],
    *[f"diameter=10 mm&point_angle={a} deg&full_depth=25 mm&units=metric" for a in (100, 120, 130, 140, 150, 180)],
    # The usual 118 deg when nothing is said.
    "diameter=3/8 in&full_depth=0.75 in&units=inch",
    "diameter=27/64 in&full_depth=1.25 in&units=inch",
    "diameter=6.8 mm&full_depth=20 mm&units=metric",
    # A blunt or split tip.
    "diameter=0.5 in&point_angle=118 deg&full_depth=1 in&tip_flat=0.06 in&units=inch",
    "diameter=20 mm&point_angle=140 deg&full_depth=40 mm&tip_flat=1.5 mm&units=metric",
    "diameter=25 mm&point_angle=90 deg&full_depth=0 mm&tip_flat=2 mm&units=metric",
    # Zero taken with the lips level with the face.
    "diameter=0.5 in&point_angle=118 deg&full_depth=1 in&zeroed_at=lips&units=inch",
    "diameter=12 mm&point_angle=135 deg&full_depth=30 mm&zeroed_at=lips&tip_flat=1 mm&units=metric",
    # Through holes.
    "diameter=0.5 in&point_angle=118 deg&thickness=0.75 in&units=inch",
    "diameter=0.5 in&point_angle=118 deg&thickness=0.75 in&breakthrough=0.05 in&units=inch",
    "diameter=16 mm&point_angle=120 deg&thickness=25 mm&breakthrough=1.5 mm&units=metric",
    "diameter=16 mm&point_angle=120 deg&thickness=25 mm&breakthrough=1.5 mm&zeroed_at=lips&units=metric",
    # A face that does not lie at zero.
    "diameter=0.5 in&point_angle=118 deg&full_depth=1 in&face_height=0.125 in&units=inch",
    "diameter=10 mm&point_angle=118 deg&full_depth=25 mm&zeroed_at=lips&face_height=3 mm&units=metric",
    # Spots shallower than the point.
    "diameter=10 mm&point_angle=90 deg&mouth_diameter=8 mm&units=metric",
    "diameter=0.5 in&point_angle=120 deg&mouth_diameter=0.375 in&tip_flat=0.02 in&units=inch",
    # Step drills.
    "diameter=6.6 mm&point_angle=118 deg&step_diameter=11 mm&step_length=8 mm&step_angle=180 deg&step_floor=6.5 mm&units=metric",
    "diameter=0.25 in&point_angle=118 deg&step_diameter=0.5 in&step_length=0.375 in&step_angle=90 deg&step_floor=0 in&units=inch",
    "diameter=8.5 mm&point_angle=130 deg&step_diameter=13 mm&step_length=20 mm&step_angle=90 deg&full_depth=30 mm&units=metric",
    # Mixed systems.
    "diameter=0.25 in&point_angle=118 deg&full_depth=12 mm&units=inch",
]


def point_length(diameter, angle, flat):
    """Solve tip + s (sin, cos) = (radius, z) for s and z; sinpi keeps 180 deg exact."""
    lip = mp.matrix([[mp.sinpi(angle / 360), 0], [mp.cospi(angle / 360), -1]])
    margin = mp.matrix([(diameter - flat) / 2, 0])
    return mp.lu_solve(lip, margin)[1]


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/drill-point", "drill_point", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        size = lambda name: quantity(given.get(name, "0 mm"), "mm")
        angle = number(given.get("point_angle", "118 deg").split(" ")[0])
        point = point_length(size("diameter"), angle, size("tip_flat"))
        shoulder = mp.mpf(0)
        if "step_diameter" in given:
            step_angle = number(given["step_angle"].split(" ")[0])
            shoulder = point_length(size("step_diameter"), step_angle, size("diameter"))
        if "mouth_diameter" in given:
            tip = point_length(size("mouth_diameter"), angle, size("tip_flat"))
        elif "step_floor" in given:
            tip = point + size("step_length") + shoulder + size("step_floor")
        else:
            tip = point + (size("full_depth") if "full_depth" in given else size("thickness") + size("breakthrough"))
        travel = tip - (point if given.get("zeroed_at") == "lips" else 0) - size("face_height")
        for field, value in (("point_length", point), ("tip_depth", tip), ("travel", travel)):
            out.value(inputs, f"/{field}", convert(value, "mm", unit), unit, scale=convert(tip, "mm", unit))
        if "step_diameter" in given:
            large = tip - point - size("step_length") - shoulder
            out.value(inputs, "/shoulder_length", convert(shoulder, "mm", unit), unit)
            out.value(inputs, "/large_depth", convert(large, "mm", unit), unit, scale=convert(tip, "mm", unit))
    return out.rows


if __name__ == "__main__":
    show(rows())
