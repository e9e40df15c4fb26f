"""Stock: the section as a polygon by the shoelace sum, round sections by the integral of their half width."""

from common import Rows, convert, fields, mp, number, quantity, show

# Densities as they are printed, in g/cm3.
DENSITY = {"1018": "7.85", "s235": "7.85", "6061": "2.70", "316": "8.00", "c36000": "8.50", "bronze": "8.93"}

CASES = [
    "material=1018&form=round&diameter=2 in&length=18 in&pieces=4&units=inch",
    "material=6061&form=round&diameter=25 mm&length=1000 mm&units=metric",
    "material=bronze&form=tube&diameter=80 mm&bore=50 mm&length=120 mm&units=metric",
    "material=316&form=tube&diameter=3 in&wall=1/4 in&length=48 in&units=inch",
    "material=6061&form=square&width=1.25 in&length=36 in&pieces=3&units=inch",
    "material=s235&form=rectangle&width=200 mm&thickness=16 mm&length=400 mm&pieces=6&units=metric",
    "material=s235&form=rectangular_tube&width=60 mm&height=40 mm&wall=3 mm&length=6000 mm&units=metric",
    "material=s235&form=rectangular_tube&width=2 in&wall=1/8 in&length=240 in&units=inch",
    "material=c36000&form=hexagon&width=1 in&length=144 in&units=inch",
    "density=8.5 g/cm3&form=hexagon&width=25 mm&length=3000 mm&units=metric",
    "density=0.1 lb/in3&form=octagon&width=1.5 in&length=12 in&pieces=100&units=inch",
    "material=s235&form=angle&width=3 in&height=2 in&wall=1/4 in&length=120 in&units=inch",
    "material=s235&form=angle&width=50 mm&wall=5 mm&length=6000 mm&units=metric",
    "density=1000 kg/m3&form=round&diameter=1 mm&length=1 mm&units=metric",
]


def shoelace(corners):
    """Area inside a closed polygon."""
    pairs = zip(corners, corners[1:] + corners[:1])
    return abs(sum(a.real * b.imag - b.real * a.imag for a, b in pairs)) / 2


def disc(diameter):
    """Area of a disc as twice the integral of its height."""
    radius = diameter / 2
    # With x = r sin t the integrand is smooth.
    return 2 * mp.quad(lambda t: (radius * mp.cos(t)) ** 2, [-mp.pi / 2, 0, mp.pi / 2])


def regular(sides, width):
    """A regular polygon by its width across flats."""
    out = width / 2 / mp.cos(mp.pi / sides)
    return shoelace([out * mp.expjpi(mp.mpf(2 * at + 1) / sides) for at in range(sides)])


def block(width, height):
    """A rectangle."""
    return shoelace([mp.mpc(0, 0), mp.mpc(width, 0), mp.mpc(width, height), mp.mpc(0, height)])


def area(given):
    """Area of the section in square millimeters."""
    size = lambda name: quantity(given[name], "mm") if name in given else None
    form = given["form"]
    if form == "round":
        return disc(size("diameter"))
    if form == "tube":
        inside = size("bore") if "bore" in given else size("diameter") - 2 * size("wall")
        return disc(size("diameter")) - disc(inside)
    width, wall = size("width"), size("wall")
    height = size("height") if "height" in given else width
    if form == "rectangle":
        return block(width, size("thickness"))
    if form == "rectangular_tube":
        return block(width, height) - block(width - 2 * wall, height - 2 * wall)
    if form == "angle":
        corners = [(0, 0), (width, 0), (width, wall), (wall, wall), (wall, height), (0, height)]
        return shoelace([mp.mpc(x, y) for x, y in corners])
    return regular({"square": 4, "hexagon": 6, "octagon": 8}[form], width)


def density(given):
    """Density in kilograms per cubic millimeter."""
    if "density" in given:
        value, unit = given["density"].split(" ")
        return convert(number(value), unit, "kg/m3") / mp.mpf(10) ** 9
    return mp.mpf(DENSITY[given["material"]]) / mp.mpf(10) ** 6


def rows():
    """Every library row of this calculator."""
    out = Rows("stock/mass", "mass", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        inch = given["units"] == "inch"
        section = area(given)
        each = density(given) * section * quantity(given["length"], "mm")
        mass = "lb" if inch else "kg"
        out.value(inputs, "/section_area", convert(section, "mm2", "in2" if inch else "mm2"), "in2" if inch else "mm2")
        out.value(inputs, "/piece_mass", convert(each, "kg", mass), mass)
        out.value(inputs, "/total_mass", convert(each * int(given.get("pieces", 1)), "kg", mass), mass)
        long = convert(density(given) * section * 1000, "kg/m", "lb/ft" if inch else "kg/m")
        out.value(inputs, "/mass_per_length", long, "lb/ft" if inch else "kg/m")
    return out.rows


if __name__ == "__main__":
    show(rows())
