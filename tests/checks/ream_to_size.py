"""Reamed holes: limits of a reamer by the rule, in whole micrometers, from grades typed here; stock as a difference."""

from math import ceil

from common import Rows, fields, mp, quantity, show

# Greatest deviation and width of the class at the size, in micrometers, as ISO 286 prints them.
CLASSES = {("12 mm", "H7"): (18, 18), ("12 mm", "H8"): (27, 27), ("25 mm", "H7"): (21, 21), ("40 mm", "F8"): (64, 39)}

# Least and most stock of the charts, in the unit of the chart.
STOCK = {("10 mm", "machine"): ("0.01 in", "0.016 in"), ("1/2 in", "machine"): ("0.01 in", "0.016 in"),
         ("16 mm", "hand"): ("0.2 mm", "0.3 mm"), ("5 mm", "hand"): ("0.1 mm", "0.2 mm")}


def rows():
    """Every library row of this calculator."""
    out = Rows("holes/reaming", "ream_to_size", "mpmath")
    for (size, name), (upper, width) in CLASSES.items():
        inputs = f"diameter={size}&hole_class={name}&from=tables&units=metric"
        # Sixty-five and thirty-five hundredths, with whole numbers alone.
        greatest = upper - ceil(15 * width / 100)
        least = greatest - ceil(35 * width / 100)
        at = lambda micrometers: quantity(size, "mm") + mp.mpf(micrometers) / 1000
        out.value(inputs, "/hole/greatest", at(upper), "mm")
        out.value(inputs, "/hole/least", at(upper - width), "mm")
        out.value(inputs, "/new_reamer/greatest", at(greatest), "mm")
        out.value(inputs, "/new_reamer/least", at(least), "mm")
    for (size, kind), (low, high) in STOCK.items():
        units = "inch" if size.endswith("in") else "metric"
        unit = "in" if units == "inch" else "mm"
        inputs = f"diameter={size}&reamer={kind}&from=tables&units={units}"
        out.value(inputs, "/drill_low", quantity(size, unit) - quantity(high, unit), unit, scale=quantity(size, unit))
        out.value(inputs, "/drill_high", quantity(size, unit) - quantity(low, unit), unit, scale=quantity(size, unit))
    return out.rows


if __name__ == "__main__":
    show(rows())
