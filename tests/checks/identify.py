"""Identifying a thread: differences and misfit from the limits that tables print.

The limits are typed in from the tables named beside them; the misfit is the
length of a vector of two differences, each counted in its error.
"""

from common import Rows, fields, mp, number, quantity, show

INCH = mp.mpf("25.4")
# Inputs, the thread looked at, unit, its basic size, pitch, least and greatest of the usual class.
CASES = [
    # ASME B1.1, 2 1/2-4 UNC-2A, as Machinery's Handbook prints it.
    ("major_diameter=2.465 in&threads_per_inch=4&diameter_error=0.002 in&pitch_error=0.004 in&wear=0.004 in",
     "2 1/2-4 UNC", "in", "2.5", mp.mpf(1) / 4, "2.4731", "2.4969"),
    ("major_diameter=2.4985 in&turns=8&turns_length=2.01 in&diameter_error=0.002 in&pitch_error=0.002 in&wear=0 in",
     "2 1/2-4 UNC", "in", "2.5", mp.mpf(1) / 4, "2.4731", "2.4969"),
    # ISO 965 table of threadlib, 6H.
    ("minor_diameter=10.7 mm&pitch=1.76 mm&diameter_error=0.05 mm&pitch_error=0.02 mm&wear=0 mm",
     "M12", "mm", "10.106", mp.mpf("1.75"), "10.106", "10.441"),
    ("minor_diameter=10.3 mm&pitch=1.75 mm&diameter_error=0.05 mm&pitch_error=0.02 mm&wear=0.1 mm",
     "M12", "mm", "10.106", mp.mpf("1.75"), "10.106", "10.441"),
    # ISO 228-1, G 1/2 A: 20.955 less 0.284.
    ("major_diameter=20.6 mm&threads_per_inch=14&diameter_error=0.05 mm&pitch_error=0.02 mm&wear=0.05 mm&flank_angle=55 deg&body=parallel",
     "G 1/2", "mm", "20.955", mp.mpf("1.814"), "20.671", "20.955"),
]


def measured_pitch(said, unit):
    """The pitch, whichever way it is said."""
    if "pitch" in said:
        return quantity(said["pitch"], unit)
    if "threads_per_inch" in said:
        return (INCH if unit == "mm" else 1) / number(said["threads_per_inch"])
    return quantity(said["turns_length"], unit) / number(said["turns"])


def rows():
    """Every library row of this calculator."""
    out = Rows("threads/identify", "identify", "mpmath")
    for inputs, thread, unit, basic, pitch, least, greatest in CASES:
        said = fields(inputs)
        inputs = f"{inputs}&units={'inch' if unit == 'in' else 'metric'}"
        inside = "minor_diameter" in said
        size = quantity(said["minor_diameter" if inside else "major_diameter"], unit)
        error, slack, wear = (quantity(said[name], unit) for name in ("diameter_error", "pitch_error", "wear"))
        low, high = mp.mpf(least), mp.mpf(greatest)
        low, high = (low, high + wear) if inside else (low - wear, high)
        nearest = min(max(size, low), high)
        off = measured_pitch(said, unit) - pitch
        row = f"/candidates[thread={thread}]"
        out.value(inputs, "/measured_pitch", measured_pitch(said, unit), unit)
        out.value(inputs, f"{row}/from_basic", size - mp.mpf(basic), unit, scale=size)
        out.value(inputs, f"{row}/outside_by", size - nearest, unit, scale=size)
        out.value(inputs, f"{row}/pitch_off", off, unit, scale=pitch)
        out.value(inputs, f"{row}/misfit", mp.norm([(size - nearest) / error, off / slack]), "", scale=size / error)
    return out.rows


if __name__ == "__main__":
    show(rows())
