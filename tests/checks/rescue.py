"""Spoiled threads: share of thread, what the drill clears by and the wall that is left.

Drills are typed in by the diameters that their tables print; the triangle of the
thread is drawn and cut at the drill's radius instead of using a factor.
"""

from common import Rows, convert, fields, mp, quantity, show

# Inputs, unit, old diameter, thread, its major diameter and pitch, the drill, its diameter and unit.
CASES = [
    ("thread=1/4-20 UNC&thread_percent=75 percent&families=unified&systems=letter&edge_distance=0.4 in&least_wall=0.2 in", "in",
     "0.25", "5/16-18 UNC", "0.3125", mp.mpf(1) / 18, "F", "0.257", "in"),
    ("thread=5/16-18 UNC&thread_percent=75 percent&families=unified&systems=fraction&edge_distance=0.5 in&least_wall=0.2 in", "in",
     "0.3125", "7/16-14 UNC", "0.4375", mp.mpf(1) / 14, "3/8", "0.375", "in"),
    ("hole_diameter=8.3 mm&thread_percent=75 percent&families=metric&systems=metric&edge_distance=9 mm&least_wall=5 mm", "mm",
     "8.3", "M10", "10", mp.mpf("1.5"), "8.5 mm", "8.5", "mm"),
    ("thread=M6&thread_percent=75 percent&families=metric&systems=metric&edge_distance=12 mm&least_wall=5 mm", "mm",
     "6", "M8", "8", mp.mpf("1.25"), "6.8 mm", "6.8", "mm"),
    # The next sizes of the trade: the drill is as large as the old thread, or the one of the charts.
    ("thread=3/8-16 UNC&families=unified&edge_distance=0.5 in&least_wall=0.2 in", "in",
     "0.375", "7/16-14 UNC", "0.4375", mp.mpf(1) / 14, "3/8", "0.375", "in"),
    ("thread=1/2-13 UNC&edge_distance=0.6 in&least_wall=0.3 in", "in",
     "0.5", "5/8-11 UNC", "0.625", mp.mpf(1) / 11, "17/32", "0.53125", "in"),
]


def share(major, pitch, drill):
    """How much of a thread's height is left: three quarters of the sharp triangle's height on each side are all of it."""
    apex = pitch / 2 * mp.cot(mp.pi / 6)
    return (major - drill) / 2 / (apex * 3 / 4)


def rows():
    """Every library row of this calculator."""
    out = Rows("threads/rescue", "rescue", "mpmath")
    for inputs, unit, old, thread, major, pitch, name, drill, drill_unit in CASES:
        said = fields(inputs)
        inputs = f"{inputs}&units={'inch' if unit == 'in' else 'metric'}"
        major, drill = mp.mpf(major), convert(mp.mpf(drill), drill_unit, unit)
        row = f"/candidates[thread={thread}]"
        wall = quantity(said["edge_distance"], unit) - major / 2
        out.text(inputs, f"{row}/drill", name)
        out.value(inputs, f"{row}/thread_percent", 100 * share(major, pitch, drill), "percent", scale=mp.mpf(1000))
        out.value(inputs, f"{row}/clears_by", drill - mp.mpf(old), unit, scale=drill)
        out.value(inputs, f"{row}/wall_left", wall, unit, scale=major)
        out.text(inputs, f"{row}/wall_enough", "true" if wall >= quantity(said["least_wall"], unit) else "false")
    return out.rows


if __name__ == "__main__":
    show(rows())
