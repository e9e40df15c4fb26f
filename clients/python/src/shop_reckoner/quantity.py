"""Quantities: what the service sends, what it takes, and pint's."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Quantity:
    """A value with its unit. `text` is how the service writes it, rounded as a shop would.

    `least` and `greatest` are there where the inputs had tolerances.
    """

    value: float
    unit: str
    text: str = ""
    least: float | None = None
    greatest: float | None = None

    def __str__(self) -> str:
        return self.text or f"{self.value!r} {self.unit}"

    def __float__(self) -> float:
        return self.value

    def to_pint(self, registry: Any = None) -> Any:
        """The same as a quantity of pint, in its own registry or in `registry`."""
        if registry is None:
            import pint

            registry = pint.application_registry
        return registry.Quantity(self.value, FOR_PINT.get(self.unit, self.unit))


#: Units that pint calls otherwise.
FOR_PINT = {"µin": "microinch", "in/tooth": "in", "mm/tooth": "mm", "in/rev": "in/turn", "mm/rev": "mm/turn"}

#: Units that the service calls otherwise than pint's short form.
FROM_PINT = {"th": "thou", "in/turn": "in/rev", "mm/turn": "mm/rev", "%": "percent", "°": "deg"}


def sent(value: Any) -> Any:
    """A field's value as JSON: texts, numbers, lists and rows as they are, quantities as value and unit."""
    if isinstance(value, Quantity):
        return {"value": value.value, "unit": value.unit}
    if isinstance(value, Mapping):
        return {name: sent(item) for name, item in value.items()}
    if isinstance(value, Sequence) and not isinstance(value, (str, bytes)):
        return [sent(item) for item in value]
    if hasattr(value, "magnitude") and hasattr(value, "units"):
        unit = f"{value.units:~P}"
        return {"value": float(value.magnitude), "unit": FROM_PINT.get(unit, unit)}
    return value


def received(tree: Any) -> Any:
    """A part of an answer with its quantities read; everything else stays as JSON has it."""
    if isinstance(tree, Mapping):
        if "value" in tree and "unit" in tree:
            least, greatest = (read_end(tree.get(end)) for end in ("least", "greatest"))
            return Quantity(float(tree["value"]), str(tree["unit"]), str(tree.get("text", "")), least, greatest)
        return {name: received(item) for name, item in tree.items()}
    if isinstance(tree, list):
        return [received(item) for item in tree]
    return tree


def read_end(end: Any) -> float | None:
    """One end of a tolerance: a number, or a quantity in the unit of the value."""
    if isinstance(end, Mapping):
        end = end.get("value")
    return None if end is None else float(end)
