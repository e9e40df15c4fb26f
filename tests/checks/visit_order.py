"""Library rows of the visit order: every order of up to eight places tried with itertools, and regular polygons,
whose shortest way from a corner is all sides but one."""

from itertools import permutations

from common import Rows, fields, mp, quantity, show

CASES = [
    "points=0.5 in,0.5 in;4.5 in,3 in;0.5 in,3 in;4.5 in,0.5 in;2.5 in,0.5 in;2.5 in,3 in;1.25 in,1.75 in&units=inch",
    "points=20 mm,15 mm;180 mm,95 mm;100 mm,15 mm;20 mm,95 mm;180 mm,15 mm;100 mm,95 mm&start=0 mm,0 mm&finish=0 mm,120 mm&travel=one_axis_at_a_time&units=metric",
    "points=11 mm,3 mm;47 mm,81 mm;62 mm,12 mm;5 mm,66 mm;33 mm,39 mm;80 mm,55 mm;71 mm,90 mm;18 mm,24 mm&start=0 mm,0 mm&units=metric",
    "points=11 mm,3 mm;47 mm,81 mm;62 mm,12 mm;5 mm,66 mm;33 mm,39 mm;80 mm,55 mm;71 mm,90 mm;18 mm,24 mm&start=0 mm,0 mm&travel=longer_axis&units=metric",
    "points=1 in,2 in;3 in,1 in;2 in,4 in;0.5 in,0.5 in;3.5 in,3.25 in&start=0 in,0 in&finish=0 in,0 in&units=inch",
    "points=3 mm,4 mm&units=metric",
    "points=3 mm,4 mm&start=0 mm,0 mm&finish=6 mm,0 mm&units=metric",
]

POLYGONS = [(24, 50), (40, 80)]

TRAVEL = {
    "straight": lambda move: abs(move),
    "one_axis_at_a_time": lambda move: abs(move.real) + abs(move.imag),
    "longer_axis": lambda move: max(abs(move.real), abs(move.imag)),
}


def polygon(corners, radius):
    """Corners of a regular polygon to six decimals, in an order that jumps about."""
    turns = [(7 * at) % corners for at in range(corners)]
    places = [radius * mp.expjpi(mp.mpf(2 * turn) / corners) for turn in turns]
    text = ";".join(f"{float(place.real):.6f} mm,{float(place.imag):.6f} mm" for place in places)
    return text, turns


def place(text, unit):
    """A point as a complex number."""
    return mp.mpc(*(quantity(part, unit) for part in text.split(",")))


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/visit-order", "visit_order", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        places = [place(text, unit) for text in given["points"].split(";")]
        start = place(given["start"], unit) if "start" in given else places[0]
        finish = [place(given["finish"], unit)] if "finish" in given else []
        travel = TRAVEL[given.get("travel", "straight")]
        between = lambda way: sum(travel(there - here) for here, there in zip(way, way[1:]))
        # Found with doubles, measured with 50 digits.
        rough = [complex(at) for at in places]
        ends = complex(start), [complex(at) for at in finish]
        shortest = min(
            permutations(range(len(places))), key=lambda order: between([ends[0]] + [rough[at] for at in order] + ends[1])
        )
        found = between([start] + [places[at] for at in shortest] + finish)
        out.value(inputs, "/length", found, unit)
        out.value(inputs, "/length_as_given", between([start] + places + finish), unit)
    for corners, radius in POLYGONS:
        text, turns = polygon(corners, radius)
        inputs = f"points={text}&units=metric"
        places = [place(part, "mm") for part in text.split(";")]
        around = sorted(range(corners), key=lambda at: turns[at])
        out.value(inputs, "/length", min_side_way(places, around), "mm")
        given = sum(abs(there - here) for here, there in zip(places, places[1:]))
        out.value(inputs, "/length_as_given", given, "mm")
    return out.rows


def min_side_way(places, around):
    """All sides but one, from the first place given, the way round that is shorter by the rounding of the corners."""
    at = around.index(0)
    onward = around[at:] + around[:at]
    back = [onward[0]] + onward[:0:-1]
    length = lambda way: sum(abs(places[b] - places[a]) for a, b in zip(way, way[1:]))
    return min(length(onward), length(back))


if __name__ == "__main__":
    show(rows())
