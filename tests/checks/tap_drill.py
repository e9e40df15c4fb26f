"""Tap drills: full thread is three quarters of the sharp triangle's height on each side.

The triangle is built from its corners, so that no printed decimal of the
height comes in. Forming taps follow a rule of the trade and are not here.
"""

from common import Rows, convert, fields, mp, number, show

# Thread: diameter and pitch in its own unit.
THREADS = {
    "#4-40": ("0.112", "40", "in"),
    "#10-24": ("0.190", "24", "in"),
    "#10-32": ("0.190", "32", "in"),
    "1/4-20": ("0.25", "20", "in"),
    "3/8-16": ("0.375", "16", "in"),
    "1/2-13": ("0.5", "13", "in"),
    "3/4-10": ("0.75", "10", "in"),
    "M3": ("3", "0.5", "mm"),
    "M6": ("6", "1", "mm"),
    "M8": ("8", "1.25", "mm"),
    "M8x1": ("8", "1", "mm"),
    "M10": ("10", "1.5", "mm"),
    "M12": ("12", "1.75", "mm"),
    "M20x1.5": ("20", "1.5", "mm"),
}

EXACT = [
    "thread=#4-40&thread_percent=65 percent&units=inch",
    "thread=#10-24&thread_percent=75 percent&units=inch",
    "thread=#10-32&thread_percent=60 percent&units=inch",
    "thread=1/4-20&thread_percent=75 percent&units=inch",
    "thread=3/8-16&thread_percent=50 percent&units=inch",
    "thread=1/2-13&thread_percent=72.5 percent&units=inch",
    "thread=3/4-10&thread_percent=100 percent&units=inch",
    "thread=M3&thread_percent=70 percent&units=metric",
    "thread=M6&thread_percent=75 percent&units=metric",
    "thread=M8&thread_percent=65 percent&tap=cutting&units=metric",
    "thread=M8x1&thread_percent=80 percent&units=metric",
    "thread=M10&thread_percent=55 percent&units=metric",
    "thread=M10&thread_percent=75 percent&units=inch",
    "thread=1/4-20&thread_percent=75 percent&units=metric",
]

# A stock drill next to the exact size, and its size in the thread's unit.
STOCK = [
    ("thread=1/4-20&thread_percent=72 percent&systems=fraction&units=inch", "13/64", "13/64"),
    ("thread=3/8-16&thread_percent=77 percent&systems=fraction&units=inch", "5/16", "5/16"),
    ("thread=1/2-13&thread_percent=78 percent&systems=fraction&units=inch", "27/64", "27/64"),
    ("thread=3/4-10&thread_percent=72 percent&systems=fraction&units=inch", "21/32", "21/32"),
    ("thread=#10-32&thread_percent=76 percent&systems=fraction&units=inch", "5/32", "5/32"),
    ("thread=M3&thread_percent=77 percent&systems=metric&units=metric", "2.5 mm", "2.5"),
    ("thread=M8&thread_percent=74 percent&systems=metric&units=metric", "6.8 mm", "6.8"),
    ("thread=M10&thread_percent=77 percent&systems=metric&units=metric", "8.5 mm", "8.5"),
    ("thread=M12&thread_percent=79 percent&systems=metric&units=metric", "10.2 mm", "10.2"),
    ("thread=M20x1.5&thread_percent=77 percent&systems=metric&units=metric", "18.5 mm", "18.5"),
]


def full_depth(pitch):
    """Both sides' full thread: 3/4 of the height of the triangle that stands on one pitch."""
    left, right = mp.mpc(0), mp.mpc(pitch)
    apex = left + (right - left) * mp.expjpi(mp.mpf(1) / 3)
    return 2 * mp.mpf(3) / 4 * apex.imag


# Thread: diameter, pitch or threads an inch, unit, percentage asked for.
OTHERS = {
    "1/2-12 BSW": ("0.5", "12", "in", "75"),
    "1/4-20 BSW": ("0.25", "20", "in", "80"),
    "3/8-20 BSF": ("0.375", "20", "in", "75"),
    "1-5 Acme": ("1", "5", "in", "100"),
    "1/2-10 Acme": ("0.5", "10", "in", "95"),
    "Tr28x5": ("28", "5", "mm", "100"),
    "G 1/2": ("20.955", "1.814", "mm", "75"),
    "G 1": ("33.249", "2.309", "mm", "80"),
}
# What the drill lists print, and the share of thread that is left.
PRINTED = {"1/2-12 BSW": "10.5", "1/4-20 BSW": "5.1", "3/8-20 BSF": "8.3"}


