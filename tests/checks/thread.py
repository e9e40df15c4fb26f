"""Threads: basic diameters from the profile drawn as a triangle, printed as the standards print them.

ISO 68-1 and ASME B1.1 cut the same sharp triangle at the same heights; the
printed number has three places in millimetres and four in inches.
"""

from decimal import ROUND_HALF_UP, Decimal

from common import Rows, convert, mp, show

# Designation: diameter, pitch or threads an inch, starts.
UNIFIED = {
    "#0-80": ("0.060", "80"),
    "#2-56": ("0.086", "56"),
    "#4-40": ("0.112", "40"),
    "#10-24": ("0.190", "24"),
    "#10-32": ("0.190", "32"),
    "1/4-20": ("0.25", "20"),
    "1/4-28": ("0.25", "28"),
    "5/16-18": ("0.3125", "18"),
    "1/2-13": ("0.5", "13"),
    "9/16-12": ("0.5625", "12"),
    "1-8": ("1", "8"),
    "1-12": ("1", "12"),
    "1-1/4-7": ("1.25", "7"),
    "2-4.5": ("2", "4.5"),
}
METRIC = {
    "M1.6": ("1.6", "0.35"),
    "M3": ("3", "0.5"),
    "M4": ("4", "0.7"),
    "M5": ("5", "0.8"),
    "M6": ("6", "1"),
    "M8": ("8", "1.25"),
    "M8x1": ("8", "1"),
    "M10": ("10", "1.5"),
    "M12": ("12", "1.75"),
    "M16": ("16", "2"),
    "M20x1.5": ("20", "1.5"),
    "M24": ("24", "3"),
    "M30": ("30", "3.5"),
    "M64": ("64", "6"),
}


def basics(diameter, pitch):
    """Pitch and minor diameter: the flanks cross the pitch line halfway between crest and root of the triangle."""
    apex = pitch * mp.expjpi(mp.mpf(1) / 3)
    height = apex.imag
    # The crest is cut an eighth of the height off, the root a quarter.
    crest = height * 7 / 8
    to_pitch_line = crest - height / 2
    to_root = crest - height / 4
    return diameter - 2 * to_pitch_line, diameter - 2 * to_root


def printed(value, places):
    """The number as the standards print it, exactly."""
    step = Decimal(1).scaleb(-places)
    return mp.mpf(str(Decimal(mp.nstr(value, 30)).quantize(step, ROUND_HALF_UP)))


def rows():
    """Every library row of this calculator."""
    out = Rows("threads/thread", "thread", "mpmath")
    for table, unit, places, system in ((UNIFIED, "in", 4, "inch"), (METRIC, "mm", 3, "metric")):
        for name, (diameter, spacing) in table.items():
            inputs = f"designation={name}&units={system}"
            diameter = mp.mpf(diameter)
            pitch = 1 / mp.mpf(spacing) if unit == "in" else mp.mpf(spacing)
            pitch_diameter, minor_diameter = basics(diameter, pitch)
            out.value(inputs, "/major_diameter", diameter, unit)
            out.value(inputs, "/pitch", pitch, unit)
            out.value(inputs, "/lead", pitch, unit)
            out.value(inputs, "/pitch_diameter", printed(pitch_diameter, places), unit)
            out.value(inputs, "/minor_diameter", printed(minor_diameter, places), unit)
            if unit == "in":
                out.value(inputs, "/threads_per_inch", mp.mpf(spacing), "")
    for name in ("1/4-20", "1/2-13"):
        inputs = f"designation={name}&units=metric"
        out.value(inputs, "/pitch", convert(1 / mp.mpf(UNIFIED[name][1]), "in", "mm"), "mm")
    return out.rows


if __name__ == "__main__":
    show(rows())
