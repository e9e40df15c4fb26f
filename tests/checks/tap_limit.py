"""Taps for a class: the coat moves a flank along its normal, and the pitch line is cut again.

Class limits are those that a tap maker's catalogue of 2020 prints beside its
recommendations (1/4-20, 3/8-16) and a guide to taps of 2022 (M10); the tap's own
limits are built up by counting half thousandths, thirteens of a micrometre or
shares of the tolerance of grade 5, in whole tenths of a micrometre.
"""

from common import Rows, fields, mp, number, show
from plated import moved

# Inputs; unit; basic pitch diameter; greatest of the class; tolerance of the tap; step of the number.
CASES = [
    ("thread=1/4-20 UNC&internal_class=2B&expected_oversize=0.0005 in&taps=L1,H1,H3,H5,H9", "in", "0.2175", "0.2224", "0.0005", "0.0005"),
    ("thread=1/4-20 UNC&internal_class=3B&expected_oversize=-0.0004 in&taps=H2,H7,H8", "in", "0.2175", "0.2211", "0.0005", "0.0005"),
    ("thread=3/8-16 UNC&internal_class=2B&thickness_min=0.0002 in&thickness_max=0.0003 in&taps=H3,H5,H8,H12", "in", "0.3344", "0.3401", "0.0005", "0.0005"),
    ("thread=M10&internal_class=6H&thickness_min=5 um&thickness_max=8 um&taps=D3,D6,D8,D16", "mm", "9.026", "9.206", "0.031", "0.013"),
    ("thread=M6&internal_class=6H&expected_oversize=0.01 mm&taps=D1,D5", "mm", "5.350", "5.500", "0.025", "0.013"),
]


def length(text, unit):
    """A stated length as a number in `unit`; the cases use inches, millimetres and micrometres."""
    value, said = text.split(" ")
    if said == "um":
        return number(value) / 1000
    assert said == unit
    return number(value)


def rows():
    """Every library row of this calculator."""
    out = Rows("threads/tap-limit", "tap_limit", "mpmath")
    for inputs, unit, basic, top, width, step in CASES:
        given = fields(inputs)
        inputs = f"{inputs}&units={'inch' if unit == 'in' else 'metric'}"
        basic, top, width, step = (mp.mpf(value) for value in (basic, top, width, step))
        over = length(given["expected_oversize"], unit) if "expected_oversize" in given else mp.mpf(0)
        thin = thick = mp.mpf(0)
        if "thickness_min" in given:
            thin, thick = (moved(30, length(given[f"thickness_{end}"], unit)) for end in ("min", "max"))
            out.value(inputs, "/pitch_change_min", thin, unit)
            out.value(inputs, "/pitch_change_max", thick, unit)
            out.value(inputs, "/pitch_min_before", basic + thick, unit)
            out.value(inputs, "/pitch_max_before", top + thin, unit)
            out.count(inputs, "/steps_up", int(mp.ceil(thick / step)))
        best = None
        for name in given["taps"].split(","):
            # L1 ends where H1 begins: at the basic pitch diameter.
            counted = 1 - int(name[1:]) if name[0] == "L" else int(name[1:])
            greatest = basic
            for _ in range(abs(counted)):
                greatest += step if counted > 0 else -step
            least = greatest - width
            low, high = least + over - thick, greatest + over - thin
            at = f"/taps[name={name}]"
            out.value(inputs, f"{at}/pitch_min", least, unit)
            out.value(inputs, f"{at}/pitch_max", greatest, unit)
            out.value(inputs, f"{at}/hole_min", low, unit)
            out.value(inputs, f"{at}/hole_max", high, unit)
            out.value(inputs, f"{at}/room_below", low - basic, unit, basic)
            out.value(inputs, f"{at}/room_above", top - high, unit, top)
            within = low >= basic and high <= top
            out.text(inputs, f"{at}/within_class", "true" if within else "false")
            off = abs((low - basic) - (top - high))
            if within and (best is None or off < best[0]):
                best = (off, name)
        out.text(inputs, "/middle_tap", best[1])
    return out.rows


if __name__ == "__main__":
    show(rows())
