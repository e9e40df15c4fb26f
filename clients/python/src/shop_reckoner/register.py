"""The register: which calculators there are, with their fields and results."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class Field:
    """A field or a result: its name, what a person calls it, and what it is."""

    name: str
    label: str
    about: str
    required: bool = False
    example: str = ""
    form: str = ""
    units: tuple[str, ...] = ()
    choices: tuple[str, ...] = ()


@dataclass(frozen=True)
class Calculator:
    """A calculator of the register."""

    id: str
    title: str
    about: str
    task: str
    fields: tuple[Field, ...]
    results: tuple[Field, ...]
    examples: tuple[Mapping[str, Any], ...]


def calculators(document: Mapping[str, Any]) -> dict[str, Calculator]:
    """The register from the service's list."""
    return {item["id"]: calculator(item) for item in document["calculators"]}


def calculator(item: Mapping[str, Any]) -> Calculator:
    """One of them."""
    return Calculator(
        id=item["id"],
        title=item["title"],
        about=item["about"],
        task=item["task"],
        fields=tuple(map(one_field, item["fields"])),
        results=tuple(map(one_field, item["results"])),
        examples=tuple(example["inputs"] for example in item["examples"]),
    )


def one_field(item: Mapping[str, Any]) -> Field:
    """A field or result of it."""
    return Field(
        name=item["name"],
        label=item["label"],
        about=item["about"],
        required=item.get("required", False),
        example=item.get("example", ""),
        form=item.get("form", ""),
        units=tuple(item.get("units", ())),
        choices=tuple(item.get("choices", ())),
    )
