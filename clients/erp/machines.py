"""What the rates say of a machine beside the shop's file: read, checked, and what overrides what."""

import re

import operations
from operations import Wrong

# What makes a machine of the rates one: without a limit of its speed any speed would be priced.
LIMITS = ("available", "fastest")
# What changes nothing on a spindle whose power is not known.
OF_POWER = ("base_speed", "efficiency")


class Unusable(Exception):
    """A file that cannot be worked from at all."""


def fields(given, where):
    """The fields of a machine as text by name; what a line states is not the machine's to state."""
    if not isinstance(given, dict) or not all(isinstance(value, str) and value for value in given.values()):
        raise Unusable(f'{where}: these are texts with their unit, such as {{ fastest = "900 rpm" }}')
    for name in given:
        if name in operations.OF_A_LINE:
            raise Unusable(f"{where}.{name}: it belongs to a line of the order list, not to a machine")
        if name in ("machine", "spindle_speed"):
            raise Unusable(f"{where}.{name}: it would set every line's; leave it out")
    return given


def undescribed(cells, machine):
    """What is wrong with a machine that is in no file: nothing bounds its speed."""
    if machine["in_shop_file"] or not operations.OPERATIONS[cells["operation"]].spindle:
        return []
    if any(name in machine["fields"] for name in LIMITS):
        return []
    says = f"The rates say neither which speeds {cells['machine']} has nor its fastest speed."
    return [Wrong("machine", "machine_undescribed", says, 'fields = { available = "280 rpm,450 rpm,710 rpm" }')]


def warnings(rated, shop, asks):
    """Sentences on what the rates and the shop's file make of each other. `shop` has the fields of the shop's machines
    by name, `asks` those that each calculator asks for. A field that no calculator has is refused."""
    known = set().union(*(asks.get(operation.calculator, ()) for operation in operations.OPERATIONS.values()))
    found = []
    for name, machine in rated.items():
        own, there = machine["fields"], shop.get(name, {})
        for field in own:
            if field not in known:
                raise Unusable(f"machines.{name}.fields.{field}: no calculator asked here has such a field")
        if not machine["in_shop_file"]:
            if there:
                found.append(f"machines.{name}: the shop's file has {name} too; in_shop_file = false leaves it unused")
            there = {}
        found += [f"machines.{name}: {words}" for words in of_one(own, there)]
    return found


def of_one(own, there):
    """What is worth knowing of one machine."""
    for field, value in own.items():
        if field in there and there[field] != value:
            yield f"{field} = {value} goes before the shop's file, which says {there[field]}"
    both = there | own
    steps = [rpm(step) for step in both.get("available", "").split(",") if rpm(step) is not None]
    slowest, fastest = rpm(both.get("slowest", "")), rpm(both.get("fastest", ""))
    beyond = [
        step for step in steps if (slowest is not None and step < slowest) or (fastest is not None and step > fastest)
    ]
    if beyond:
        by = ", ".join(f"{field} = {both[field]}" for field in ("slowest", "fastest") if field in both)
        what = "every speed of the machine" if beyond == steps else ", ".join(f"{step:g} rpm" for step in beyond)
        yield f"{by} leaves out {what}"
    if both and "spindle_power" not in both:
        idle = [field for field in OF_POWER if field in both]
        told = f"; {' and '.join(idle)} changes nothing" if idle else ""
        yield f"spindle_power is not known, so a cut that would stall the machine is not found out{told}"


def rpm(text):
    """The number of a speed such as `900 rpm`, or nothing."""
    found = re.fullmatch(r"\s*(\d+(?:\.\d+)?)\s*rpm\s*", text)
    return float(found[1]) if found else None
