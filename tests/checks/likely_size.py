"""Likely sizes: the nearest fraction and the nearest tenth of a millimeter by search through all of them."""

from fractions import Fraction

from common import Rows, convert, fields, mp, quantity, show

CASES = [
    "measured_size=0.374 in&error=0.002 in&families=fraction&units=inch",
    "measured_size=0.4985 in&error=0.002 in&families=fraction&units=inch",
    "measured_size=1.0635 in&error=0.002 in&families=fraction&units=inch",
    "measured_size=11.98 mm&error=0.03 mm&families=millimeter&units=metric",
    "measured_size=7.48 mm&error=0.03 mm&families=millimeter&units=metric",
    "measured_size=24.8 mm&error=0.02 mm&feature=shaft&wear=0.25 mm&families=millimeter&units=metric",
    "measured_size=25.25 mm&error=0.02 mm&feature=hole&wear=0.3 mm&families=millimeter&units=metric",
]


def rareness(size, family):
    """How seldom a drawing has it: by the lowest denominator, or whole, half, tenth."""
    if family == "fraction":
        return {1: 0, 2: 0, 4: 0, 8: 0, 16: 1, 32: 2, 64: 3}[size.denominator]
    return {1: 0, 2: 2}.get(size.denominator, 4)


def rows():
    """Every library row of this calculator."""
    out = Rows("measure/likely-size", "likely_size", "python_fractions")
    for inputs in CASES:
        given = fields(inputs)
        family = given["families"]
        unit = "in" if family == "fraction" else "mm"
        parts = 64 if family == "fraction" else 10
        measured, error = (Fraction(given[name].split()[0]) for name in ("measured_size", "error"))
        wear = Fraction(given.get("wear", "0 mm").split()[0])
        sizes = [Fraction(at, parts) for at in range(1, 400)]

        def misfit(size):
            over = measured - size
            feature = given.get("feature")
            if feature == "hole":
                return max(-over, over - wear, Fraction(0)) / error
            if feature == "shaft":
                return max(over, -over - wear, Fraction(0)) / error
            return abs(over) / error

        order = sorted(
            sizes, key=lambda size: (misfit(size) > 1, misfit(size) + Fraction(rareness(size, family), 4), abs(measured - size))
        )
        first = order[0]
        out.count(inputs, "/fitting", sum(misfit(size) <= 1 for size in sizes))
        size = mp.mpf(first.numerator) / first.denominator
        out.value(inputs, "/candidates/0/size", size, unit)
        off = measured - first
        out.value(inputs, "/candidates/0/difference", mp.mpf(off.numerator) / off.denominator, unit, scale=size)
        out.value(inputs, "/candidates/0/misfit", mp.mpf(misfit(first).numerator) / misfit(first).denominator, "", scale=mp.mpf(1000))
    return out.rows


if __name__ == "__main__":
    show(rows())
