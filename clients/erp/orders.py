"""The order list and the rates: read, checked, and each line given a key that changes when its price could."""

import csv
import hashlib
import json
import re
import tomllib
from dataclasses import dataclass
from decimal import Decimal, InvalidOperation

import machines
import operations
from machines import Unusable
from operations import Wrong

NAMES = ["order", "line", "part", "operation", "pieces", "per_piece", "machine", "material", "tool"]
COLUMNS = [*NAMES, *operations.SIZES, "remark"]
NEEDED = ["order", "line", "operation", "pieces", "machine"]
# What is counted or paid for a machine, and what stands for it where it is not given.
AMOUNTS = {"per_hour": None, "setup_minutes": "0", "minutes_per_piece": "0", "minutes_per_cut": "0"}
# A line's key has this in it, so that a way of reckoning that changed prices anew.
RECKONING = 2


@dataclass
class Line:
    """One line of the order list: its place there, its cells, and a key that is its own."""

    number: int
    cells: dict
    key: str
    pieces: int = 0
    per_piece: int = 1
    wrongs: tuple = ()

    @property
    def name(self):
        return self.cells["order"], self.cells["line"]


def read_rates(path):
    """What an hour of each machine costs, and what comes on top of cutting."""
    try:
        rates = tomllib.loads(path.read_text(encoding="utf-8-sig"), parse_float=Decimal)
    except (OSError, UnicodeDecodeError, tomllib.TOMLDecodeError) as error:
        raise Unusable(f"{path}: {error}") from error
    rated = rates.get("machines")
    if not isinstance(rates.get("currency"), str) or not isinstance(rated, dict) or not rated:
        raise Unusable(f"{path}: it needs currency and at least one [machines.NAME]")
    known = {"currency": None, "machines": None, "least_charge": "0", "approach": "0 mm"}
    for key in rates:
        if key not in known:
            raise Unusable(f"{path}: {key} is not known; there are {', '.join(known)}")
    for name, machine in rated.items():
        own = AMOUNTS | {"fields": {}, "in_shop_file": True}
        for key in machine:
            if key not in own:
                raise Unusable(f"{path}: machines.{name}.{key} is not known; there are {', '.join(own)}")
        for key in AMOUNTS:
            machine[key] = amount(machine.get(key, own[key]), f"{path}: machines.{name}.{key}")
        machine["fields"] = machines.fields(machine.get("fields", {}), f"{path}: machines.{name}.fields")
        if not isinstance(machine.setdefault("in_shop_file", True), bool):
            raise Unusable(f"{path}: machines.{name}.in_shop_file: it must be true or false")
    rates["least_charge"] = amount(rates.get("least_charge", "0"), f"{path}: least_charge")
    rates.setdefault("approach", "0 mm")
    return rates


def amount(value, where):
    """A number of minutes or money that is not below zero."""
    try:
        number = Decimal(str(value))
    except InvalidOperation:
        number = Decimal(-1)
    if not number.is_finite() or number < 0:
        raise Unusable(f"{where}: it must be a number, 0 or more, such as 42.50")
    return number


def read_orders(path, separator, rates):
    """The lines of the list in its order, the wrong ones with what is wrong with them."""
    try:
        with path.open(newline="", encoding="utf-8-sig") as file:
            reader = csv.DictReader(file, delimiter=separator, strict=True)
            head = [name.strip() for name in reader.fieldnames or []]
            check_head(path, head)
            reader.fieldnames = head
            rows = [row for row in reader if any(cell for cell in row.values())]
    except (OSError, UnicodeDecodeError, csv.Error) as error:
        raise Unusable(f"{path}: {error}") from error
    lines = [line_of(number, row, rates) for number, row in enumerate(rows, start=1)]
    seen = {}
    for line in lines:
        seen.setdefault(line.name, []).append(line)
    for name, same in seen.items():
        if len(same) > 1:
            says = f"Line {name[1]} of order {name[0]} is there {len(same)} times: which is meant?"
            for line in same:
                line.wrongs += (Wrong("line", "line_repeated", says, "one number a line"),)
    return lines


def check_head(path, head):
    """A column that nobody reads would change no price, so it is refused, as is a missing one."""
    for name in head:
        if name not in COLUMNS:
            raise Unusable(f"{path}: there is no column {name!r}; there are {', '.join(COLUMNS)}")
        if head.count(name) > 1:
            raise Unusable(f"{path}: the column {name} is there twice")
    for name in NEEDED:
        if name not in head:
            raise Unusable(f"{path}: the column {name} is missing")


def line_of(number, row, rates):
    """One row as a line."""
    extra = row.pop(None, None)
    cells = {name: (row.get(name) or "").strip() for name in COLUMNS}
    machine = rates["machines"].get(cells["machine"])
    # A remark changes no price.
    said = {name: cell for name, cell in cells.items() if cell and name != "remark"}
    priced_by = {
        "machine": machine,
        "least_charge": rates["least_charge"],
        "approach": rates["approach"],
        "currency": rates["currency"],
    }
    whole = json.dumps([RECKONING, said, priced_by], sort_keys=True, default=str)
    line = Line(number, cells, hashlib.sha256(whole.encode()).hexdigest()[:24])
    wrongs = []
    if extra or None in row.values():
        says = "The row has more or fewer cells than the head."
        wrongs.append(Wrong("line", "cells_do_not_fit", says, "one cell a column"))
    for name in ("order", "line"):
        if not cells[name]:
            wrongs.append(Wrong(name, "field_missing", f"{name} is needed: answers are known by it.", "1"))
    line.pieces = count(cells, "pieces", wrongs)
    line.per_piece = count(cells, "per_piece", wrongs) if cells["per_piece"] else 1
    if machine is None:
        says = f"There are no rates for a machine {cells['machine']!r}."
        wrongs.append(Wrong("machine", "machine_unknown", says, " or ".join(rates["machines"])))
    found = operations.wrongs(cells)
    wrongs += found or (machines.undescribed(cells, machine) if machine else [])
    line.wrongs = tuple(wrongs)
    return line


def count(cells, name, wrongs):
    """A whole number above zero."""
    if re.fullmatch(r"[1-9][0-9]{0,6}", cells[name]):
        return int(cells[name])
    wrongs.append(Wrong(name, "count_unreadable", f"{cells[name]!r} is no count of 1 to 9999999.", "1"))
    return 0
