"""The two clients: one that waits for its answers, and one for asyncio. Both carry out the flows of `flows.py`."""

from __future__ import annotations

import asyncio
import os
import time
from collections.abc import Iterable, Mapping
from types import TracebackType
from typing import Any, Self, TypeVar

import httpx

from . import flows
from .answer import Answer
from .flows import Flow, Reply, Request, Wait
from .frames import frame_of, table_of
from .problems import Problem
from .register import Calculator
from .retrying import Retries

T = TypeVar("T")
Item = tuple[str, Mapping[str, Any]]

#: Where a service answers that was started as its README says.
USUAL_ADDRESS = "http://127.0.0.1:8080"


class Settings:
    """What both clients are told: where the service is, which fields go with every request, and when to give up.

    The address is the one given, else that of the variable `SHOP_RECKONER`, else `USUAL_ADDRESS`.
    """

    def __init__(
        self, address: str | None = None, *, common: Mapping[str, Any] | None = None, retries: Retries = Retries(),
        timeout: float = 30.0, piece: int = 500,
    ) -> None:
        self.address = (address or os.environ.get("SHOP_RECKONER") or USUAL_ADDRESS).rstrip("/")
        self.common, self.retries, self.timeout, self.piece = dict(common or {}), retries, timeout, piece

    def request(self, request: Request) -> dict[str, Any]:
        """A request as httpx takes it."""
        return {
            "method": request.method, "url": self.address + request.path, "content": request.body,
            "headers": dict(request.headers), "params": dict(request.params) or None,
        }

    def all_fields(self, fields: Mapping[str, Any]) -> dict[str, Any]:
        return {**self.common, **fields}


def reply(response: httpx.Response, text: str, error: str = "") -> Reply:
    return Reply(response.status_code, {name.lower(): value for name, value in response.headers.items()}, text, error)


def failed(error: Exception) -> str:
    return f"{type(error).__name__}: {error}"


class Reckoner(Settings):
    """A service at an address, asked and waited for.

        with Reckoner() as shop:
            shop.ask("holes/drill-point", diameter="1/2 in")
    """

    def __init__(self, *arguments: Any, **settings: Any) -> None:
        super().__init__(*arguments, **settings)
        self.http = httpx.Client(timeout=self.timeout)

    def ask(self, calculator: str, **fields: Any) -> Answer:
        """Asks one calculator. Fields are texts as on a drawing, numbers, lists, `Quantity` or quantities of pint.
        Raises `Refused` with every wrong field, `Busy` or `Unreachable`."""
        return self.run(flows.asking(calculator, self.all_fields(fields), self.retries))

    def calculators(self) -> dict[str, Calculator]:
        """Every calculator by its id."""
        return self.run(flows.listing(self.retries))

    def batch(self, items: Iterable[Item]) -> list[Answer | Problem]:
        """Asks many: `(calculator, fields)` each. Gives an answer or a problem for each, in the same order."""
        return self.run(flows.batching(items, self.common, self.piece, self.retries))

    def table(self, calculator: str, csv: str, **common: Any) -> str:
        """Sends a table (CSV with a heading) and gives it back with its answers beside the rows."""
        return self.run(flows.tabling(calculator, csv, self.all_fields(common), self.retries))

    def frame(self, calculator: str, frame: Any, **common: Any) -> Any:
        """The same with a data frame of pandas; its own columns and index come back as they were."""
        return frame_of(self.table(calculator, table_of(frame), **common), frame)

    def run(self, flow: Flow[T]) -> T:
        """Carries out a flow."""
        try:
            step = next(flow)
            while True:
                step = flow.send(self.carry_out(step))
        except StopIteration as end:
            return end.value  # type: ignore[no-any-return]

    def carry_out(self, step: Request | Wait) -> Reply:
        if isinstance(step, Wait):
            time.sleep(step.seconds)
            return Reply()
        text = ""
        response = None
        try:
            with self.http.stream(**self.request(step)) as response:
                for part in response.iter_text():
                    text += part
                return reply(response, text)
        except httpx.HTTPError as error:
            return reply(response, text, failed(error)) if response is not None else Reply(error=failed(error))

    def close(self) -> None:
        self.http.close()

    def __enter__(self) -> Self:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self.close()


class AsyncReckoner(Settings):
    """The same for asyncio.

        async with AsyncReckoner() as shop:
            await shop.ask("holes/drill-point", diameter="1/2 in")
    """

    def __init__(self, *arguments: Any, **settings: Any) -> None:
        super().__init__(*arguments, **settings)
        self.http = httpx.AsyncClient(timeout=self.timeout)

    async def ask(self, calculator: str, **fields: Any) -> Answer:
        """See `Reckoner.ask`."""
        return await self.run(flows.asking(calculator, self.all_fields(fields), self.retries))

    async def calculators(self) -> dict[str, Calculator]:
        """See `Reckoner.calculators`."""
        return await self.run(flows.listing(self.retries))

    async def batch(self, items: Iterable[Item]) -> list[Answer | Problem]:
        """See `Reckoner.batch`."""
        return await self.run(flows.batching(items, self.common, self.piece, self.retries))

    async def table(self, calculator: str, csv: str, **common: Any) -> str:
        """See `Reckoner.table`."""
        return await self.run(flows.tabling(calculator, csv, self.all_fields(common), self.retries))

    async def frame(self, calculator: str, frame: Any, **common: Any) -> Any:
        """See `Reckoner.frame`."""
        return frame_of(await self.table(calculator, table_of(frame), **common), frame)

    async def run(self, flow: Flow[T]) -> T:
        """Carries out a flow."""
        try:
            step = next(flow)
            while True:
                step = flow.send(await self.carry_out(step))
        except StopIteration as end:
            return end.value  # type: ignore[no-any-return]

    async def carry_out(self, step: Request | Wait) -> Reply:
        if isinstance(step, Wait):
            await asyncio.sleep(step.seconds)
            return Reply()
        text = ""
        response = None
        try:
            async with self.http.stream(**self.request(step)) as response:
                async for part in response.aiter_text():
                    text += part
                return reply(response, text)
        except httpx.HTTPError as error:
            return reply(response, text, failed(error)) if response is not None else Reply(error=failed(error))

    async def aclose(self) -> None:
        await self.http.aclose()

    async def __aenter__(self) -> Self:
        return self

    async def __aexit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        await self.aclose()
