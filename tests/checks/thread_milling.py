"""Thread milling: a turning circle on a screw line, looked at by vectors, polar angles and quadratics.

The direction is found from the velocity of a tooth where it touches the work.
The overcut is the summit of how far the cutter's circle, met by a ray from the
axis, reaches beyond the true flank; the ray is met by solving a quadratic, the
summit by the zero of a numerical derivative beside the highest of many places.
"""

import numpy as np

from common import Rows, fields, mp, number, quantity, show

# Inputs; unit; major diameter; pitch; starts; whether right-hand.
CASES = [
    ("thread=M16x1.5&side=internal&cutter_diameter=10 mm&teeth=3&cutting_speed=80 m/min&feed_per_tooth=0.05 mm/tooth&way=climb&passes=2&start_diameter=14.5 mm&length=20 mm&cutting_length=21 mm", "mm", "16", "1.5", 1, True),
    ("thread=M30x2-LH&side=internal&cutter_diameter=16 mm&teeth=4&cutting_speed=60 m/min&feed_per_tooth=0.08 mm/tooth&way=climb&passes=1&start_diameter=28 mm&length=30 mm&cutting_length=12 mm", "mm", "30", "2", 1, False),
    ("thread=M12&side=internal&cutter_diameter=9.5 mm&teeth=3&cutting_speed=50 m/min&feed_per_tooth=0.03 mm/tooth&way=conventional&passes=3&start_diameter=10.2 mm&length=18 mm", "mm", "12", "1.75", 1, True),
    ("thread=1-8 UNC&side=external&cutter_diameter=0.5 in&teeth=4&cutting_speed=100 ft/min&feed_per_tooth=0.002 in/tooth&way=climb&passes=4&start_diameter=0.996 in&contour_diameter=0.85 in&length=1.25 in", "in", "1", "1/8", 1, True),
    ("thread=1-8 UNC-LH&side=external&cutter_diameter=1.5 in&teeth=6&cutting_speed=100 ft/min&feed_per_tooth=0.002 in/tooth&way=conventional&passes=2&start_diameter=0.996 in&contour_diameter=0.85 in", "in", "1", "1/8", 1, False),
    ("thread=1 1/2-12 UN-2B (2 STARTS)&side=internal&cutter_diameter=1 in&teeth=5&cutting_speed=200 ft/min&feed_per_tooth=0.003 in/tooth&way=climb&passes=2&start_diameter=1.41 in&length=1 in", "in", "1-1/2", "1/12", 2, True),
    ("thread=M10&side=internal&cutter_diameter=8.3 mm&teeth=3&cutting_speed=50 m/min&feed_per_tooth=0.03 mm/tooth&way=climb&passes=1&start_diameter=8.5 mm", "mm", "10", "1.5", 1, True),
    ("thread=M24x1.5&side=internal&cutter_diameter=16 mm&teeth=4&cutting_speed=80 m/min&feed_per_tooth=0.05 mm/tooth&way=climb&passes=1&start_diameter=22.4 mm&entry=arc_45", "mm", "24", "1.5", 1, True),
    ("thread=1-8 UNC-LH&side=internal&cutter_diameter=0.5 in&teeth=4&cutting_speed=100 ft/min&feed_per_tooth=0.002 in/tooth&way=climb&passes=2&start_diameter=0.875 in&entry=arc_45", "in", "1", "1/8", 1, False),
]


def direction(internal, climb, right_hand):
    """Which way the middle goes round and along, from the velocity of the tooth in the cut."""
    axis, outward = np.array([0, 0, 1]), np.array([1, 0, 0])
    touches = outward if internal else -outward
    tooth = np.cross(-axis, touches)
    for turning, forward in (("counterclockwise", np.cross(axis, outward)), ("clockwise", np.cross(-axis, outward))):
        # A tooth that climbs goes with the feed of the work, which is against that of the cutter.
        if (np.dot(tooth, forward) < 0) == climb:
            # Curled the way it turns, the right hand's thumb shows the way of a right-hand screw.
            thumb = np.cross(outward, forward)[2]
            return turning, "up" if (thumb > 0) == right_hand else "down"
    raise AssertionError("neither way climbs")


def overcut(internal, path, cutter, pitch_radius, lead, flank):
    """The summit of the cut into the flank, along the axis; radii."""

    def reach(turned):
        # |r u - middle| = cutter, with the ray u at `turned` to the middle.
        half = path * mp.cos(turned)
        root = mp.sqrt(half**2 - path**2 + cutter**2)
        return half + root if internal else half - root

    def cut(turned):
        short = pitch_radius - reach(turned) if internal else reach(turned) - pitch_radius
        return lead * turned / (2 * mp.pi) - flank * short

    most = mp.pi if cutter >= path else min(mp.asin(cutter / path), mp.pi / 2)
    places = [most * at / 300 for at in range(301)]
    best = max(range(301), key=lambda at: cut(places[at]))
    if best in (0, 300):
        return cut(places[best])
    slope = lambda turned: mp.diff(cut, turned)
    return cut(mp.findroot(slope, (places[best - 1], places[best + 1]), solver="anderson", tol=1e-40))


