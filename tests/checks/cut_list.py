"""Cut lists: the least length of bar by an integer program over whole filling patterns, in whole thousandths."""

import itertools
import random

import numpy as np
from common import Rows, mp, show
from scipy.optimize import Bounds, LinearConstraint, milp

# Pieces (length, number), bars (length, number or none), cut, facing, cut off first, vise: thousandths of a unit.
FIXED = [
    ("in", [(30000, 6), (17500, 8)], [(144000, None)], 62, 0, 0, 0),
    ("in", [(36000, 8)], [(144000, None)], 0, 0, 0, 0),
    ("in", [(36000, 8)], [(144000, None)], 125, 0, 0, 0),
    ("mm", [(420000, 5), (310000, 4), (150000, 6)], [(3000000, 2), (1250000, 1), (900000, 2)], 1600, 1000, 10000, 60000),
    ("mm", [(1000000, 3), (500000, 5)], [(2000000, 3), (1000000, None)], 0, 0, 0, 0),
]


def random_cases():
    """Small lists with several bars, some of them few."""
    draw = random.Random(20240611)
    cases = []
    for _ in range(24):
        unit = draw.choice(["in", "mm"])
        scale = 1000 if unit == "in" else 25000
        pieces = [(draw.randint(4, 60) * scale // 2, draw.randint(1, 5)) for _ in range(draw.randint(2, 5))]
        pieces = [(length, number) for length, number in dict(pieces).items()]
        bars = [(draw.choice([36, 48, 72, 96]) * scale, draw.choice([None, 1, 2, 3]))]
        bars.append((draw.choice([60, 84, 144]) * scale, None))
        kerf = draw.choice([0, scale // 16, scale // 8])
        vise = draw.choice([0, 0, 2 * scale])
        cases.append((unit, pieces, bars, kerf, 0, 0, vise))
    return cases


def patterns(sizes, numbers, room):
    """Every filling of a bar."""
    if not sizes:
        yield ()
        return
    for number in range(min(numbers[0], room // sizes[0]) + 1):
        for rest in patterns(sizes[1:], numbers[1:], room - number * sizes[0]):
            yield (number, *rest)


def least(pieces, bars, kerf, facing, trim, vise):
    """Least length of bar begun."""
    sizes = [length + 2 * facing + kerf for length, _ in pieces]
    numbers = [number for _, number in pieces]
    columns = []
    for at, (length, _) in enumerate(bars):
        room = length - trim - vise + (0 if vise else kerf)
        columns += [(at, fill) for fill in patterns(sizes, numbers, room) if any(fill)]
    cost = np.array([bars[at][0] for at, _ in columns], dtype=float)
    fills = np.array([fill for _, fill in columns]).T
    rows = [LinearConstraint(fills, np.array(numbers), np.inf)]
    for at, (_, number) in enumerate(bars):
        if number is not None:
            rows.append(LinearConstraint(np.array([[float(one == at) for one, _ in columns]]), 0, number))
    most = Bounds(0, sum(numbers))
    solved = milp(cost, constraints=rows, integrality=np.ones(len(cost)), bounds=most, options={"mip_rel_gap": 0})
    assert solved.success, solved.message
    return round(solved.fun)


def text(thousandths, unit):
    """A length as a request states it."""
    whole, part = divmod(thousandths, 1000)
    digits = f"{part:03d}".rstrip("0")
    return f"{whole}.{digits} {unit}" if digits else f"{whole} {unit}"


def rows():
    """Every library row of this calculator."""
    out = Rows("stock/cut-list", "cut_list", "scipy")
    for unit, pieces, bars, kerf, facing, trim, vise in itertools.chain(FIXED, random_cases()):
        wanted = ";".join(f"{text(length, unit)},{number}" for length, number in pieces)
        held = ";".join(text(length, unit) + (f",{number}" if number else "") for length, number in bars)
        given = [f"pieces={wanted}", f"bars={held}", f"kerf={text(kerf, unit)}"]
        for name, value in (("facing", facing), ("trim", trim), ("vise", vise)):
            if value:
                given.append(f"{name}={text(value, unit)}")
        given.append(f"units={'inch' if unit == 'in' else 'metric'}")
        inputs = "&".join(given)
        found = least(pieces, bars, kerf, facing, trim, vise)
        out.value(inputs, "/bar_length", mp.mpf(found) / 1000, unit)
        out.value(inputs, "/least_length", mp.mpf(found) / 1000, unit)
    return out.rows


if __name__ == "__main__":
    show(rows())
