"""Makes the library rows again and holds them against data/checks; fails if one differs.

With --write the library rows of data/checks are replaced by the new ones and
all other rows are kept as they stand.
"""

import csv
import importlib
import sys
from pathlib import Path

from common import COLUMNS, as_csv

CHECKS = Path(__file__).resolve().parents[2] / "data" / "checks"
CALCULATORS = [
    "spindle_speed",
    "milling",
    "drilling",
    "reaming",
    "countersinking",
    "tapping",
    "turning",
    "boring",
    "facing",
    "sawing",
    "hand_feed",
    "as_run",
    "power",
    "tool_life",
    "surface_finish",
    "ball_nose",
    "entry",
    "cutting_time",
    "drill_point",
    "drill_size",
    "tap_drill",
    "fits_limits",
    "fits_running",
    "fits_press",
    "fits_find",
    "clearance",
    "counterbore",
    "countersink",
    "tapped_blind",
    "spot_drill",
    "pecks",
    "bore_steps",
    "centre_drill",
    "inserts",
    "ream_to_size",
    "bolt_circle",
    "arc",
    "triangle",
    "polygon",
    "flat_on_round",
    "keyseat",
    "taper",
    "sine_bar",
    "gauge_blocks",
    "compound_angle",
    "compound_feed",
    "circle_through",
    "fillet",
    "tangent_lines",
    "pitch_arc",
    "in_line",
    "rectangular",
    "triangular_pitch",
    "around_rectangle",
    "rotary_table",
    "v_block",
    "dovetail",
    "rolls_and_balls",
    "dividing_head",
    "spur_gear",
    "thread",
    "wires",
    "plated",
    "change_gears",
    "threading_dial",
    "identify",
    "rescue",
    "single_point",
    "tap_limit",
    "thread_milling",
    "touch_off",
    "between_faces",
    "bore_or_boss",
    "corner",
    "edge_angle",
    "turn_and_shift",
    "indicate",
    "tram",
    "tool_setting",
    "lathe_touch_off",
    "move_list",
    "visit_order",
    "wall_stops",
    "handwheel",
    "stepped_profile",
    "mass",
    "cut_list",
    "position_error",
    "general_tolerance",
    "gauge_makers",
    "at_temperature",
    "likely_size",
    "surface_grade",
    "hardness",
]


def committed(path):
    """The rows of one file of check values."""
    with path.open(newline="", encoding="utf-8") as file:
        reader = csv.DictReader(file)
        if reader.fieldnames != COLUMNS:
            sys.exit(f"{path.name}: columns are {reader.fieldnames}, wanted {COLUMNS}")
        return list(reader)


def differences(name, write):
    """How many library rows of one calculator differ from the ones made now."""
    path = CHECKS / f"{name}.csv"
    made = importlib.import_module(name).rows()
    kept = committed(path) if path.exists() else []
    if write:
        others = [row for row in kept if row["kind"] != "library"]
        path.write_text(as_csv(others + made), encoding="utf-8")
        print(f"{name}: {len(made)} library rows written, {len(others)} others kept")
        return 0
    stored = {tuple(row.values()) for row in kept if row["kind"] == "library"}
    fresh = {tuple(row.values()) for row in made}
    if not fresh or len(fresh) != len(made):
        sys.exit(f"{name}: the script made {len(made)} rows, {len(fresh)} of them different")
    for mark, rows in (("-", stored - fresh), ("+", fresh - stored)):
        for row in sorted(rows):
            print(f"{name} {mark} {', '.join(row)}")
    print(f"{name}: {len(fresh)} library rows made, {len(stored ^ fresh)} differ")
    return len(stored ^ fresh)


def main():
    """Compare, or write with --write."""
    write = sys.argv[1:] == ["--write"]
    if sys.argv[1:] and not write:
        sys.exit("usage: compare.py [--write]")
    if sum(differences(name, write) for name in CALCULATORS):
        sys.exit("library rows differ: see above; --write replaces the committed ones")


if __name__ == "__main__":
    main()
