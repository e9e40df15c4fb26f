"""Writes tests/triangles/random.csv: random triangles by every case of three sizes, with their exact sizes.

A size is read as the double that its text is, so that rounding of the text counts for nothing.
"""

import random
from pathlib import Path

from common import mp
from triangle import NAMES, solve

COUNT = 1500
OUT = Path(__file__).resolve().parents[1] / "triangles" / "random.csv"


def sizes(draw):
    """A random request: sides in millimeters, angles in degrees, by letter."""
    letters = list(NAMES)
    draw.shuffle(letters)
    side = lambda: float(f"{10 ** draw.uniform(-1, 3):.6g}")
    angle = lambda most: float(f"{draw.uniform(0.001, 1) * most:.6g}")
    case = draw.choice(["sides", "needle", "between", "angles", "opposite"])
    if case == "sides":
        a, b = side(), side()
        c = float(f"{draw.uniform(abs(a - b), a + b):.6g}")
        return ({"a": a, "b": b, "c": c}, {}) if abs(a - b) < c < a + b else sizes(draw)
    if case == "needle":
        a, b = side(), side()
        c = float(f"{(a + b) * (1 - 10 ** draw.uniform(-9, -2)):.12g}")
        return ({"a": a, "b": b, "c": c}, {}) if abs(a - b) < c < a + b else sizes(draw)
    if case == "between":
        return {letters[0]: side(), letters[1]: side()}, {letters[2]: angle(179.9)}
    if case == "angles":
        first = angle(175)
        return {letters[0]: side()}, {letters[0]: first, letters[1]: angle(179 - first)}
    known, b = angle(170), side()
    low = b * float(mp.sin(mp.radians(known))) if known < 90 else b
    a = float(f"{low * draw.uniform(1.0001, 2.5):.6g}")
    return {letters[0]: a, letters[1]: b}, {letters[0]: known}


def main():
    """Write the file."""
    draw = random.Random(7)
    lines = ["request,number,side_a,side_b,side_c,angle_a,angle_b,angle_c,area,condition"]
    for _ in range(COUNT):
        sides, angles = sizes(draw)
        request = [f"side_{name}={value!r}mm" for name, value in sides.items()]
        request += [f"angle_{name}={value!r}deg" for name, value in angles.items()]
        exact = [{name: mp.mpf(value) for name, value in given.items()} for given in (sides, angles)]
        found = solve(*exact)
        # How much more than the sizes the answer can move: by a change of each size by a millionth of itself.
        worst = mp.mpf(1)
        step = mp.mpf(10) ** -20
        for given, name in [(0, name) for name in sides] + [(1, name) for name in angles]:
            moved = [dict(part) for part in exact]
            moved[given][name] *= 1 + step
            for one, other in zip(found, solve(*moved)):
                worst = max([worst] + [abs(other[key] / one[key] - 1) / step for key in one])
        for one in found:
            values = [mp.nstr(one[f"{kind}_{name}"], 17) for kind in ("side", "angle") for name in NAMES]
            lines.append(",".join(["&".join(request), str(len(found)), *values, mp.nstr(one["area"], 17), mp.nstr(worst, 3)]))
    OUT.write_text("\n".join(lines) + "\n", encoding="utf-8")


if __name__ == "__main__":
    main()
