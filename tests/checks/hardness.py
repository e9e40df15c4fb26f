"""Hardness: numpy's linear interpolation between rows of a table typed here, to the digits that the table prints."""

import numpy as np

from common import Rows, fields, mp, show

# Neighboring rows: value asked on, value wanted.
E140, J417, ISO = "ASTM E140 table 1", "SAE J417, Brinell steps", "ISO 18265 table A.1"
CASES = [
    ("rockwell_c=45.5&units=metric", E140, "vickers", [(45, 446), (46, 458)], 1),
    ("rockwell_c=45.5&units=metric", E140, "brinell", [(45, 421), (46, 432)], 1),
    ("rockwell_c=43&units=metric", E140, "vickers", [(42, 412), (44, 434)], 1),
    ("rockwell_c=61.5&units=metric", E140, "vickers", [(61, 720), (62, 746)], 1),
    ("brinell=310&units=metric", J417, "rockwell_c", [(302, 32.1), (311, 33.1)], 10),
    ("vickers=305&units=metric", ISO, "rockwell_c", [(300, 29.8), (310, 31.0)], 10),
    ("vickers=305&units=metric", ISO, "brinell", [(300, 285), (310, 295)], 1),
]


def rows():
    """Every library row of this calculator."""
    out = Rows("measure/hardness", "hardness", "numpy")
    for inputs, table, wanted, pairs, digits in CASES:
        asked = float(next(iter(fields(inputs).values())))
        is_ = np.interp(asked, [pair[0] for pair in pairs], [pair[1] for pair in pairs])
        rounded = np.floor(is_ * digits + 0.5) / digits
        out.value(inputs, f"/by_table[table={table}]/{wanted}", mp.mpf(str(rounded)), "")
    return out.rows


if __name__ == "__main__":
    show(rows())
