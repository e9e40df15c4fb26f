"""Surface grades: Ra halves from grade to grade, from 50 µm at N12, rounded as the preferred numbers are; microinches by pint."""

import numpy as np

from common import Rows, convert, fields, mp, quantity, show

RA = ["0.025", "0.05", "0.1", "0.2", "0.4", "0.8", "1.6", "3.2", "6.3", "12.5", "25", "50"]
GRADES = ["grade=N5&units=metric", "grade=N9&units=metric", "grade=N12&units=metric"]
VALUES = ["ra=2 um&units=metric", "ra=4.8 um&units=metric", "ra=60 uin&units=metric", "ra=0.5 um&units=metric"]


def rows():
    """Every library row of this calculator."""
    out = Rows("measure/surface-grade", "surface_grade", "numpy")
    for inputs in GRADES:
        out.value(inputs, "/ra", mp.mpf(RA[int(fields(inputs)["grade"][1:]) - 1]), "um")
    logs = np.log([float(ra) for ra in RA])
    for inputs in VALUES:
        ra = quantity(fields(inputs)["ra"], "um")
        at = int(np.argmin(np.abs(logs - float(mp.log(ra)))))
        out.text(inputs, "/grade", f"N{at + 1}")
        out.value(inputs, "/rougher_by", (ra / mp.mpf(RA[at]) - 1) * 100, "percent", scale=mp.mpf(100))
    return out.rows


if __name__ == "__main__":
    show(rows())
