"""Change gears: every way to put wheels on the shafts, in whole numbers, and the nearest that clears.

The wheels are set on a line of shafts and the gap between a wheel and the shaft
beside it is measured; the ratio is a fraction.
"""

from fractions import Fraction
from itertools import permutations

from common import Rows, mp, show

INCH = Fraction(254, 10)
# Inputs, wanted lead and lead of the screw in millimetres, ratio of the stud, wheels, clearance.
CASES = [
    ("lead=1.5 mm&leadscrew_lead=1/8 in&gears=20,30,40,45,50,55,60,65,80,127", Fraction(3, 2), INCH / 8, 1, [20, 30, 40, 45, 50, 55, 60, 65, 80, 127], 15),
    ("lead=1 mm&leadscrew_lead=1/8 in&gears=20,30,40,45,50,55,60,65,80", Fraction(1), INCH / 8, 1, [20, 30, 40, 45, 50, 55, 60, 65, 80], 15),
    ("lead=4 mm&leadscrew_lead=3 mm&gears=20,25,30,35,40,50,60,75,80", Fraction(4), Fraction(3), 1, [20, 25, 30, 35, 40, 50, 60, 75, 80], 15),
    ("lead=1/11 in&leadscrew_lead=1/8 in&gears=20,24,28,32,36,40,44,48", INCH / 11, INCH / 8, 1, [20, 24, 28, 32, 36, 40, 44, 48], 15),
    ("lead=0.7 mm&leadscrew_lead=1/8 in&gears=21,24,27,30,33,36,40,45,50,57,60,63,66,80&spindle_wheel=20&stud_wheel=40", Fraction(7, 10), INCH / 8, Fraction(1, 2), [21, 24, 27, 30, 33, 36, 40, 45, 50, 57, 60, 63, 66, 80], 15),
    ("lead=1.25 mm&leadscrew_lead=1/4 in&gears=20,30,37,40,47,50,60,63,65&clearance_teeth=5", Fraction(5, 4), INCH / 4, 1, [20, 30, 37, 40, 47, 50, 60, 63, 65], 5),
]

# Inputs, pairs of wheels, lead of the screw in millimetres, ratio of the stud, nearest pitch of ISO 261 or of the Unified
# series in millimetres, and which of the two.
TRAINS = [
    ("train=40/50 x 50/127&leadscrew_lead=1/8 in", [(40, 50), (50, 127)], INCH / 8, Fraction(1), Fraction(1), "metric"),
    ("train=30/65&leadscrew_lead=1/8 in&spindle_wheel=40&stud_wheel=20", [(30, 65)], INCH / 8, Fraction(2), Fraction(3), "metric"),
    ("train=20/40&leadscrew_lead=5 mm", [(20, 40)], Fraction(5), Fraction(1), Fraction(5, 2), "metric"),
    ("train=40/52&leadscrew_lead=1/10 in", [(40, 52)], INCH / 10, Fraction(1), INCH / 13, "inch"),
]


def clears(wheels, room):
    """Shafts stand half the teeth of their wheels apart; a wheel beside must leave room teeth to the next shaft."""
    a, b, c, d = wheels
    middle, last = Fraction(a + b, 2), Fraction(c + d, 2)
    return middle - Fraction(c, 2) >= Fraction(room, 2) and last - Fraction(b, 2) >= Fraction(room, 2)


def nearest(wanted, screw, stud, gears, room):
    """The least error, as a share, of any train that clears."""
    errors = [Fraction(a, b) * screw * stud / wanted - 1 for a, b in permutations(gears, 2) if a != b]
    for wheels in permutations(gears, 4):
        a, b, c, d = wheels
        if clears(wheels, room) and not {a, c} & {b, d}:
            errors.append(Fraction(a * c, b * d) * screw * stud / wanted - 1)
    return min(abs(error) for error in errors)


def rows():
    """Every library row of this calculator."""
    out = Rows("threads/change-gears", "change_gears", "python_fractions")
    for inputs, wanted, screw, stud, gears, room in CASES:
        unit = "in" if "lead=1/11 in" in inputs else "mm"
        inputs = f"{inputs}&units={'inch' if unit == 'in' else 'metric'}"
        number = lambda fraction: mp.mpf(fraction.numerator) / fraction.denominator
        out.value(inputs, "/wanted_ratio", number(wanted / (screw * stud)), "")
        error = nearest(wanted, screw, stud, gears, room)
        if not error:
            out.value(inputs, "/trains/0/error", mp.mpf(0), "percent")
            out.value(inputs, "/trains/0/lead", number(wanted / (INCH if unit == "in" else 1)), unit)
        else:
            signed = signed_error(wanted, screw, stud, gears, room, error)
            out.value(inputs, "/trains/0/error", 100 * number(signed), "percent", scale=mp.mpf(100))
            out.value(inputs, "/trains/0/lead", number(wanted * (1 + signed) / (INCH if unit == "in" else 1)), unit)
        out.text(inputs, "/trains/0/clears", "true")
    for inputs, pairs, screw, stud, pitch, system in TRAINS:
        inputs = f"{inputs}&units=metric"
        number = lambda fraction: mp.mpf(fraction.numerator) / fraction.denominator
        lead = screw * stud
        for driver, driven in pairs:
            lead = lead * driver / driven
        out.value(inputs, "/cut/lead", number(lead), "mm")
        out.value(inputs, "/cut/threads_per_inch", number(INCH / lead), "")
        out.value(inputs, f"/cut/nearest_{system}/pitch", number(pitch), "mm")
        out.value(inputs, f"/cut/nearest_{system}/error", 100 * number(lead / pitch - 1), "percent", scale=mp.mpf(100))
    return out.rows


def signed_error(wanted, screw, stud, gears, room, error):
    """The error with its sign."""
    for a, b in permutations(gears, 2):
        found = Fraction(a, b) * screw * stud / wanted - 1
        if abs(found) == error and a != b:
            return found
    for wheels in permutations(gears, 4):
        a, b, c, d = wheels
        found = Fraction(a * c, b * d) * screw * stud / wanted - 1
        if abs(found) == error and clears(wheels, room) and not {a, c} & {b, d}:
            return found
    raise AssertionError("no such train")


if __name__ == "__main__":
    show(rows())