def height(name, pitch):
    """Height of the thread on one side: 55 degrees with a sixth off each end, or half the pitch."""
    if "Acme" in name or name.startswith("Tr"):
        return pitch / 2
    sharp = pitch / 2 * mp.cot(mp.radians(mp.mpf("27.5")))
    full = sharp * 2 / 3
    # ISO 228-1 takes the height of a pipe thread to a thousandth of a millimetre.
    return mp.nint(full * 1000) / 1000 if name.startswith("G") else full


def other_rows(out):
    """Pipe, Whitworth and power threads."""
    for name, (diameter, spacing, unit, percent) in OTHERS.items():
        diameter = mp.mpf(diameter)
        pitch = 1 / mp.mpf(spacing) if unit == "in" else mp.mpf(spacing)
        full = 2 * height(name, pitch)
        inputs = f"thread={name}&thread_percent={percent} percent&units={'inch' if unit == 'in' else 'metric'}"
        out.value(inputs, "/hole_diameter", diameter - full * mp.mpf(percent) / 100, unit, scale=diameter)
        if name in PRINTED:
            drill = convert(mp.mpf(PRINTED[name]), "mm", "in")
            share = 100 * (diameter - drill) / full
            out.value(inputs, "/published/thread_percent", share, "percent", scale=100 * diameter / full)


# Thread, percentage, systems; least and greatest minor diameter as printed; drills of those systems near, in mm or inches.
CHOSEN = [
    ("thread=M8&thread_percent=70 percent&internal_class=6H&systems=metric,letter&units=metric", "mm", "6.647", "6.912",
     {"6.6 mm": "6.6", "6.7 mm": "6.7", "H": "6.7564", "6.8 mm": "6.8", "6.9 mm": "6.9", "I": "6.9088", "7 mm": "7"}),
    ("thread=M8x1&thread_percent=70 percent&internal_class=6H&systems=metric&units=metric", "mm", "6.917", "7.153",
     {"6.9 mm": "6.9", "7 mm": "7", "7.1 mm": "7.1", "7.2 mm": "7.2"}),
    ("thread=#4-40&thread_percent=56 percent&internal_class=2B&systems=number&units=inch", "in", "0.0849", "0.0939",
     {"#44": "0.086", "#43": "0.089", "#42": "0.0935", "#41": "0.096"}),
]


def chosen_rows(out):
    """The drill nearest to the percentage that leaves room for a hundredth of it, within bounds, inside the class."""
    for inputs, unit, least, greatest, drills in CHOSEN:
        given = fields(inputs)
        diameter, pitch, _ = dimensions(given["thread"])
        wanted = number(given["thread_percent"].split(" ")[0])
        low, high = (mp.mpf("0.03"), mp.mpf("0.08")) if unit == "mm" else (mp.mpf("0.001"), mp.mpf("0.003"))
        left = {}
        for name, size in drills.items():
            room = mp.mpf(greatest) - mp.mpf(size)
            if mp.mpf(size) >= mp.mpf(least) and room >= min(max(mp.mpf(size) / 100, low), high):
                percent = 100 * (diameter - mp.mpf(size)) / full_depth(pitch)
                left[abs(percent - wanted)] = (name, room, min(max(mp.mpf(size) / 100, low), high))
        name, room, usual = left[min(left)]
        out.text(inputs, "/drill/name", name)
        out.value(inputs, "/drill/room", room, unit, scale=diameter)
        out.value(inputs, "/drill/usual_oversize", usual, unit)


def dimensions(name):
    """Diameter, pitch and unit of a thread."""
    diameter, pitch, unit = THREADS[name]
    return mp.mpf(diameter), 1 / mp.mpf(pitch) if unit == "in" else mp.mpf(pitch), unit


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/tap-drill", "tap_drill", "mpmath")
    for inputs in EXACT:
        given = fields(inputs)
        diameter, pitch, unit = dimensions(given["thread"])
        percent = number(given["thread_percent"].split(" ")[0])
        answer = "in" if given["units"] == "inch" else "mm"
        hole = diameter - full_depth(pitch) * percent / 100
        out.value(inputs, "/drill_diameter", convert(hole, unit, answer), answer)
    for inputs, name, size in STOCK:
        diameter, pitch, unit = dimensions(fields(inputs)["thread"])
        at = f"/candidates[name={name}]"
        out.value(inputs, f"{at}/diameter", number(size), unit)
        percent = 100 * (diameter - number(size)) / full_depth(pitch)
        # The difference of two diameters loses digits that neither has.
        out.value(inputs, f"{at}/thread_percent", percent, "percent", scale=100 * diameter / full_depth(pitch))
    other_rows(out)
    chosen_rows(out)
    return out.rows


if __name__ == "__main__":
    show(rows())
