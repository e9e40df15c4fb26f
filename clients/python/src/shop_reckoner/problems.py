"""What goes wrong, as exceptions: the service's problems (RFC 9457), and no answer at all."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any


@dataclass(frozen=True)
class WrongField:
    """A wrong field: its name or path, the code, what is wrong with it, and a value or way to try."""

    field: str
    code: str
    says: str
    attempt: str | None

    def __str__(self) -> str:
        return f"{self.field}: {self.says}" + (f" Try {self.attempt}." if self.attempt else "")


def wrong_field(error: Mapping[str, Any]) -> WrongField:
    """One entry of a problem's errors. Its pointer becomes a name, in a batch without the way to its item."""
    name = str(error.get("field", "")).lstrip("/").removeprefix("inputs/")
    return WrongField(name, str(error.get("code", "")), str(error.get("says", "")), error.get("try"))


class Problem(Exception):
    """The service answered, but not with an answer."""

    def __init__(self, document: Mapping[str, Any]) -> None:
        self.document = dict(document)
        self.status = int(document.get("status", 500))
        self.title = str(document.get("title", ""))
        self.detail = str(document.get("detail", "")) or self.title
        self.type = str(document.get("type", "about:blank"))
        self.errors = tuple(map(wrong_field, document.get("errors", ())))
        super().__init__("; ".join(map(str, self.errors)) or self.detail)


class Refused(Problem):
    """The request is wrong; sent again it is refused again. `errors` has every wrong field."""


class Busy(Problem):
    """The service could not answer now, as often as it was asked."""


class Unreachable(Exception):
    """No service answered at the address, as often as it was asked."""


BUSY = frozenset((429, 500, 502, 503, 504))


def problem(document: Mapping[str, Any]) -> Problem:
    """The exception for a problem document."""
    status = int(document.get("status", 500))
    kind = Busy if status in BUSY else Refused if 400 <= status < 500 else Problem
    return kind(document)
