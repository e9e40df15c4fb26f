"""Sizes at a temperature: growth of part and gauge as exact fractions; degrees Fahrenheit by their definition."""

from fractions import Fraction

from common import Rows, fields, mp, show

# Expansion in millionths for each kelvin, of the table's materials that the cases use.
MATERIALS = {"6061": ("23.6", "23.6"), "1018": ("11.7", "11.7"), "acrylic": ("90", "162")}
CASES = [
    "drawing_size=150 mm&material=6061&part_temperature=32 degC&gauge_temperature=22 degC&units=metric",
    "drawing_size=100 mm&material=1018&part_temperature=40 degC&gauge_temperature=20 degC&units=metric",
    "drawing_size=60 mm&expansion=20.5 um/m/K&part_temperature=35 degC&units=metric",
    "drawing_size=80 mm&material=acrylic&part_temperature=28 degC&units=metric",
    "reading=12.0035 in&expansion=16 um/m/K&part_temperature=86 degF&units=inch",
    "reading=100 mm&material=6061&part_temperature=28 degC&units=metric",
    "reading=500.035 mm&expansion=11.7 um/m/K&part_temperature=23.7 degC&gauge_temperature=20 degC&units=metric",
]


def kelvins_off(text):
    """Kelvins above 20 °C."""
    value, unit = text.split()
    value = Fraction(value)
    return (value if unit == "degC" else (value - 32) * Fraction(5, 9)) - 20


def real(fraction):
    """A fraction at 50 digits."""
    return mp.mpf(fraction.numerator) / fraction.denominator


def rows():
    """Every library row of this calculator."""
    out = Rows("measure/at-temperature", "at_temperature", "python_fractions")
    for inputs in CASES:
        given = fields(inputs)
        part = kelvins_off(given["part_temperature"])
        gauge = kelvins_off(given.get("gauge_temperature", given["part_temperature"]))
        ends = MATERIALS[given["material"]] if "material" in given else (given["expansion"].split()[0],) * 2
        low, high = (Fraction(end) / 10**6 for end in ends)
        middle = (low + high) / 2
        of_gauge = 1 + Fraction("11.5") / 10**6 * gauge
        value, unit = given.get("drawing_size", given.get("reading")).split()
        value = Fraction(value)
        if "drawing_size" in given:
            reads = [value * (1 + end * part) / of_gauge for end in (low, middle, high)]
            found = {"reads_least": min(reads), "reads": reads[1], "reads_most": max(reads)}
            found["reads_more"] = reads[1] - value
            found["size_here"] = value * (1 + middle * part)
        else:
            true = [value * of_gauge / (1 + end * part) for end in (low, middle, high)]
            found = {"true_least": min(true), "true_size": true[1], "true_greatest": max(true)}
            found["correction"] = true[1] - value
        for name, is_ in found.items():
            out.value(inputs, f"/{name}", real(is_), unit, scale=real(value))
    return out.rows


if __name__ == "__main__":
    show(rows())
