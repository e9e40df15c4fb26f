"""Library rows of the handwheel: exact fractions and divmod, the screw followed as a place on an endless dial."""

from fractions import Fraction

import pint

from common import Rows, fields, mp, show

UNITS = pint.UnitRegistry(non_int_type=Fraction)
NAME = {"in": "inch", "mm": "millimeter"}

CASES = [
    "distance=1.2345 in&travel_per_turn=0.2 in&divisions=200&units=inch",
    "distance=0.500 in&travel_per_turn=0.1 in&divisions=100&units=inch",
    "distance=47.315 mm&travel_per_turn=5 mm&divisions=100&units=metric",
    "distance=-23.75 mm&travel_per_turn=5 mm&divisions=100&dial_now=1.40 mm&units=metric",
    "distance=-0.0376 in&travel_per_turn=0.125 in&divisions=125&dial_now=0.025 in&units=inch",
    "distance=100 mm&travel_per_turn=0.2 in&divisions=200&units=metric",
    "distance=9.996 mm&travel_per_turn=2.5 mm&divisions=50&dial_now=0.3 mm&units=metric",
    "distance=-23.75 mm&travel_per_turn=5 mm&divisions=100&dial_now=1.40 mm&backlash=0.12 mm&approach=growing&units=metric",
    "distance=0.75 in&travel_per_turn=0.1 in&divisions=100&backlash=0.008 in&approach=falling&units=inch",
    "distance=0.75 in&travel_per_turn=0.1 in&divisions=100&backlash=0.008 in&approach=growing&units=inch",
    "distance=-1.234 in&threads_per_inch=8&divisions=125&dial_now=0.05 in&units=inch",
    "distance=7.31 mm&travel_per_division=0.02 mm&divisions=150&dial_now=1.5 mm&units=metric",
    "distance=0.777 in&threads_per_inch=5&travel_per_division=0.001 in&backlash=0.006 in&approach=falling&units=inch",
    "distance=-4.31 mm&travel_per_division=0.02 mm&units=metric",
]


def exact(text, to_unit):
    """A stated length as a fraction in a unit."""
    value, unit = text.split(" ")
    return (Fraction(value) * UNITS(NAME[unit])).to(NAME[to_unit]).magnitude


def dial(given, length):
    """Travel of a turn, divisions in it, travel of a division; no turn where only a division is stated."""
    turn = Fraction(1, int(given["threads_per_inch"])) if "threads_per_inch" in given else length("travel_per_turn")
    division = length("travel_per_division") or turn / int(given["divisions"])
    turn = turn or division * int(given.get("divisions", 0))
    return turn, int(turn / division), division


def real(value):
    """A fraction as a 50-digit number."""
    return mp.mpf(value.numerator) / value.denominator


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/handwheel", "handwheel", "pint")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        length = lambda name: exact(given.get(name, "0 mm"), unit)
        distance, turn, count, division = length("distance"), *dial(given, length)
        count_of = lambda field, number: out.value(inputs, field, mp.mpf(number), "")
        if not turn:
            out.value(inputs, "/divisions", real(abs(distance) / division), "")
            count_of("/nearest/divisions", int(abs(distance) / division + Fraction(1, 2)))
            continue
        whole, rest = divmod(abs(distance), turn)
        count_of("/turns", int(whole))
        out.value(inputs, "/divisions", real(rest / division), "", scale=real(abs(distance) / division))
        nearest = int(abs(distance) / division + Fraction(1, 2))
        count_of("/nearest/turns", nearest // count)
        count_of("/nearest/divisions", nearest % count)
        left = abs(distance) - nearest * division
        out.value(inputs, "/nearest/remainder", real(left), unit, scale=real(abs(distance)))
        end = length("dial_now") + distance
        out.value(inputs, "/dial_reading", real(end % turn), unit, scale=real(abs(end) + turn))
        if "backlash" in given:
            up = given["approach"] == "growing"
            past = 2 * length("backlash") if (distance < 0) == up else Fraction(0)
            out.value(inputs, "/overshoot", real(past), unit)
            if past:
                back = (end - past if up else end + past) % turn
                out.value(inputs, "/turn_back_at", real(back), unit, scale=real(abs(end) + turn))
    return out.rows


if __name__ == "__main__":
    show(rows())
