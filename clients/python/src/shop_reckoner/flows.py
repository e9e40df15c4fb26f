"""What is sent and what is made of the replies, without sending: generators that yield requests and waits, and are sent
replies. The two clients only carry them out, one waiting and one not."""

from __future__ import annotations

import json
from collections.abc import Generator, Iterable, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeVar

from .answer import Answer, answer
from .problems import BUSY, Problem, Unreachable, problem
from .quantity import sent
from .register import Calculator, calculators
from .retrying import Retries

LINES = "application/x-ndjson"


@dataclass(frozen=True)
class Request:
    """What is to be sent."""

    method: str
    path: str
    body: bytes | None = None
    headers: Mapping[str, str] = field(default_factory=dict)
    params: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True)
class Wait:
    """How long to wait, in seconds."""

    seconds: float


@dataclass(frozen=True)
class Reply:
    """What came; `error` says why nothing came, or not all of it."""

    status: int = 0
    headers: Mapping[str, str] = field(default_factory=dict)
    text: str = ""
    error: str = ""


T = TypeVar("T")
Flow = Generator[Request | Wait, Reply, T]


def exchange(request: Request, retries: Retries) -> Flow[Reply]:
    """Sends until there is an answer to the request, or a problem that sending again does not mend."""
    for failures in range(1, retries.tries + 1):
        reply = yield request
        if not reply.error and reply.status not in BUSY:
            if reply.status >= 400:
                raise problem(document_of(reply))
            return reply
        if failures < retries.tries:
            yield Wait(retries.wait(failures, reply.headers.get("retry-after")))
    if reply.error:
        raise Unreachable(f"no answer in {retries.tries} tries; the last time: {reply.error}")
    raise problem(document_of(reply))


def document_of(reply: Reply) -> Mapping[str, Any]:
    """The problem document of a reply; a proxy's page becomes one with its status."""
    try:
        document = json.loads(reply.text)
    except ValueError:
        document = None
    if not isinstance(document, dict):
        document = {"title": "no answer of Shop Reckoner", "detail": f"status {reply.status}: {reply.text[:200]}"}
    return {"status": reply.status, **document}


def asking(calculator: str, fields: Mapping[str, Any], retries: Retries) -> Flow[Answer]:
    """One request to one calculator."""
    body = json.dumps(sent(fields)).encode()
    reply = yield from exchange(
        Request("POST", f"/v1/{calculator}", body, {"content-type": "application/json", "accept": "application/json"}), retries
    )
    return answer(json.loads(reply.text))


def listing(retries: Retries) -> Flow[dict[str, Calculator]]:
    """The register."""
    reply = yield from exchange(Request("GET", "/v1/calculators", headers={"accept": "application/json"}), retries)
    return calculators(json.loads(reply.text))


def batching(
    items: Iterable[tuple[str, Mapping[str, Any]]], common: Mapping[str, Any], piece: int, retries: Retries
) -> Flow[list[Answer | Problem]]:
    """Many requests, a piece at a time. What came before a connection broke is kept, and only the rest is sent again."""
    asked = [{"id": str(at), "calculator": id, "inputs": sent(fields), **common} for at, (id, fields) in enumerate(items)]
    found: dict[str, Answer | Problem] = {}
    for start in range(0, len(asked), piece):
        failures = 0
        while left := [item for item in asked[start : start + piece] if item["id"] not in found]:
            body = "".join(json.dumps(item) + "\n" for item in left).encode()
            reply = yield Request("POST", "/v1/batch", body, {"content-type": LINES, "accept": LINES})
            if not reply.error and 400 <= reply.status < 500 and reply.status not in BUSY:
                raise problem(document_of(reply))
            before = len(found)
            last = problem(document_of(reply)) if reply.status >= 400 else None
            for item in lines_of(reply):
                if "answer" in item:
                    found[item["id"]] = answer(item["answer"])
                elif int(item.get("problem", {}).get("status", 500)) not in BUSY:
                    found[item["id"]] = problem(item["problem"])
                else:
                    last = problem(item["problem"])
            # Whoever gets on is not failing.
            failures = 0 if len(found) > before else failures + 1
            if failures >= retries.tries:
                if last is not None:
                    raise last
                raise Unreachable(f"no answer in {failures} tries; the last time: {reply.error or 'lines were missing'}")
            if failures:
                yield Wait(retries.wait(failures, reply.headers.get("retry-after")))
    return [found[item["id"]] for item in asked]


def lines_of(reply: Reply) -> list[dict[str, Any]]:
    """The whole lines of a reply; the last may have been cut off."""
    items = []
    for line in reply.text.splitlines() if reply.status == 200 else ():
        try:
            item = json.loads(line)
        except ValueError:
            continue
        if isinstance(item, dict) and "id" in item:
            items.append(item)
    return items


def tabling(calculator: str, table: str, common: Mapping[str, Any], retries: Retries) -> Flow[str]:
    """A table of requests, with its answers beside them."""
    params = {name: as_text(value) for name, value in common.items()}
    reply = yield from exchange(
        Request("POST", f"/v1/{calculator}.csv", table.encode(), {"content-type": "text/csv", "accept": "text/csv"}, params), retries
    )
    return reply.text


def as_text(value: Any) -> str:
    """A field's value as an address has it."""
    value = sent(value)
    if isinstance(value, Mapping):
        return f"{value['value']} {value['unit']}"
    if isinstance(value, bool):
        return str(value).lower()
    if isinstance(value, Sequence) and not isinstance(value, str):
        return ",".join(map(as_text, value))
    return str(value)
