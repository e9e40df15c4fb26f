"""An answer: the result with its quantities, and all that belongs to it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Any

from .quantity import Quantity, received


@dataclass(frozen=True)
class Told:
    """Something said of a field or of the whole: what was assumed, a note, a caution."""

    says: str
    field: str | None = None
    value: Any = None
    code: str | None = None


@dataclass(frozen=True)
class Source:
    """Where numbers come from, where in it, and how far to trust them."""

    title: str
    where: str
    trust: str


@dataclass(frozen=True)
class Answer:
    """What a calculator answered. `answer["drill.diameter"]` reads a result by its path; `answer["positions.0.x"]`
    counts rows from 0. `rows` is there instead of a result where a field was a range, `roots` where the question went
    backwards."""

    calculator: str
    link: str
    result: dict[str, Any]
    rows: list[Any]
    roots: list[Any]
    assumed: tuple[Told, ...]
    notes: tuple[Told, ...]
    cautions: tuple[Told, ...]
    sources: tuple[Source, ...]
    trust: str
    version: str
    data_version: str
    document: Mapping[str, Any] = field(repr=False)

    def __getitem__(self, path: str) -> Any:
        part: Any = self.result
        for step in path.split("."):
            try:
                part = part[int(step)] if isinstance(part, list) else part[step]
            except (KeyError, IndexError, ValueError, TypeError):
                raise KeyError(self.lacks(path)) from None
        return part

    def __contains__(self, path: str) -> bool:
        try:
            self[path]
        except KeyError:
            return False
        return True

    def __iter__(self) -> Iterator[str]:
        return iter(self.result)

    def quantity(self, path: str) -> Quantity:
        """The quantity at a path; anything else there is a `TypeError`."""
        found = self[path]
        if not isinstance(found, Quantity):
            raise TypeError(f"{path} of {self.calculator} is {type(found).__name__} and no quantity")
        return found

    def lacks(self, path: str) -> str:
        """Why a path is not there, in the words of the service where it says so."""
        said = [note.says for note in self.notes if note.code == "left_out"]
        has = ", ".join(self.result) or "no result"
        return " ".join([f"{self.calculator} did not give {path}; it gave {has}.", *said])


def told(document: Mapping[str, Any], name: str) -> tuple[Told, ...]:
    """One of the lists of sentences."""
    return tuple(
        Told(str(item["says"]), item.get("field"), received(item.get("value")), item.get("code"))
        for item in document.get(name, ())
    )


def answer(document: Mapping[str, Any]) -> Answer:
    """An answer from its JSON document."""
    return Answer(
        calculator=str(document.get("calculator", "")),
        link=str(document.get("link", "")),
        result=received(document.get("result", {})),
        rows=received(document.get("rows", [])),
        roots=received(document.get("roots", [])),
        assumed=told(document, "assumed"),
        notes=told(document, "notes"),
        cautions=told(document, "cautions"),
        sources=tuple(
            Source(str(item.get("title", "")), str(item.get("where", "")), str(item.get("trust", "")))
            for item in document.get("sources", ())
        ),
        trust=str(document.get("trust", "")),
        version=str(document.get("version", "")),
        data_version=str(document.get("data_version", "")),
        document=document,
    )
