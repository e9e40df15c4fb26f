"""Dividing head: every movement of every circle tried in exact fractions, the work turned by each and compared."""

from fractions import Fraction
from itertools import permutations

from common import Rows, fields, mp, show

CASES = [
    "divisions=28&worm_ratio=40&plates=21 23 27 29 31 33&units=inch",
    "divisions=127&worm_ratio=60&plates=24 25 28 30 34 37&methods=simple&units=metric",
    "divisions=51&worm_ratio=40&plates=49&methods=simple&units=metric",
    "angle=35 deg&worm_ratio=90&plates=15 16 17 18 19 20&units=metric",
    "angle=17.37 deg&worm_ratio=40&plates=37 39 41 43 47 49&units=metric",
    "divisions=69&worm_ratio=40&methods=compound&plates=21 23 27 29 31 33&units=inch",
    "divisions=77&worm_ratio=40&methods=compound&plates=15 16 17 18 19 20; 21 23 27 29 31 33&units=inch",
    "divisions=127&worm_ratio=40&methods=differential&plates=18&gears=24,28,32,40,44,56&units=inch",
    "divisions=271&worm_ratio=40&methods=differential&plates=21&gears=24,28,32,40,56,72&units=inch",
    "divisions=99&worm_ratio=40&methods=differential&plates=20&gears=28,32,40,56&units=inch",
    "divisions=9&worm_ratio=40&direct_holes=36&methods=direct&units=inch",
]


def number(value):
    """A fraction as a 50-digit number."""
    return mp.mpf(value.numerator) / value.denominator


def nearest(value):
    """The nearest whole number; of two the greater."""
    return (value + Fraction(1, 2)).__floor__()


class SomeRows(Rows):
    """Rows without the counts of zero, which no test could tell from others."""

    def count(self, inputs, field, value):
        if value:
            super().count(inputs, field, value)


def simple_ways(turns, circles):
    """Exact ways, the fewest holes first; else the three nearest, each in the smallest circle that has it."""
    exact = [(c, int(turns * c)) for c in sorted(circles) if (turns * c).denominator == 1]
    if exact:
        return exact
    near, seen = [], set()
    tried = [(abs(Fraction(nearest(turns * c), c) - turns), c, nearest(turns * c)) for c in circles]
    for _, c, holes in sorted(way for way in tried if way[2]):
        if Fraction(holes, c) not in seen:
            seen.add(Fraction(holes, c))
            near.append((c, holes))
    return near[:3]


def compound_ways(turns, sides):
    """Of each two circles the movements with the fewest holes, counted by trying all; the three fewest."""
    best = {}
    for side in sides:
        for a, b in permutations(side, 2):
            for second in range(1 - b, b):
                first = (turns - Fraction(second, b)) * a
                if second and first > 0 and first.denominator == 1:
                    way = (int(first) + abs(second), second < 0, second, a, int(first), b)
                    pair = tuple(sorted((a, b)))
                    best[pair] = min(best.get(pair, way), way, key=lambda way: way[:3])
    return sorted(best.values(), key=lambda way: way[0])[:3]


def plain(out, inputs, turns, ratio, divisions, circles):
    """Rows of simple indexing."""
    for index, (circle, holes) in enumerate(simple_ways(turns, circles)):
        path = f"/ways/{index}"
        out.count(inputs, f"{path}/circle", circle)
        out.count(inputs, f"{path}/turns", holes // circle)
        out.count(inputs, f"{path}/holes", holes % circle)
        if holes % circle:
            out.count(inputs, f"{path}/sector_holes", holes % circle + 1)
        off = (Fraction(holes, circle) - turns) * 1296000 / ratio
        if off:
            out.value(inputs, f"{path}/off_seconds", number(off), "")
            if divisions:
                out.value(inputs, f"{path}/off_in_all", number(off * divisions), "")
    return simple_ways(turns, circles)[0][0]


def listed(out, inputs, turns, ratio, circle, places):
    """Rows of the list of places."""
    for index in range(places):
        path, exact = f"/table/{index}", turns * circle * index
        holes = nearest(exact)
        out.count(inputs, f"{path}/turns", holes // circle)
        out.count(inputs, f"{path}/divisions", holes % circle)
        off = (holes - exact) * 1296000 / (ratio * circle)
        if off:
            # The difference of two counts of holes.
            out.value(inputs, f"{path}/off_seconds", number(off), "", scale=number(exact) * 1296000 / (ratio * circle))


def geared(out, inputs, ratio, divisions, circle, gears):
    """Rows of differential indexing, where one train alone of these gears does it by a whole number of divisions."""
    found = set()
    trains = [(Fraction(a, b), 2) for a, b in permutations(gears, 2)]
    trains += [(Fraction(a * c, b * d), 4) for a, b, c, d in permutations(gears, 4)]
    for holes in range(1, circle * (ratio + 8) // divisions + 1):
        lacking = ratio - divisions * Fraction(holes, circle)
        sizes = [size for train, size in trains if train == abs(lacking)]
        if lacking and abs(lacking) <= 8 and sizes:
            found.add((min(sizes), (ratio * circle) % holes != 0, abs(lacking), lacking, holes))
    size, _, _, lacking, holes = min(found)
    out.count(inputs, "/ways/0/holes", holes)
    out.value(inputs, "/ways/0/gear_ratio", number(lacking), "")
    out.count(inputs, "/ways/0/idlers", (1 if size == 2 else 0) + (0 if lacking > 0 else 1))


def rows():
    """Every library row of this calculator."""
    out = SomeRows("geometry/dividing-head", "dividing_head", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        ratio = int(given["worm_ratio"])
        divisions = int(given.get("divisions", 0))
        share = Fraction(1, divisions) if divisions else Fraction(given["angle"].split(" ")[0]) / 360
        turns = share * ratio
        out.value(inputs, "/step_turns", number(turns), "")
        out.value(inputs, "/step_angle", number(share * 360), "deg")
        method = given.get("methods", "simple")
        sides = [[int(c) for c in side.split()] for side in given.get("plates", "").split(";")]
        circles = [circle for side in sides for circle in side]
        if method == "simple":
            circle = plain(out, inputs, turns, ratio, divisions, circles)
            exact = (turns * circle).denominator == 1
            places = (0 if exact else divisions) if divisions else (1 / share).__floor__() + 1
            listed(out, inputs, turns, ratio, circle, min(places, 12))
        elif method == "compound":
            for index, (_, _, second, a, first, b) in enumerate(compound_ways(turns, sides)[:1]):
                out.count(inputs, f"/ways/{index}/circle", a)
                out.count(inputs, f"/ways/{index}/holes", first % a)
                out.count(inputs, f"/ways/{index}/second_circle", b)
                out.value(inputs, f"/ways/{index}/second_holes", mp.mpf(second), "")
        elif method == "differential":
            geared(out, inputs, ratio, divisions, circles[0], [int(gear) for gear in given["gears"].split(",")])
        else:
            out.count(inputs, "/ways/0/holes", int(share * int(given["direct_holes"])))
    return out.rows


if __name__ == "__main__":
    show(rows())
