"""What is asked of the service for each operation: first its speed and feed, then its time.

A question's fields come from columns of the order list, by a map that also leads a refused field back to its
column; what else is asked stands beside the map.
"""

from dataclasses import dataclass


@dataclass(frozen=True)
class Wrong:
    """One thing wrong with one line: by which column, what, and what to write instead."""

    column: str
    code: str
    says: str
    try_this: str = ""


@dataclass(frozen=True)
class Asked:
    """One question: the fields that columns give, and the others."""

    calculator: str
    columns: dict
    others: dict

    def question(self, cells):
        """The question as the service takes it; an empty column is not asked."""
        given = {field: cells[column] for field, column in self.columns.items() if cells[column]}
        return {"calculator": self.calculator, "inputs": given | self.others}


@dataclass(frozen=True)
class Operation:
    """How an operation is asked about, the columns that a line must fill for it, and those that it may."""

    calculator: str
    columns: dict
    needs: tuple
    time: object
    others: tuple = ()
    may: tuple = ()
    # A saw has a band and no spindle.
    spindle: bool = True


def drill_time(speed):
    """The point goes farther than the depth at full diameter; the service adds it."""
    # A drill may be named in the list; a time is asked with the diameter that the name stands for.
    return {"length": "depth"}, {"operation": "drilling", "diameter": speed["diameter"]}


def tap_time(_):
    """In and out along a straight way at the same feed: two passes, as of a turning tool."""
    return {"length": "depth"}, {"operation": "turning", "passes": 2}


def turn_time(_):
    """The tool goes straight along the work."""
    return {"length": "length", "passes": "passes"}, {"operation": "turning"}


def face_turn_time(speed):
    """From the outer diameter to the inner one; the way is what the service's own time and feed come to."""
    return {"passes": "passes"}, {"operation": "turning", "length": speed["way"]}


def straight_time(_):
    """A reamer or a band goes as far as the depth says, and stops there."""
    return {"length": "depth"}, {"operation": "turning"}


def side_time(speed):
    """Up to half the cutter's width the rim comes in as a slab mill's does; beyond it the whole front goes in
    first, as in a slot. A quarter turn in the cut is the half of the width."""
    if speed["engagement_degrees"] > 90:
        return slot_time(speed)
    return WAY | {"depth_of_cut": "radial_depth"}, {"operation": "slab_milling"}


def slot_time(_):
    return WAY | {"width": "diameter"}, {"operation": "face_milling"}


def face_time(_):
    """To finish a face the cutter goes clear of it."""
    return WAY | {"width": "radial_depth"}, {"operation": "face_milling", "clear_out": "clear"}


