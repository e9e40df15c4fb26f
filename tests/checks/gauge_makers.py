"""Gauge limits: shares of the part's tolerance stepped inward from its limits, in fractions."""

from fractions import Fraction

from common import Rows, fields, mp, show

CASES = [
    "feature=hole&least=0.4990 in&greatest=0.5010 in&units=inch",
    "feature=hole&least=12 mm&greatest=12.1 mm&wear_share=5 percent&units=metric",
    "feature=shaft&least=24.959 mm&greatest=24.98 mm&units=metric",
    "feature=shaft&least=0.4960 in&greatest=0.5000 in&gauge_share=20 percent&wear_share=5 percent&units=inch",
]


def part(given, name, default):
    """A percentage as a fraction."""
    return Fraction(given[name].split()[0]) / 100 if name in given else Fraction(default)


def rows():
    """Every library row of this calculator."""
    out = Rows("measure/gauge-makers", "gauge_makers", "python_fractions")
    for inputs in CASES:
        given = fields(inputs)
        unit = given["least"].split()[1]
        least, greatest = (Fraction(given[name].split()[0]) for name in ("least", "greatest"))
        band = greatest - least
        gauge = part(given, "gauge_share", Fraction(1, 10)) * band / 2
        wear = part(given, "wear_share", 0) * band
        # A shaft is a hole seen from the other end.
        sign, go_limit, no_go_limit = (1, least, greatest) if given["feature"] == "hole" else (-1, greatest, least)
        go = sorted([go_limit + sign * wear, go_limit + sign * (wear + gauge)])
        no_go = sorted([no_go_limit, no_go_limit - sign * gauge])
        found = {
            "gauge_tolerance": gauge,
            "go_least": go[0],
            "go_greatest": go[1],
            "no_go_least": no_go[0],
            "no_go_greatest": no_go[1],
            "wear_limit": go_limit,
        }
        for name, value in found.items():
            out.value(inputs, f"/{name}", mp.mpf(value.numerator) / value.denominator, unit, scale=mp.mpf(1) * 25)
    return out.rows


if __name__ == "__main__":
    show(rows())
