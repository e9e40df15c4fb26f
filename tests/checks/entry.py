"""Entry by ramp or helix: lengths as arc lengths by quadrature, passes and turns by going down one at a time."""

from common import Rows, fields, mp, number, show
from cutting import put, si

CASES = [
    "way=ramp&depth=3/8 in&feed_rate=4 in/min&ramp_angle=3 deg&slot_length=2 in&units=inch",
    "way=ramp&depth=5 mm&feed_rate=150 mm/min&ramp_angle=2.5 deg&units=metric",
    "way=helix&depth=10 mm&feed_rate=200 mm/min&diameter=12 mm&hole_diameter=20 mm&pitch=1 mm&corner_radius=1 mm&units=metric",
    "way=helix&depth=0.4 in&feed_rate=6 in/min&diameter=1/2 in&hole_diameter=0.9 in&ramp_angle=2 deg&units=inch",
]


def down(depth, step):
    """How many steps it takes to get down."""
    count, at = 0, mp.mpf(0)
    while at < depth * (1 - mp.mpf("1e-12")):
        count, at = count + 1, at + step
    return count


def rows():
    """Every library row of this calculator."""
    out = Rows("speeds/entry", "entry", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        depth, feed = si(given["depth"]), si(given["feed_rate"])
        if given["way"] == "ramp":
            slope = mp.radians(number(given["ramp_angle"].split(" ")[0]))
            along = depth * mp.cot(slope)
            path = mp.sqrt(along**2 + depth**2)
            put(out, inputs, given, "/ramp_length", "length", along)
            if "slot_length" in given:
                slot = si(given["slot_length"])
                put(out, inputs, given, "/passes", "plain", mp.mpf(down(depth, slot * mp.tan(slope)) + 1))
                path += slot
            rate = feed
        else:
            hole, cutter = si(given["hole_diameter"]), si(given["diameter"])
            circle = hole - cutter
            if "pitch" in given:
                pitch = si(given["pitch"])
                slope = mp.atan2(pitch, mp.pi * circle)
            else:
                slope = mp.radians(number(given["ramp_angle"].split(" ")[0]))
                pitch = mp.pi * circle * mp.sin(slope) / mp.cos(slope)
            # Arc length of the screw line, over its turning angle.
            rise = pitch / (2 * mp.pi)
            screw = mp.quad(lambda a: mp.sqrt((circle / 2) ** 2 + rise**2), [0, depth / rise])
            path = screw + mp.pi * circle
            # Middle and rim turn together about the hole's middle.
            rate = feed / (hole / 2) * (circle / 2)
            put(out, inputs, given, "/path_diameter", "length", circle)
            put(out, inputs, given, "/pitch", "length", pitch)
            put(out, inputs, given, "/turns", "plain", mp.mpf(down(depth, pitch) + 1))
            put(out, inputs, given, "/center_feed_rate", "rate", rate)
        put(out, inputs, given, "/ramp_angle", "angle", slope)
        put(out, inputs, given, "/path_length", "length", path)
        put(out, inputs, given, "/down_feed_rate", "rate", rate * mp.sin(slope))
        put(out, inputs, given, "/cutting_time", "time", path / rate)
    return out.rows


if __name__ == "__main__":
    show(rows())
