"""A bar in a vee: the center is found where it is half a diameter from a flank drawn in the complex plane."""

from common import Rows, convert, fields, mp, number, quantity, show
from tangent import distance, root

CASES = [
    "diameter=1 in&units=inch",
    "diameter=16 mm&vee_angle=60 deg&groove_width=22 mm&units=metric",
    "top_height=1.8107 in&units=inch",
    "diameter=12 mm&stands_out=4.35 mm&vee_angle=90 deg&units=metric",
    "diameter=20 mm&vee_angle=120 deg&groove_width=3 in&units=inch",
    "diameter=0.25 in&vee_angle=72.5 deg&stands_out=-0.05 in&units=inch",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/v-block", "v_block", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        to_unit = lambda value: convert(value, "mm", unit)
        size = lambda name: quantity(given[name], "mm")
        half = number(given.get("vee_angle", "90 deg").split(" ")[0]) / 2
        # The right flank runs up from the vertex at zero.
        way = mp.expjpi((90 - half) / 180)
        off = lambda height: distance(mp.mpc(0, height), 0, way)
        if "diameter" in given:
            diameter = size("diameter")
            center = root(lambda height: off(height) - diameter / 2, diameter / 4, 100 * diameter)
            top = center + diameter / 2
        else:
            top = size("top_height")
            center = root(lambda height: height + off(height) - top, top / 100, top)
            diameter = 2 * off(center)
        # The foot of the perpendicular from the center on the flank.
        contact = way * (mp.mpc(0, center) * mp.conj(way)).real
        out.value(inputs, "/diameter", to_unit(diameter), unit)
        out.value(inputs, "/center_height", to_unit(center), unit)
        out.value(inputs, "/top_height", to_unit(top), unit)
        out.value(inputs, "/contact_width", to_unit(2 * contact.real), unit)
        out.value(inputs, "/top_rise", top / diameter, "")
        if "groove_width" in given or "stands_out" in given:
            slope = way.real / way.imag
            width = size("groove_width") if "groove_width" in given else 2 * slope * (top - size("stands_out"))
            depth = width / 2 / slope
            out.value(inputs, "/groove_width", to_unit(width), unit)
            out.value(inputs, "/groove_depth", to_unit(depth), unit)
            out.value(inputs, "/stands_out", to_unit(top - depth), unit, scale=to_unit(top))
            out.value(inputs, "/contact_depth", to_unit(depth - contact.imag), unit, scale=to_unit(depth))
    return out.rows


if __name__ == "__main__":
    show(rows())
