"""Threads: basic diameters from the profile drawn as a triangle, printed as the standards print them.

ISO 68-1 and ASME B1.1 cut the same sharp triangle at the same heights; the
printed number has three places in millimetres and four in inches. Whitworth,
Acme and trapezoidal profiles are drawn as polygons and their flanks crossed with
the pitch line; a taper thread is a cone of 1 in 16.
"""

from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal

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


def printed(value, places, ties=ROUND_HALF_UP):
    """The number as the standards print it, exactly."""
    step = Decimal(1).scaleb(-places)
    return mp.mpf(str(Decimal(mp.nstr(value, 30)).quantize(step, ties)))

# Whitworth: diameter, threads an inch.
WHITWORTH = {"1/4-20 BSW": ("0.25", "20"), "1/2-12 BSW": ("0.5", "12"), "2-4.5 BSW": ("2", "4.5"), "3/8-20 BSF": ("0.375", "20")}
# Power threads: diameter, pitch (or threads an inch), clearance on the radius, half flank angle.
ACME = {"1/2-10 Acme": ("0.5", "10", "0.010"), "3/8-12 Acme": ("0.375", "12", "0.005"), "3-2 Acme": ("3", "2", "0.010")}
TRAPEZOIDAL = {"Tr12x3": ("12", "3", "0.25"), "Tr40x7": ("40", "7", "0.5"), "Tr100x20": ("100", "20", "1")}
# NPT: outside diameter, threads an inch, hand-tight length.
NPT = {"1/2-14 NPT": ("0.840", "14", "0.3200"), "2-11.5 NPT": ("2.375", "11.5", "0.4360"), "4-8 NPT": ("4.5", "8", "0.8440")}


def whitworth(pitch):
    """Height between the rounded crest and root: the sharp triangle less a sixth at either end."""
    half = mp.mpf(55) / 2 * mp.pi / 180
    sharp = (pitch / 2) / mp.tan(half)
    return sharp - 2 * sharp / 6


def other_rows(out):
    """Whitworth, Acme, trapezoidal and National pipe threads."""
    for name, (diameter, threads) in WHITWORTH.items():
        inputs = f"designation={name}&units=inch"
        diameter, height = mp.mpf(diameter), whitworth(1 / mp.mpf(threads))
        out.value(inputs, "/external_depth", height, "in")
        out.value(inputs, "/pitch_diameter", printed(diameter - height, 4), "in")
        out.value(inputs, "/minor_diameter", printed(diameter - 2 * height, 4), "in")
    for table, unit, places in ((ACME, "in", 4), (TRAPEZOIDAL, "mm", 3)):
        for name, (diameter, spacing, clearance) in table.items():
            inputs = f"designation={name}&units={'inch' if unit == 'in' else 'metric'}"
            diameter, clearance = mp.mpf(diameter), mp.mpf(clearance)
            pitch = 1 / mp.mpf(spacing) if unit == "in" else mp.mpf(spacing)
            # Thread and space are equal on the pitch line, a quarter pitch below the crest.
            out.value(inputs, "/pitch_diameter", printed(diameter - 2 * (pitch / 4), places), unit)
            out.value(inputs, "/minor_diameter", printed(diameter - 2 * (pitch / 2), places), unit)
            out.value(inputs, "/external_minor_diameter", diameter - 2 * (pitch / 2 + clearance), unit, scale=diameter)
            out.value(inputs, "/internal_major_diameter", diameter + 2 * clearance, unit)
    for name, (outside, threads, hand_tight) in NPT.items():
        inputs = f"designation={name}&units=inch"
        outside, threads, hand_tight = mp.mpf(outside), mp.mpf(threads), mp.mpf(hand_tight)
        start = outside - (mp.mpf("0.05") * outside + mp.mpf("1.1")) / threads
        # Half the taper on the radius: a slope of 1 in 32.
        at = lambda length: 2 * (start / 2 + length / 32)
        effective = (mp.mpf("0.80") * outside + mp.mpf("6.8")) / threads
        out.value(inputs, "/gauging/small_end_pitch_diameter", printed(start, 5, ROUND_HALF_EVEN), "in")
        out.value(inputs, "/gauging/gauge_pitch_diameter", printed(at(hand_tight), 5, ROUND_HALF_EVEN), "in")
        out.value(inputs, "/gauging/effective_length", printed(effective, 4, ROUND_HALF_EVEN), "in")
        out.value(inputs, "/gauging/effective_pitch_diameter", printed(at(effective), 5, ROUND_HALF_EVEN), "in")
        out.value(inputs, "/gauging/wrench_pitch_diameter", printed(at(-3 / threads), 5, ROUND_HALF_EVEN), "in")
        out.value(inputs, "/gauging/overall_length", printed(effective + mp.mpf("3.47") / threads, 4, ROUND_HALF_EVEN), "in")


# Unified threads with an engagement of their own: diameter, threads an inch, length, classes.
ENGAGED = [
    ("1/2-13", "0.5", "13", "0.7", ("2A", "2B")),
    ("1/2-13", "0.5", "13", "0.7", ("1A", "3B")),
    ("1-8", "1", "8", "1.2", ("2A", "2B")),
    ("1/4-28", "0.25", "28", "0.4", ("3A", "1B")),
    ("1-3/8-16", "1.375", "16", "0.75", ("2A", "2B")),
]
FACTORS = {"1A": "1.5", "2A": "1", "3A": "0.75", "1B": "1.95", "2B": "1.3", "3B": "0.975"}


def engaged_rows(out):
    """The tolerance formula of ASME B1.1 with the length in it, each part rounded as its tables are."""
    for name, diameter, threads, length, (outside, inside) in ENGAGED:
        inputs = f"designation={name}&external_class={outside}&internal_class={inside}&engagement={length} in&units=inch"
        diameter, pitch, length = mp.mpf(diameter), 1 / mp.mpf(threads), mp.mpf(length)
        terms = (
            mp.mpf("0.0015") * mp.cbrt(diameter),
            mp.mpf("0.0015") * mp.sqrt(length),
            mp.mpf("0.015") * mp.cbrt(pitch) ** 2,
        )
        whole = sum(printed(term, 6, ROUND_HALF_EVEN) for term in terms)
        tolerance = lambda name: printed(whole * mp.mpf(FACTORS[name]), 4, ROUND_HALF_EVEN)
        allowance = mp.mpf(0)
        if outside != "3A":
            allowance = printed(mp.mpf("0.3") * printed(whole, 5, ROUND_HALF_EVEN), 4, ROUND_HALF_EVEN)
        basic = printed(basics(diameter, pitch)[0], 4, ROUND_HALF_EVEN)
        out.value(inputs, "/engagement", length, "in")
        out.value(inputs, "/limits/external/allowance", allowance, "in")
        out.value(inputs, "/limits/external/pitch_max", basic - allowance, "in")
        out.value(inputs, "/limits/external/pitch_min", basic - allowance - tolerance(outside), "in")
        out.value(inputs, "/limits/internal/pitch_max", basic + tolerance(inside), "in")


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
    other_rows(out)
    engaged_rows(out)
    return out.rows


if __name__ == "__main__":
    show(rows())
