"""Threads before plating: the flank is a line, the coat moves it along its normal, and the pitch line is cut again.

The limits after plating are those that Machinery's Handbook, 27th edition, and
an open table after ISO 965 print, or the basic sizes.
"""

from common import Rows, convert, fields, mp, number, quantity, show

# Inputs; half flank angle; limits after plating: pitch greatest and least, crest greatest and least; unit; pitch of a
# thread of 60 degrees.
CASES = [
    ("thread=2-1/2-4 UNC&side=external&external_class=2A&thickness_min=0.0002 in&thickness_max=0.0003 in", 30, "2.3376", "2.3241", "2.5000", "2.4731", "in", "0.25"),
    ("thread=M8&side=external&external_class=6g&thickness_min=3 um&thickness_max=5 um", 30, "7.188", "7.042", "8.000", "7.760", "mm", "1.25"),
    ("thread=M8&side=external&external_class=6g&thickness_min=3 um&thickness_max=5 um&may_reach=class", 30, "7.160", "7.042", "7.972", "7.760", "mm", "1.25"),
    ("thread=M8&side=internal&internal_class=6H&thickness_min=5 um&thickness_max=8 um", 30, "7.348", "7.188", "6.912", "6.647", "mm", "1.25"),
    ("thread=G 1/2&side=external&external_class=A&thickness_min=5 um&thickness_max=10 um", mp.mpf("27.5"), "19.793", "19.651", "20.955", "20.671", "mm", None),
    ("thread=3/4-6 Acme&side=external&external_class=2G&thickness_min=0.0001 in&thickness_max=0.0004 in", mp.mpf("14.5"), "0.6667", "0.6424", "0.7500", "0.7417", "in", None),
]


def moved(half, thickness):
    """How far the pitch line moves, on the diameter, when both flanks of a ridge gain a coat."""
    half = mp.radians(half)
    # The flank runs from the pitch point down at the flank angle; its normal is square to it.
    along = mp.mpc(mp.sin(half), -mp.cos(half))
    normal = along * mp.mpc(0, 1)
    start = normal * thickness
    # Where the moved flank has the sideways place of the old pitch point.
    steps = -start.real / along.real
    return mp.fabs(2 * (start + steps * along).imag)


def rows():
    """Every library row of this calculator."""
    out = Rows("threads/plated", "plated", "mpmath")
    for inputs, half, *limits, unit, pitch in CASES:
        given = fields(inputs)
        inputs = f"{inputs}&units={'inch' if unit == 'in' else 'metric'}"
        micrometres = lambda text: quantity(text, unit) if not text.endswith("um") else number(text.split(" ")[0]) / 1000
        thin, thick = micrometres(given["thickness_min"]), micrometres(given["thickness_max"])
        pitch_top, pitch_low, crest_top, crest_low = (mp.mpf(limit) for limit in limits)
        thin_moves, thick_moves = moved(half, thin), moved(half, thick)
        outside = given["side"] == "external"
        at_top, at_low = (thick, thin) if outside else (thin, thick)
        sign = -1 if outside else 1
        out.value(inputs, "/pitch_change_min", thin_moves, unit)
        out.value(inputs, "/pitch_change_max", thick_moves, unit)
        out.value(inputs, "/before/pitch_max", pitch_top + sign * moved(half, at_top), unit)
        out.value(inputs, "/before/pitch_min", pitch_low + sign * moved(half, at_low), unit)
        out.value(inputs, "/before/crest_max", crest_top + sign * 2 * at_top, unit)
        out.value(inputs, "/before/crest_min", crest_low + sign * 2 * at_low, unit)
        if pitch:
            # The gauge's crest is cut off the sharp triangle: a quarter of its height in a ring, an eighth on a plug.
            triangle = mp.mpf(pitch) / 2 / mp.tan(mp.radians(half))
            cut = triangle / 2 - triangle / 4 if outside else triangle / 2 - triangle / 8
            after = pitch_top if outside else pitch_low
            before = after + sign * thick_moves
            out.value(inputs, "/go_gauge/pitch_before", before, unit)
            out.value(inputs, "/go_gauge/crest_before", before + sign * 2 * cut, unit)
            out.value(inputs, "/go_gauge/crest_after", after + sign * 2 * cut, unit)
    return out.rows


if __name__ == "__main__":
    show(rows())
