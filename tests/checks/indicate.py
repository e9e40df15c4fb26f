"""Indicate: a wave of one swing a turn fitted to the four readings by least squares."""

from common import Rows, convert, fields, mp, number, quantity, show

CASES = [
    "reading_0=0.006 in&reading_90=0.001 in&reading_180=-0.006 in&reading_270=-0.001 in&feature=bore&turning=spindle&lever_angle=15 deg&units=inch",
    "reading_0=0.006 in&reading_90=0.001 in&reading_180=-0.006 in&reading_270=-0.001 in&feature=boss&turning=spindle&units=inch",
    "reading_0=0.22 mm&reading_90=0.05 mm&reading_180=0.02 mm&reading_270=0.17 mm&turning=chuck&units=metric",
    "reading_0=0.22 mm&reading_90=0.05 mm&reading_180=0.02 mm&reading_270=0.17 mm&turning=chuck&feature=bore&lever_angle=30 deg&units=metric",
    "reading_0=0 mm&reading_90=-0.08 mm&reading_180=0.031 mm&reading_270=0.1 mm&lever_angle=12.5 deg&units=metric",
]


def rows():
    """Every library row of this calculator."""
    out = Rows("datum/indicate", "indicate", "mpmath")
    for inputs in CASES:
        given = fields(inputs)
        unit = "in" if given["units"] == "inch" else "mm"
        shrink = mp.cospi(number(given.get("lever_angle", "0 deg").split(" ")[0]) / 180)
        readings = [quantity(given[f"reading_{at}"], "mm") * shrink for at in (0, 90, 180, 270)]
        waves = mp.matrix([[1, mp.cospi(mp.mpf(n) / 2), mp.sinpi(mp.mpf(n) / 2)] for n in range(4)])
        _, x, y = mp.lu_solve(waves, mp.matrix(readings))
        # The wall pressed hardest is nearest in a bore, farthest out on a boss; the spindle goes to
        # the centre of the work, the work in a chuck to the axis of the spindle.
        turning = given.get("turning", "spindle")
        feature = given.get("feature", "bore" if turning == "spindle" else "boss")
        centre = mp.matrix([x, y]) * (-1 if feature == "bore" else 1)
        move = centre if turning == "spindle" else -centre
        scale = convert(max(abs(reading) for reading in readings), "mm", unit)
        second = sum(reading * (-1) ** n for n, reading in enumerate(readings)) / 2
        for field, value in (
            ("move/x", move[0]),
            ("move/y", move[1]),
            ("eccentricity", mp.norm(centre)),
            ("runout", max(readings) - min(readings)),
            ("out_of_round", abs(second)),
        ):
            out.value(inputs, f"/{field}", convert(value, "mm", unit), unit, scale=scale)
    return out.rows


if __name__ == "__main__":
    show(rows())
