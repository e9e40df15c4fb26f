"""Three callers with a small wish each, who ask all along and note how long they wait; and how late this process
itself is, by which the wait for the service can be told from the wait for the measuring."""

import asyncio
from array import array

from client import Connection, Cut, Hung, get

EVERY = 0.02
# A wait longer than this is noted as unanswered, and the probe asks anew.
PATIENCE = 30.0
CHEAP = "/v1/holes/drill-point?diameter=1/2in"
# Half a diameter over the tangent of 59 degrees, half the usual point angle of 118.
POINT_LENGTH = b"0.15021515475689"


def is_cheap(answer):
    return POINT_LENGTH in answer.body


def is_healthy(answer):
    return b'"ok"' in answer.body


def is_compressed(answer):
    return answer.headers.get("content-encoding") in ("gzip", "br") and len(answer.body) > 100


class Waits:
    """Seconds waited. One long wait stands for all the callers who would have come meanwhile."""

    def __init__(self):
        self.all = array("d")
        self.worst = 0.0

    def note(self, wait):
        self.worst = max(self.worst, wait)
        while wait > 0:
            self.all.append(wait)
            wait -= EVERY

    def p99(self):
        ordered = sorted(self.all)
        return ordered[int(0.99 * (len(ordered) - 1))] if ordered else 0.0

    def shown(self):
        return f"{self.p99() * 1000:.0f}/{self.worst * 1000:.0f}"


class Probe:
    """One caller on a kept-alive connection of its own."""

    def __init__(self, name, request, right):
        self.name, self.request, self.right = name, request, right
        self.waits = Waits()
        self.asked_at = None
        self.wrong = []

    async def run(self, port, going):
        loop = asyncio.get_running_loop()
        connection = None
        try:
            while True:
                await going.wait()
                began = self.asked_at = loop.time()
                try:
                    connection = connection or await Connection.open(port)
                    answer = await connection.ask(self.request, PATIENCE)
                    if answer.status != 200 or not self.right(answer):
                        self.wrong.append(f"answered {answer.status} not as it should")
                    if answer.closes():
                        connection.close()
                        connection = None
                except (Cut, Hung, OSError) as error:
                    self.wrong.append("cut" if isinstance(error, Cut) else f"not answered ({type(error).__name__})")
                    if connection:
                        connection.close()
                    connection = None
                self.asked_at = None
                self.waits.note(loop.time() - began)
                await asyncio.sleep(max(0.0, began + EVERY - loop.time()))
        finally:
            if self.asked_at is not None:
                self.waits.note(loop.time() - self.asked_at)
            if connection:
                connection.close()


class Probes:
    """All three, and the lateness of this process."""

    def __init__(self):
        self.all = [
            Probe("cheap", get(CHEAP), is_cheap),
            Probe("health", get("/healthz"), is_healthy),
            Probe("compressed", get(CHEAP, Accept_Encoding="gzip, br"), is_compressed),
        ]
        self.late = Waits()
        self.going = asyncio.Event()
        self.going.set()
        self.tasks = []

    def start(self, port):
        self.tasks = [asyncio.create_task(probe.run(port, self.going)) for probe in self.all]
        self.tasks.append(asyncio.create_task(self.notice_lateness()))

    async def notice_lateness(self):
        loop = asyncio.get_running_loop()
        while True:
            due = loop.time() + EVERY
            await asyncio.sleep(EVERY)
            self.late.note(max(loop.time() - due, 1e-6))

    def pause(self):
        """Lets the probes rest, so that they are no work for the service."""
        self.going.clear()

    def resume(self):
        self.going.set()

    async def stop(self):
        for task in self.tasks:
            task.cancel()
        for task in self.tasks:
            try:
                await task
            except asyncio.CancelledError:
                pass
        self.tasks = []

    def complaints(self, p99, worst):
        """What is wrong with the waits, by limits in seconds; `p99` None where it is not held against the service."""
        out = []
        for probe in self.all:
            if probe.wrong:
                out.append(f"{probe.name} probe {probe.wrong[0]}, {len(probe.wrong)} times")
            if probe.waits.worst > worst:
                out.append(f"{probe.name} probe waited {probe.waits.worst:.2f} s")
            elif p99 is not None and probe.waits.p99() > p99:
                out.append(f"{probe.name} probe's p99 is {probe.waits.p99() * 1000:.0f} ms")
        return out
