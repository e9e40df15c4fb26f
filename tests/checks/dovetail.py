"""A dovetail over pins: each pin's center is found where it is its radius from a flank drawn in the complex plane."""

from common import Rows, convert, fields, mp, number, quantity, show
from tangent import distance, root

CASES = [
    "half=male&flank_angle=60 deg&pin_diameter=0.5 in&corner_width=2 in&depth=0.625 in&reading_now=3.3812 in&units=inch",
    "half=female&flank_angle=55 deg&pin_diameter=12 mm&face_width=60 mm&depth=16 mm&units=metric",
    "half=male&pin_diameter=10 mm&reading_now=94.15 mm&depth=12 mm&units=metric",
    "half=female&flank_angle=45 deg&pin_diameter=3/8 in&corner_width=4 in&reading_now=2.7 in&units=inch",
    "half=male&flank_angle=50 deg&pin_diameter=8 mm&face_width=3 in&depth=15 mm&units=inch",
    "half=female&pin_diameter=1/4 in&reading_now=1.5 in&depth=0.3 in&units=inch",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/dovetail", "dovetail", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        to_unit = lambda value: convert(value, "mm", unit)
        size = lambda name: quantity(given[name], "mm")
        male = given["half"] == "male"
        angle = number(given.get("flank_angle", "60 deg").split(" ")[0])
        pin = size("pin_diameter")
        # The pin lies in a corner at zero between the flat, along +X, and the flank above it.
        way = mp.expjpi(angle / 180)
        center = root(lambda x: -distance(mp.mpc(x, pin / 2), 0, way) - pin / 2, pin / 100, 100 * pin)
        reach = center + pin / 2
        contact = way * (mp.mpc(center, pin / 2) * mp.conj(way)).real
        lean = way.real / way.imag
        sign = 1 if male else -1
        if "corner_width" in given:
            corner = size("corner_width")
        elif "face_width" in given:
            corner = size("face_width") - sign * 2 * size("depth") * lean
        else:
            corner = size("reading_now") - sign * 2 * reach
        reading = corner + sign * 2 * reach
        out.value(inputs, "/pin_reach", to_unit(reach), unit)
        out.value(inputs, "/contact_height", to_unit(contact.imag), unit)
        scale = to_unit(corner + 2 * reach)
        out.value(inputs, "/corner_width", to_unit(corner), unit, scale=scale)
        if "corner_width" in given or "face_width" in given:
            out.value(inputs, "/reading", to_unit(reading), unit, scale=scale)
            if "reading_now" in given:
                out.value(inputs, "/to_take_off", to_unit(sign * (size("reading_now") - reading)), unit, scale=scale)
        if "depth" in given:
            out.value(inputs, "/face_width", to_unit(corner + sign * 2 * size("depth") * lean), unit, scale=scale)
    return out.rows


if __name__ == "__main__":
    show(rows())