def rows():
    """Every library row of this calculator."""
    out = Rows("threads/milling", "thread_milling", "mpmath")
    for inputs, unit, major, pitch, starts, right_hand in CASES:
        given = fields(inputs)
        inputs = f"{inputs}&units={'inch' if unit == 'in' else 'metric'}"
        size = lambda name: quantity(given[name], unit)
        major, pitch = number(major), number(pitch)
        lead = starts * pitch
        internal, climb = given["side"] == "internal", given["way"] == "climb"
        cutter, start = size("cutter_diameter"), size("start_diameter")
        contour = size("contour_diameter") if "contour_diameter" in given else major
        speed = number(given["cutting_speed"].split(" ")[0]) * (12 if unit == "in" else 1000)
        spindle = speed / (mp.pi * cutter)
        tips = spindle * number(given["teeth"]) * number(given["feed_per_tooth"].split(" ")[0])
        # The middle lies one cutter radius off the wall, towards the axis in a hole.
        path = 2 * abs(contour / 2 - cutter / 2) if internal else 2 * (contour / 2 + cutter / 2)
        out.value(inputs, "/spindle_speed", spindle, "rpm")
        out.value(inputs, "/edge_feed_rate", tips, f"{unit}/min")
        out.value(inputs, "/path_diameter", path, unit)
        # Middle and tips turn together about the axis of the thread.
        turning = tips / (contour / 2)
        out.value(inputs, "/center_feed_rate", turning * path / 2, f"{unit}/min")
        out.value(inputs, "/rise_per_turn", lead, unit)
        out.value(inputs, "/path_angle", mp.degrees(mp.arg(mp.mpc(mp.pi * path, lead))), "deg")
        turns, travels = direction(internal, climb, right_hand)
        out.text(inputs, "/path_turns", turns)
        out.text(inputs, "/path_travels", travels)
        if given.get("entry") == "arc_45":
            # The centre of the circle lies on the line to the end of the way in, as far from it as from the beginning.
            end, begin = mp.mpc(path / 2), (start - cutter) / 2 * mp.expjpi(mp.mpf(-1) / 4)
            away = lambda at: abs(begin - at) - abs(end - at)
            centre = mp.findroot(away, (path / 4, path / 2.5), solver="anderson", tol=1e-45)
            out.value(inputs, "/entry_arc_diameter", 2 * abs(end - centre), unit, path)
            turned = mp.fabs(mp.arg((begin - centre) / (end - centre)))
            out.value(inputs, "/entry_arc_angle", mp.degrees(turned), "deg", mp.mpf(90))
            out.value(inputs, "/entry_start_radius", abs(begin), unit, start)
            out.value(inputs, "/entry_rise", lead * -mp.arg(begin) / (2 * mp.pi), unit)
        elif internal:
            middle = path / 4
            # A point of the half circle near the axis, seen from the axis: the way that is left to turn.
            near = mp.mpc(middle) + middle * mp.expj(mp.pi - mp.mpf("1e-30"))
            out.value(inputs, "/entry_arc_diameter", 2 * middle, unit)
            out.value(inputs, "/entry_rise", lead * mp.arg(near) / (2 * mp.pi), unit)
        else:
            clear = (start + cutter) / 2
            along = clear * mp.sin(mp.acos((path / 2) / clear))
            out.value(inputs, "/entry_length", along, unit)
            out.value(inputs, "/entry_rise", along * mp.tan(mp.arg(mp.mpc(mp.pi * path, lead))), unit)
        pitch_radius = (major - 3 * mp.sqrt(3) / 8 * pitch) / 2
        beyond = contour / 2 - pitch_radius
        at_pitch = cutter / 2 - beyond if internal else cutter / 2 + beyond
        flank = mp.tan(mp.pi / 6)
        over = overcut(internal, path / 2, at_pitch, pitch_radius, lead, flank)
        out.value(inputs, "/flank_overcut", over, unit, major)
        out.value(inputs, "/pitch_error", 2 * over / flank, unit, 4 * major)
        count = int(given["passes"])
        whole = abs(contour - start) / 2
        total = mp.mpf(0)
        for at in range(count):
            # A V of equal slices: what the cuts so far have taken is their share of the whole area.
            deep = mp.findroot(lambda d: d * d - whole * whole * (at + 1) / count, whole)
            to = start + 2 * deep if internal else start - 2 * deep
            circle = to - cutter if internal else to + cutter
            rate = tips * circle / to
            out.value(inputs, f"/cuts/{at}/depth", deep, unit)
            out.value(inputs, f"/cuts/{at}/contour_diameter", to, unit)
            out.value(inputs, f"/cuts/{at}/path_diameter", circle, unit, to)
            out.value(inputs, f"/cuts/{at}/center_feed_rate", rate, f"{unit}/min", rate * to / circle)
            total += mp.pi * circle / rate
        if "length" in given:
            long = size("length")
            if "cutting_length" in given:
                reach, places = size("cutting_length"), 1
                step = lead
                while step + lead <= reach:
                    step += lead
                at = reach if reach >= long else step
                while at < long:
                    at, places = at + step, places + 1
                turned = mp.mpf(places)
            else:
                turned = starts * (long / lead + 1)
            out.value(inputs, "/turns", turned, "")
            out.value(inputs, "/cutting_time", turned * total, "min")
    return out.rows


if __name__ == "__main__":
    show(rows())
