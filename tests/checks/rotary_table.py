"""Rotary table: turns as exact fractions, taken apart by whole-number division."""

from fractions import Fraction

from common import Rows, convert, fields, mp, quantity, show

CASES = [
    "holes=7&worm_ratio=90&dial_divisions=120&vernier=12&radius=45 mm&units=metric",
    "holes=11&worm_ratio=72&dial_divisions=300&radius=2 in&units=inch",
    "angles=15 deg,102.5 deg&worm_ratio=40&units=metric",
    "holes=5&sweep=130 deg&worm_ratio=60&dial_divisions=180&units=metric",
    "holes=13&worm_ratio=120&dial_divisions=100&vernier=6&units=inch",
    "angles=0.01 deg,359.99 deg,360 deg&worm_ratio=90&dial_divisions=240&units=metric",
]


def nearest(value):
    """The whole number nearest to a fraction that lies halfway between none."""
    assert value.denominator != 2
    return (2 * value.numerator + value.denominator) // (2 * value.denominator)


class SomeRows(Rows):
    """Rows without the counts of zero, which no test could tell from others."""

    def count(self, inputs, field, value):
        if value:
            super().count(inputs, field, value)


def rows():
    """Every library row of this calculator."""
    out = SomeRows("geometry/rotary-table", "rotary_table", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        ratio = Fraction(given["worm_ratio"])
        if "angles" in given:
            turned = [Fraction(angle.split(" ")[0]) / 360 for angle in given["angles"].split(",")]
        else:
            holes, sweep = int(given["holes"]), Fraction(given.get("sweep", "360 deg").split(" ")[0])
            step = sweep / (holes if sweep == 360 else holes - 1) / 360
            turned = [step * n for n in range(holes)]
            out.value(inputs, "/step_angle", mp.mpf((360 * step).numerator) / (360 * step).denominator, "deg")
        out.value(inputs, "/turn_angle", mp.mpf((360 / ratio).numerator) / (360 / ratio).denominator, "deg")
        parts = int(given.get("vernier", 1))
        for index, part in enumerate(turned):
            path = f"/table/{index}"
            seconds = nearest(part * 1296000)
            out.count(inputs, f"{path}/degrees", seconds // 3600)
            out.count(inputs, f"{path}/minutes", seconds % 3600 // 60)
            out.count(inputs, f"{path}/seconds", seconds % 60)
            turns = part * ratio
            out.value(inputs, f"{path}/exact_turns", mp.mpf(turns.numerator) / turns.denominator, "", scale=1)
            if "dial_divisions" not in given:
                continue
            divisions = int(given["dial_divisions"])
            exact = turns * divisions * parts
            whole = nearest(exact)
            out.count(inputs, f"{path}/turns", whole // (divisions * parts))
            out.count(inputs, f"{path}/divisions", whole % (divisions * parts) // parts)
            if parts > 1:
                out.count(inputs, f"{path}/vernier_parts", whole % parts)
            off = (whole - exact) * 1296000 / (ratio * divisions * parts)
            off = mp.mpf(off.numerator) / off.denominator
            # The difference of two counts of the finest part.
            out.value(inputs, f"{path}/off_seconds", off, "", scale=1296000 * part)
            if "radius" in given:
                radius = convert(quantity(given["radius"], "mm"), "mm", unit)
                out.value(inputs, f"{path}/off_at_radius", mp.radians(off / 3600) * radius, unit, scale=10 * radius)
    return out.rows


if __name__ == "__main__":
    show(rows())