TOOLED = {"material": "material", "tool_material": "tool", "cutting_speed": "cutting_speed"}
WAY = {"length": "length", "diameter": "diameter", "passes": "passes"}
MILLED = TOOLED | {name: name for name in ("diameter", "teeth", "axial_depth", "feed_per_tooth")}
SIDE = MILLED | {"radial_depth": "radial_depth"}
DRILLED = TOOLED | {name: name for name in ("diameter", "depth", "feed_per_rev")}
# Boring is asked for what turning is; a turning tool's `cut` is rough or finish, a facing tool's facing or parting.
BORED = TOOLED | {name: name for name in ("diameter", "depth_of_cut", "feed_per_rev")}
TURNED = BORED | {"cut": "cut"}
FACED = {name: column for name, column in TURNED.items() if name != "diameter"}
FACED |= {"outer_diameter": "diameter", "inner_diameter": "inner_diameter"}
REAMED = TOOLED | {name: name for name in ("diameter", "feed_per_rev")}
SAWN = {name: name for name in ("material", "section", "tooth_pitch", "cutting_speed", "feed_per_tooth")}
ON_THE_LATHE = ("material", "tool", "diameter", "depth_of_cut")
MILLING = ("material", "tool", "diameter", "teeth", "axial_depth", "length")
MAY_MILLED = ("passes", "cutting_speed", "feed_per_tooth")
OPERATIONS = {
    "drill": Operation(
        "speeds/drilling",
        DRILLED,
        ("material", "tool", "diameter", "depth"),
        drill_time,
        may=("cutting_speed", "feed_per_rev"),
    ),
    "tap": Operation(
        "speeds/tapping",
        TOOLED | {"thread": "thread"},
        ("material", "tool", "thread", "depth"),
        tap_time,
        may=("cutting_speed",),
    ),
    "mill_side": Operation("speeds/milling", SIDE, (*MILLING, "radial_depth"), side_time, may=MAY_MILLED),
    "mill_slot": Operation("speeds/milling", MILLED | {"radial_depth": "diameter"}, MILLING, slot_time, may=MAY_MILLED),
    # The middle of a face lies on the cutter's path.
    "mill_face": Operation(
        "speeds/milling", SIDE, (*MILLING, "radial_depth"), face_time, others=(("cut_offset", "0 mm"),), may=MAY_MILLED
    ),
}
OPERATIONS |= {
    "turn": Operation(
        "speeds/turning",
        TURNED,
        (*ON_THE_LATHE, "length"),
        turn_time,
        may=("passes", "cut", "cutting_speed", "feed_per_rev"),
    ),
    "bore": Operation(
        "speeds/boring",
        BORED,
        (*ON_THE_LATHE, "length"),
        turn_time,
        may=("passes", "cutting_speed", "feed_per_rev"),
    ),
    "face": Operation(
        "speeds/facing",
        FACED,
        ON_THE_LATHE,
        face_turn_time,
        may=("inner_diameter", "passes", "cut", "cutting_speed", "feed_per_rev"),
    ),
    "ream": Operation(
        "speeds/reaming",
        REAMED,
        ("material", "tool", "diameter", "depth"),
        straight_time,
        may=("cutting_speed", "feed_per_rev"),
    ),
    "saw": Operation(
        "speeds/sawing",
        SAWN,
        ("material", "section", "tooth_pitch", "depth"),
        straight_time,
        may=("cutting_speed", "feed_per_tooth"),
        spindle=False,
    ),
}
# Columns that belong to some operation and not to every one.
SIZES = (
    "diameter",
    "thread",
    "depth",
    "teeth",
    "radial_depth",
    "axial_depth",
    "length",
    "passes",
    "cutting_speed",
    "feed_per_rev",
    "feed_per_tooth",
    "depth_of_cut",
    "inner_diameter",
    "cut",
    "section",
    "tooth_pitch",
)
# What the columns of a line state, and a machine of the rates therefore cannot.
OF_A_LINE = {field for operation in OPERATIONS.values() for field in operation.columns}


def wrongs(cells):
    """What a line lacks, and what it has that its operation would not look at."""
    name = cells["operation"]
    operation = OPERATIONS.get(name)
    if operation is None:
        return [Wrong("operation", "operation_unknown", f"There is no operation {name!r}.", ", ".join(OPERATIONS))]
    empty = [column for column in operation.needs if not cells[column]]
    found = [Wrong(column, "field_missing", f"{name} needs {column}.") for column in empty]
    for column in ("tool", *SIZES):
        if cells[column] and column not in operation.needs + operation.may:
            says = f"{name} does not look at {column}: does the line mean something else?"
            found.append(Wrong(column, "field_unused", says, "leave empty"))
    return found


def about_speed(cells, machine, asks):
    """The question about speed and feed; `asks` has the fields that each calculator asks for."""
    operation = OPERATIONS[cells["operation"]]
    # The fields of the rates go beside the machine of the shop's file, whose speeds and power they leave alone.
    by = {"machine": cells["machine"]} if machine["in_shop_file"] else {}
    own = {name: value for name, value in machine["fields"].items() if name in asks[operation.calculator]}
    return Asked(operation.calculator, operation.columns, dict(operation.others) | by | own)


def about_time(cells, speed, approach):
    """The question about time at the feed that was answered."""
    columns, others = OPERATIONS[cells["operation"]].time(speed)
    return Asked("speeds/cutting-time", columns, others | {"feed_rate": speed["feed_rate"], "approach": approach})
