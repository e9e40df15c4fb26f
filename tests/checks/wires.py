"""Threads over wires: a circle laid into a groove, and a straight wire laid into a helical one.

The groove is taken as two lines and the wire as a circle that touches both. For
the helical groove the distance of the wire's axis from the flank, a surface, is
made least over the surface, and the wire is then tilted until it lies lowest;
nothing is said beforehand of where the contact lies.
"""

from common import Rows, mp, show

# Inputs; flank angle, diameter, threads an inch or pitch, starts, wire, unit; None for the best wire.
PLAIN = [
    ("thread=1/4-20&wire_diameter=0.032 in", 60, "0.25", "20", 1, "0.032", "in"),
    ("thread=1/2-13", 60, "0.5", "13", 1, None, "in"),
    ("thread=M10&wire_diameter=0.9 mm", 60, "10", "1.5", 1, "0.9", "mm"),
    ("thread=1/2-12 BSW&wire_diameter=0.05 in", 55, "0.5", "12", 1, "0.05", "in"),
    ("thread=1-5 Acme&correction=none", 29, "1", "5", 1, None, "in"),
    ("thread=Tr28x5&correction=none&wire_diameter=2.6 mm", 30, "28", "5", 1, "2.6", "mm"),
]
# The same and the pitch diameter asked for.
CONTACT = [
    ("thread=1-5 Acme (4 STARTS)&wire_diameter=0.102 in&pitch_diameter=0.9 in", 29, "5", 4, "0.102", "0.9", "in"),
    ("thread=1-5 Acme&correction=contact&wire_diameter=0.11 in&pitch_diameter=0.895 in", 29, "5", 1, "0.11", "0.895", "in"),
    ("thread=Tr40x14P7&wire_diameter=3.6 mm&pitch_diameter=36.4 mm", 30, "7", 2, "3.6", "36.4", "mm"),
    ("thread=M16xPh8P2&wire_diameter=1.2 mm&pitch_diameter=14.7 mm", 60, "2", 4, "1.2", "14.7", "mm"),
]


# Inputs; flank angle, threads an inch or pitch, wire or None for the best, greatest and least pitch diameter as Machinery's
# Handbook prints them after ASME B1.1, or a table after ISO 965; unit.
LIMITS = [
    ("thread=1-8 UNC&class=2A", 60, "8", None, "0.9168", "0.9100", "in"),
    ("thread=1-8 UNC&class=2A&wire_diameter=0.073 in", 60, "8", "0.073", "0.9168", "0.9100", "in"),
    ("thread=M8&class=6g", 60, "1.25", None, "7.160", "7.042", "mm"),
]


def in_a_groove_of_rings(flank, pitch, wire, pitch_diameter):
    """Twice the height of a circle of the wire's size that touches both flanks, and the wire."""
    half = mp.radians(mp.mpf(flank)) / 2
    # The flanks meet a quarter pitch, on the slope, below the pitch line; the circle's middle is
    # one radius from either.
    apex = pitch_diameter / 2 - (pitch / 4) / mp.tan(half)
    distance = lambda height: (height - apex) * mp.sin(half) - wire / 2
    middle = mp.findroot(distance, pitch_diameter / 2)
    return 2 * middle + wire


def in_a_helical_groove(flank, pitch, starts, wire, pitch_diameter):
    """Twice the lowest place of the axis of a wire that touches the flank and may tilt, and the wire."""
    with mp.workdps(40):
        slope = mp.tan(mp.radians(mp.mpf(flank)) / 2)
        lead = pitch * starts

        def point(radius, turn):
            z = lead * turn / (2 * mp.pi) + pitch / 4 + (radius - pitch_diameter / 2) * slope
            return mp.matrix([radius * mp.cos(turn), radius * mp.sin(turn), z])

        dot = lambda a, b: sum(x * y for x, y in zip(a, b))
        start = [pitch_diameter / 2, mp.mpf("-0.01"), mp.mpf("0.001"), pitch_diameter / 2 + wire / 8]

        def lying(tilt):
            along = mp.matrix([0, mp.cos(tilt), mp.sin(tilt)])

            def conditions(radius, turn, along_by, height):
                away = point(radius, turn) - mp.matrix([height, 0, 0]) - along_by * along
                by_radius = mp.matrix([mp.cos(turn), mp.sin(turn), slope])
                by_turn = mp.matrix([-radius * mp.sin(turn), radius * mp.cos(turn), lead / (2 * mp.pi)])
                return [dot(away, by_radius), dot(away, by_turn), dot(away, along), dot(away, away) - (wire / 2) ** 2]

            return mp.findroot(conditions, start)[3]

        lean = mp.atan(lead / (mp.pi * pitch_diameter))
        lowest = mp.findroot(lambda tilt: mp.diff(lying, tilt, h=mp.mpf("1e-12")), (lean, lean * mp.mpf("1.02")), tol=1e-12)
        return 2 * lying(lowest) + wire


def rows():
    """Every library row of this calculator."""
    out = Rows("threads/wires", "wires", "mpmath")
    for inputs, flank, diameter, spacing, _, wire, unit in PLAIN:
        inputs = f"{inputs}&units={'inch' if unit == 'in' else 'metric'}"
        diameter = mp.mpf(diameter)
        pitch = 1 / mp.mpf(spacing) if unit == "in" else mp.mpf(spacing)
        half = mp.radians(mp.mpf(flank)) / 2
        # Half the sharp triangle lies above the pitch line; the standards cut an eighth or a sixth off.
        sharp = pitch / 2 / mp.tan(half)
        crest = {60: sharp / 2 - sharp / 8, 55: sharp / 2 - sharp / 6}.get(flank, pitch / 4)
        pitch_diameter = diameter - 2 * crest
        best = mp.findroot(lambda w: in_a_groove_of_rings(flank, pitch, w, pitch_diameter) - w - pitch_diameter - w * mp.sin(half), pitch / 2)
        best = pitch / 2 / mp.cos(half) if mp.fabs(best - pitch / 2 / mp.cos(half)) < mp.mpf("1e-30") else best
        out.value(inputs, "/best_wire", best, unit)
        wire = best if wire is None else mp.mpf(wire)
        over = in_a_groove_of_rings(flank, pitch, wire, pitch_diameter)
        out.value(inputs, "/over_wires", over, unit)
    for inputs, flank, spacing, starts, wire, pitch_diameter, unit in CONTACT:
        inputs = f"{inputs}&units={'inch' if unit == 'in' else 'metric'}"
        pitch = 1 / mp.mpf(spacing) if unit == "in" else mp.mpf(spacing)
        over = in_a_helical_groove(flank, pitch, starts, mp.mpf(wire), mp.mpf(pitch_diameter))
        out.value(inputs, "/over_wires", over, unit)
    for inputs, flank, spacing, wire, greatest, least, unit in LIMITS:
        inputs = f"{inputs}&units={'inch' if unit == 'in' else 'metric'}"
        pitch = 1 / mp.mpf(spacing) if unit == "in" else mp.mpf(spacing)
        wire = pitch / 2 / mp.cos(mp.radians(mp.mpf(flank)) / 2) if wire is None else mp.mpf(wire)
        for field, limit in (("max", greatest), ("min", least)):
            over = in_a_groove_of_rings(flank, pitch, wire, mp.mpf(limit))
            out.value(inputs, f"/limits/over_wires_{field}", over, unit)
    return out.rows


if __name__ == "__main__":
    show(rows())
