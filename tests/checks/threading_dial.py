"""Threading dial: the carriage is moved turn by turn of the lead screw, in fractions, and watched.

At each turn the groove and the marks are looked at; nothing is divided out
beforehand.
"""

from fractions import Fraction

from common import Rows, mp, show

INCH = Fraction(254, 10)
# Inputs, lead of the thread, lead of the screw, wheel, marks.
CASES = [
    ("thread=1/2-13&leadscrew_lead=1/8 in&dial_gear=32&dial_marks=8", INCH / 13, INCH / 8, 32, 8),
    ("lead=1/10 in&leadscrew_lead=1/8 in&dial_gear=32&dial_marks=8", INCH / 10, INCH / 8, 32, 8),
    ("lead=1/16 in&leadscrew_lead=1/8 in&dial_gear=32&dial_marks=8", INCH / 16, INCH / 8, 32, 8),
    ("thread=1-11.5 NPT&leadscrew_lead=1/8 in&dial_gear=32&dial_marks=8", INCH * 2 / 23, INCH / 8, 32, 8),
    ("lead=1.5 mm&leadscrew_lead=6 mm&dial_gear=28&dial_marks=14", Fraction(3, 2), Fraction(6), 28, 14),
    ("lead=1.75 mm&leadscrew_lead=3 mm&dial_gear=28&dial_marks=14", Fraction(7, 4), Fraction(3), 28, 14),
    ("lead=2.5 mm&leadscrew_lead=3 mm&dial_gear=20&dial_marks=10", Fraction(5, 2), Fraction(3), 20, 10),
    ("lead=4 mm&leadscrew_lead=6 mm&dial_gear=30&dial_marks=10", Fraction(4), Fraction(6), 30, 10),
]


def watched(lead, screw, wheel, marks):
    """Turns to the next common place, and the marks passed when the tool is first over its groove at a mark."""
    turns = None
    for turn in range(1, 20000):
        if (screw * turn / lead).denominator != 1:
            continue
        turns = turns or turn
        passed = Fraction(turn * marks, wheel)
        if passed.denominator == 1:
            return turns, int(passed)
    raise AssertionError("never")


def rows():
    """Every library row of this calculator."""
    out = Rows("threads/threading-dial", "threading_dial", "python_fractions")
    for inputs, lead, screw, wheel, marks in CASES:
        unit = "in" if "leadscrew_lead=1/8 in" in inputs else "mm"
        inputs = f"{inputs}&units={'inch' if unit == 'in' else 'metric'}"
        turns, passed = watched(lead, screw, wheel, marks)
        out.count(inputs, "/screw_turns", turns)
        out.count(inputs, "/every_marks", passed)
        out.text(inputs, "/anywhere", "true" if turns == 1 else "false")
        travel = turns * screw / (INCH if unit == "in" else 1)
        out.value(inputs, "/travel", mp.mpf(travel.numerator) / travel.denominator, unit)
        good = [mark for mark in range(1, marks + 1) if mark % passed == 0]
        if marks % passed == 0:
            for at, mark in enumerate(good):
                out.count(inputs, f"/marks/{at}", mark)
    return out.rows


if __name__ == "__main__":
    show(rows())
