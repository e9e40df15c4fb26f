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


def drill_time(speed):
    """The point goes farther than the depth at full diameter; the service adds it."""
    # A drill may be named in the list; a time is asked with the diameter that the name stands for.
    return {"length": "depth"}, {"operation": "drilling", "diameter": speed["diameter"]}


def tap_time(_):
    """In and out along a straight way at the same feed: two passes, as of a turning tool."""
    return {"length": "depth"}, {"operation": "turning", "passes": 2}


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
)


def wrongs(cells):
    """What a line lacks, and what it has that its operation would not look at."""
    name = cells["operation"]
    operation = OPERATIONS.get(name)
    if operation is None:
        return [Wrong("operation", "operation_unknown", f"There is no operation {name!r}.", ", ".join(OPERATIONS))]
    empty = [column for column in operation.needs if not cells[column]]
    found = [Wrong(column, "field_missing", f"{name} needs {column}.") for column in empty]
    for column in SIZES:
        if cells[column] and column not in operation.needs + operation.may:
            says = f"{name} does not look at {column}: does the line mean something else?"
            found.append(Wrong(column, "field_unused", says, "leave empty"))
    return found


def about_speed(cells, machine):
    """The question about speed and feed."""
    operation = OPERATIONS[cells["operation"]]
    # A machine is known to the service by the shop's file, or described by the rates.
    by = machine["fields"] or {"machine": cells["machine"]}
    return Asked(operation.calculator, operation.columns, dict(operation.others) | by)


def about_time(cells, speed, approach):
    """The question about time at the feed that was answered."""
    columns, others = OPERATIONS[cells["operation"]].time(speed)
    return Asked("speeds/cutting-time", columns, others | {"feed_rate": speed["feed_rate"], "approach": approach})
