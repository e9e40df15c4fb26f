"""The cases, and how one is run: a service of its own, the probes beside it, memory watched, and a verdict."""

import asyncio
from dataclasses import dataclass

import bad_callers
import heavy_answers
import heavy_work
import stopping
from answers import Tally
from client import Cut, Hung
from probes import Probes
from service import Memory, Service

# What the process may hold at most, in MB.
MOST_MEMORY = 300
# How long a probe may wait, in seconds: what the service is held to, and what even a shared machine must keep.
P99, WORST = 0.2, 0.5
WORST_QUICK = 2.0

CASES = {
    "trains of 40 wheels": heavy_work.change_gears,
    "practice from a long answer": heavy_work.practice,
    "chart of 500 rows on a page": heavy_work.chart_page,
    "order of 88 places": heavy_work.visit_order,
    "recheck of a backwards answer": heavy_work.recheck,
    "batches of eight backwards": heavy_work.batch,
    "table whose first row is work": heavy_work.first_row,
    "200 streamed tables": heavy_work.streamed_tables,
    "13 million lines, fast and slow": heavy_answers.tables,
    "long notes on 1000 lines": heavy_answers.long_notes,
    "100 readers who never read": heavy_answers.never_read,
    "idle and slow callers": bad_callers.idle_and_slow,
    "oversize requests": bad_callers.oversize,
    "callers who have gone": bad_callers.gone_callers,
    "stops behind a balancer": stopping.behind_a_balancer,
    "stop with long work": stopping.stop_with_work,
}
# These start services of their own.
ALONE = (stopping.behind_a_balancer,)


@dataclass
class Bench:
    """What holds for all cases."""

    settings: object
    whole: bool
    seconds: float
    first_port: int
    ports: int = 0

    def port(self):
        """The next port, or 0 for any that is free."""
        self.ports += 1
        return self.first_port and self.first_port + (self.ports - 1) % 10


class Case:
    """One case while it runs."""

    def __init__(self, bench, name):
        self.bench, self.name, self.act = bench, name, CASES[name]
        self.settings, self.seconds = bench.settings, bench.seconds
        self.tally, self.probes, self.memory = Tally(), Probes(), Memory()
        self.service, self.services, self.notes, self.read = None, [], [], 0

    @property
    def port(self):
        return self.service.port

    def note(self, says):
        self.notes.append(says)

    async def start(self, port=0):
        """Starts a service, whose memory is watched from now on."""
        service = await Service.start(self.settings, port or self.bench.port())
        self.services.append(service)
        self.memory.watch(service)
        return service

    def heard(self, service):
        """Looks into what a service has logged."""
        if "panicked" in service.logged():
            self.tally.complain("the service panicked")

    async def run(self):
        watching = asyncio.create_task(self.memory.run())
        try:
            if self.act not in ALONE:
                self.service = await self.start()
                self.probes.start(self.service.port)
                await asyncio.sleep(0.1)
            try:
                await self.act(self)
            except (Cut, Hung, OSError) as error:
                self.tally.complain(f"the case broke off: {type(error).__name__} {error}".strip())
            await self.probes.stop()
            if self.service and not self.service.runs() and self.act is not stopping.stop_with_work:
                self.tally.complain("the service has ended")
        finally:
            await self.probes.stop()
            watching.cancel()
            self.memory.look()
            for service in self.services:
                self.heard(service)
                await service.kill()

    def complaints(self):
        """What is wrong; nothing where the case holds."""
        limits = (P99, WORST) if self.bench.whole else (None, WORST_QUICK)
        wrong = self.tally.complaints() + self.probes.complaints(*limits)
        if self.memory.most > MOST_MEMORY:
            wrong.append(f"{self.memory.most:.0f} MB of memory, more than {MOST_MEMORY}")
        return wrong
