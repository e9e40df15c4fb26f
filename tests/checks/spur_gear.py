"""Spur gears by the involute itself: a pin's center unwound from the base circle, the span as an arc of it."""

from common import Rows, fields, mp, number, quantity, show

CASES = [
    "teeth=20&module=1 mm&pressure_angle=20 deg&pin_diameter=1.7 mm&units=metric",
    "teeth=24&diametral_pitch=12&pressure_angle=14.5 deg&mate_teeth=48&units=inch",
    "teeth=17&module=3 mm&thinning=0.05 mm&pin_diameter=5 mm&units=metric",
    "teeth=31&module=2 mm&pressure_angle=25 deg&pin_diameter=3.5 mm&span_teeth=5&units=metric",
    "teeth=13&module=4 mm&shift=1.6 mm&depth=full&span_teeth=3&pin_diameter=7 mm&units=metric",
    "teeth=60&module=1.5 mm&shift=-0.3 mm&thinning=0.04 mm&span_teeth=7&units=metric",
    "teeth=127&diametral_pitch=16&pressure_angle=14.5 deg&span_teeth=11&units=inch",
    "teeth=40&diametral_pitch=32&thinning=0.002 in&units=inch",
    "teeth=22&circular_pitch=0.5 in&depth=stub&span_teeth=3&units=inch",
    "teeth=9&module=2.5 mm&depth=full&span_teeth=2&units=metric",
    "teeth=200&module=0.5 mm&span_teeth=23&units=metric",
    "teeth=25&module=2 mm&span_teeth=3&measured_span=15.6 mm&units=metric",
    "teeth=25&module=2 mm&pin_diameter=3.5 mm&measured_over_pins=54.8 mm&units=metric",
    "teeth=36&diametral_pitch=10&pressure_angle=20 deg&pin_diameter=0.175 in&measured_over_pins=3.86 in&units=inch",
]

# Addendum and whole depth in modules, and what the depth adds in inches.
DEPTHS = {"full": (1, "2.25", 0), "older": (1, "2.157", 0), "fine": (1, "2.2", "0.002"), "stub": ("0.8", "1.8", 0)}


def involute(angle):
    """How far the involute has turned where its tangent is at that angle."""
    return mp.tan(angle) - angle


def usual_depth(given, alpha, module):
    """The depth that is assumed."""
    if alpha < mp.radians(18):
        return "older"
    return "fine" if "diametral_pitch" in given and number(given["diametral_pitch"]) >= 20 else "full"


def over_pins(teeth, base, half, pin):
    """Over two pins, each in a space whose flanks begin half a tooth from its middle, on the base circle of that radius.

    A string unwound from the base circle to the pin's center is as long as its arc from the flank's foot and the pin's
    radius; the center is where string, base radius and their hypotenuse turn by the half angle of the space.
    """
    space = mp.pi / teeth - half
    # The string's length over the base radius, by Newton's method on the point it ends at.
    off = lambda string: string - mp.atan(string) - (pin / (2 * base) - space)
    string = mp.findroot(off, (mp.mpf("0.01"), mp.mpf(3)), solver="anderson", tol=mp.mpf("1e-60"))
    center = base * mp.sqrt(1 + string * string)
    # The second pin lies as many spaces on as make most of half a turn: the farthest of all points of both is measured.
    turn = 2 * mp.pi * (teeth // 2) / teeth
    return abs(center - center * mp.expj(turn)) + pin


def rows():
    """Every library row of this calculator."""
    out = Rows("geometry/spur-gear", "spur_gear", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        inch = quantity("1 in", unit)
        teeth = int(given["teeth"])
        alpha = mp.radians(quantity(given.get("pressure_angle", "20 deg"), "deg"))
        if "module" in given:
            module = quantity(given["module"], unit)
        elif "circular_pitch" in given:
            module = quantity(given["circular_pitch"], unit) / mp.pi
        else:
            module = inch / number(given["diametral_pitch"])
        shift, thinning = (quantity(given.get(name, "0"), unit) for name in ("shift", "thinning"))
        addendum, whole, more = (mp.mpf(part) for part in DEPTHS[given.get("depth") or usual_depth(given, alpha, module)])
        pitch = module * teeth / 2
        base = pitch * mp.cos(alpha)
        thick = mp.pi * module / 2 + 2 * shift * mp.tan(alpha) - thinning
        depth = whole * module + more * inch
        tip = pitch + addendum * module + shift
        put = lambda field, value: out.value(inputs, field, value, unit, scale=pitch)
        put("/blank_diameter", 2 * tip)
        put("/whole_depth", depth)
        put("/root_diameter", 2 * (tip - depth))
        put("/circular_pitch", 2 * mp.pi * pitch / teeth)
        put("/tooth_thickness", thick)
        # The two points where the pitch circle leaves a tooth.
        corner = pitch * mp.expj(thick / (2 * pitch))
        put("/chordal_thickness", abs(corner - mp.conj(corner)))
        put("/chordal_addendum", tip - mp.re(corner))
        # Half a tooth where the flanks meet the base circle.
        half = thick / (2 * pitch) + involute(alpha)
        if "span_teeth" in given:
            span = lambda half: base * (2 * mp.pi / teeth * (int(given["span_teeth"]) - 1) + 2 * half)
            put("/span", span(half))
        pin = quantity(given["pin_diameter"], unit) if "pin_diameter" in given else mp.mpf("1.728") * module
        put("/over_pins", over_pins(teeth, base, half, pin))
        # Cutting deeper by so much moves both flanks of a rack toward the middle of the tooth.
        thinner = lambda cut: half - cut * mp.tan(alpha) / pitch
        if "measured_span" in given:
            put("/infeed", mp.findroot(lambda cut: span(thinner(-cut)) - quantity(given["measured_span"], unit), module / 20))
        if "measured_over_pins" in given:
            now = quantity(given["measured_over_pins"], unit)
            put("/infeed", mp.findroot(lambda cut: over_pins(teeth, base, thinner(-cut), pin) - now, (0, module / 20)))
        if "mate_teeth" in given:
            put("/center_distance", pitch + module * int(given["mate_teeth"]) / 2)
    return out.rows


if __name__ == "__main__":
    show(rows())
