"""Boring to size, turned on division by division with exact fractions."""

from fractions import Fraction

from common import Rows, fields, mp, show

CASES = [
    "now=1 in&target=1.25 in&depth_of_cut=0.04 in&finish=0.01 in&division=0.001 in&head_counts=diameter&units=inch",
    "now=1 in&target=1.2505 in&depth_of_cut=0.03 in&finish=0.01 in&division=0.001 in&head_counts=radius&units=inch",
    "now=39.77 mm&target=40 mm&depth_of_cut=0.5 mm&finish=0.2 mm&set_for=39.8 mm&division=0.01 mm&head_counts=radius&units=metric",
    "now=20 mm&target=28 mm&depth_of_cut=0.8 mm&finish=0.4 mm&units=metric",
    "now=20 mm&target=20.1 mm&depth_of_cut=0.8 mm&finish=0.4 mm&units=metric",
]


def exact(text):
    """The number of a stated quantity."""
    return Fraction(text.split(" ")[0])


def bored(given):
    """The bore after each cut, and the divisions of each."""
    bore, target = exact(given["now"]), exact(given["target"])
    most, finish = 2 * exact(given["depth_of_cut"]), exact(given["finish"])
    growth = exact(given["division"]) * (2 if given["head_counts"] == "radius" else 1) if "division" in given else None
    cuts = []
    while True:
        room = target - finish - bore
        step = min(most, room) if growth is None else growth * min(most // growth, room // growth)
        if step <= 0:
            break
        # Less than the last cut takes is left to it, unless it would be too deep then.
        if step < finish and target - bore <= most:
            break
        bore += step
        cuts.append((bore, growth and step / growth))
    step = target - bore if growth is None else growth * ((target - bore) // growth)
    cuts.append((bore + step, growth and step / growth))
    return cuts


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/bore-steps", "bore_steps", "mpmath")
    number = lambda value: mp.mpf(value.numerator) / value.denominator
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        cuts = bored(given)
        target = number(exact(given["target"]))
        out.count(inputs, "/count", len(cuts))
        out.value(inputs, "/stock", target - number(exact(given["now"])), unit, scale=target)
        for at, (bore, divisions) in enumerate(cuts):
            out.value(inputs, f"/cuts/{at}/diameter", number(bore), unit)
            if divisions is not None:
                out.count(inputs, f"/cuts/{at}/divisions", int(divisions))
        if "division" in given:
            out.value(inputs, "/left_over", number(exact(given["target"]) - cuts[-1][0]), unit, scale=target)
        if "set_for" in given:
            smaller = exact(given["set_for"]) - exact(given["now"])
            out.value(inputs, "/came_out_smaller", number(smaller), unit, scale=target)
    return out.rows


if __name__ == "__main__":
    show(rows())
