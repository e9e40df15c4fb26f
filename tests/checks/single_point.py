"""Threading with a single point: the groove by its two flanks, its section by integration.

The tool is pushed between two flank lines that stand half a pitch apart on the
pitch line until its tip fits; passes of equal area are found by solving for the
depth at which the integrated section is a share of the whole. Limits of pitch
diameters are typed in from the tables named beside them.
"""

from common import Rows, fields, mp, quantity, show

# Inputs, unit, half the flank angle, pitch, starts, blank, pitch diameter aimed at, inside, major diameter.
CASES = [
    # 1/2-13 UNC-2A: .4485 and .4435, as ASME B1.1 prints them.
    ("thread=1/2-13 UNC&external_class=2A&blank_diameter=0.498 in&tip_flat=0 in&compound_angle=29.5 deg&passes=12&law=square_root&spring_passes=1", "in",
     "30", mp.mpf(1) / 13, 1, "0.498", "0.446", False, "0.5"),
    # M24 6H: 22.051 and 22.316 in the table of threadlib.
    ("thread=M24&side=internal&internal_class=6H&blank_diameter=20.9 mm&tip_radius=0.2 mm&passes=16&dial=diameter", "mm",
     "30", mp.mpf(3), 1, "20.9", "22.1835", True, "24"),
    ("thread=1-5 Acme (2 STARTS)&pitch_diameter=0.89 in&blank_diameter=1 in&tip_flat=0.069 in&law=equal_area&passes=20", "in",
     "14.5", mp.mpf(1) / 5, 2, "1", "0.89", False, "1"),
    ("thread=Tr28x5&pitch_diameter=25.3 mm&blank_diameter=27.9 mm&tip_flat=1.6 mm&compound_angle=14 deg&first_depth=0.4 mm&law=square_root", "mm",
     "15", mp.mpf(5), 1, "27.9", "25.3", False, "28"),
    ("thread=M10&pitch_diameter=9 mm&blank_diameter=9.95 mm&tip_flat=0.2 mm&first_depth=0.3 mm&least_depth=0.06 mm&law=square_root", "mm",
     "30", mp.mpf("1.5"), 1, "9.95", "9", False, "10"),
    # 1-8 UNC-2A: .9168 and .9100, major .9980 and .9830, as ASME B1.1 prints them; the chips of equal area, and the blank in
    # the middle of its limits, are what is taken where nothing is said.
    ("thread=1-8 UNC&external_class=2A&tip_flat=0.015625 in&first_depth=0.012 in", "in",
     "30", mp.mpf(1) / 8, 1, "0.9905", "0.9134", False, "1"),
    # M8 6g: 7.160 and 7.042, major 7.972 and 7.760 in the table of threadlib.
    ("thread=M8&external_class=6g&tip_flat=0.15 mm&passes=9", "mm",
     "30", mp.mpf("1.25"), 1, "7.866", "7.101", False, "8"),
]


def below_pitch_line(said, unit, half, pitch):
    """How far the tip comes below the line on which the flanks stand half a pitch apart."""
    wide = lambda depth: pitch / 2 - 2 * depth * mp.tan(half)
    if "tip_radius" in said:
        radius = quantity(said["tip_radius"], unit)
        # The centre of the tip lies on the bisector, its radius from a flank that starts at a quarter pitch.
        away = lambda depth: (pitch / 4 - depth * mp.tan(half)) * mp.cos(half) - radius
        return mp.findroot(away, pitch / 8) + radius
    flat = quantity(said["tip_flat"], unit)
    return mp.findroot(lambda depth: wide(depth) - flat, pitch / 8)


def depths(said, unit, half, whole):
    """Depth after each pass that cuts."""
    flat = quantity(said.get("tip_flat", "0"), unit)
    section = lambda depth: mp.quad(lambda y: flat + 2 * y * mp.tan(half), [0, depth])
    if "passes" in said:
        count = int(said["passes"])
    else:
        first = quantity(said["first_depth"], unit)
        parts = (whole / first) ** 2 if said.get("law") == "square_root" else section(whole) / section(first)
        count = int(mp.ceil(parts))
    if said.get("law") == "equal_area" or ("law" not in said and "tip_flat" in said):
        share = lambda n: mp.findroot(lambda y: section(y) - section(whole) * n / count, whole * mp.sqrt(mp.mpf(n) / count))
        return [share(n) for n in range(1, count + 1)]
    # A sharp tip takes equal areas where the area grows with the number.
    by_law = [whole * mp.sqrt(mp.mpf(n) / count) for n in range(count + 1)]
    least, out = quantity(said.get("least_depth", "0"), unit), [mp.mpf(0)]
    for before, after in zip(by_law, by_law[1:]):
        out.append(min(whole, out[-1] + max(after - before, least)))
        if out[-1] == whole:
            break
    return out[1:]


def rows():
    """Every library row of this calculator."""
    out = Rows("threads/single-point", "single_point", "mpmath")
    for inputs, unit, half, pitch, starts, blank, aim, inside, major in CASES:
        said = fields(inputs)
        inputs = f"{inputs}&units={'inch' if unit == 'in' else 'metric'}"
        half, blank, aim = mp.radians(mp.mpf(half)), mp.mpf(blank), mp.mpf(aim)
        way = -1 if inside else 1
        # The pitch line halves the triangle whose height is cut off by three eighths; a power thread's lies a quarter down.
        below = 3 * mp.sqrt(3) / 8 * pitch if round(mp.degrees(half)) == 30 else pitch / 2
        basic = mp.mpf(major) - below
        whole = way * (blank - aim) / 2 + below_pitch_line(said, unit, half, pitch)
        slide = 1 / mp.cos(mp.radians(quantity_of_angle(said)))
        out.value(inputs, "/aim", aim, unit)
        out.value(inputs, "/depth", whole, unit, scale=blank)
        out.value(inputs, "/root_diameter", blank - way * 2 * whole, unit, scale=blank)
        out.value(inputs, "/crest_width", pitch / 2 - way * (blank - aim) * mp.tan(half), unit, scale=blank)
        out.value(inputs, "/lead_angle", mp.degrees(mp.atan2(starts * pitch, mp.pi * basic)), "deg")
        out.value(inputs, "/slide_travel", whole * slide, unit, scale=blank)
        cuts = depths(said, unit, half, whole)
        out.count(inputs, "/pass_count", len(cuts))
        dial = 2 if said.get("dial") == "diameter" else 1
        for at in sorted({0, 1, len(cuts) // 2, len(cuts) - 1}):
            out.value(inputs, f"/passes/{at}/depth", cuts[at], unit, scale=blank)
            out.value(inputs, f"/passes/{at}/tip_diameter", blank - way * 2 * cuts[at], unit, scale=blank)
            out.value(inputs, f"/passes/{at}/dial_reading", dial * cuts[at] * slide, unit, scale=blank)
        if "tip_flat" in said:
            flat = quantity(said["tip_flat"], unit)
            chip = mp.quad(lambda y: flat + 2 * y * mp.tan(half), [cuts[1], cuts[2]])
            out.value(inputs, "/passes/2/chip_area", chip, unit + "2", scale=blank * pitch)
    return out.rows


def quantity_of_angle(said):
    """Degrees of the compound; 0 for the cross slide."""
    return mp.mpf(said.get("compound_angle", "0 deg").split()[0])


if __name__ == "__main__":
    show(rows())
