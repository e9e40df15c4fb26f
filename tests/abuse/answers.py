"""What may come back: a right answer, a clean refusal of too much work, or `come again later` with when. All
else is counted as wrong."""

import asyncio
import contextlib
import json
import re
from collections import Counter

from client import Connection, Cut, Hung

# Beyond the time of a request, before a caller calls it hanging.
GRACE = 2.0
# A caller who was told to come again does so after this; sooner than told, but not at once.
AGAIN = 0.2
# Seconds between two callers' connecting.
APART = 0.003
TOO_MUCH = "too_much_work"
# The same in words, as a page or a row of a table says it.
TOO_MUCH_SAID = "longer than a request may"


def codes(problem):
    """The codes of a problem document."""
    return [error.get("code") for error in problem.get("errors", [])]


def is_too_much(answer):
    """Whether an answer refuses for too much work and says nothing else."""
    if answer.status not in (422, 503):
        return False
    if "html" in answer.kind():
        return TOO_MUCH_SAID.encode() in answer.body
    try:
        return codes(json.loads(answer.body)) == [TOO_MUCH]
    except (ValueError, AttributeError):
        return False


def is_busy(answer):
    """Whether an answer says to come again, and when."""
    return answer.status == 503 and re.fullmatch(r"\d+", answer.headers.get("retry-after", "")) is not None


class Tally:
    """The requests of one case and what became of them."""

    def __init__(self):
        self.sent, self.by, self.wrong = 0, Counter(), Counter()

    def complain(self, says):
        self.wrong[says] += 1

    def judge(self, answer, right, also=(), what=""):
        """Counts an answer. `right` gives what is wrong with one of 200, if anything is; `also` are other right
        statuses; `what` names the request where a case has several."""
        self.by[str(answer.status)] += 1
        if answer.status == 200:
            try:
                wrong = right(answer)
            except (ValueError, LookupError, TypeError, AttributeError) as error:
                wrong = f"it does not read as it should ({type(error).__name__}: {error})"
            if wrong:
                self.complain(f"{what}200 is not right: {wrong}")
        elif answer.status not in also and not is_too_much(answer) and not is_busy(answer):
            says = "503 without Retry-After" if answer.status == 503 else f"answered {answer.status}"
            self.complain(f"{what}{says}: {answer.body[:120].decode(errors='replace')!r}")

    def lost(self, error, what=""):
        """Counts a request that got no answer."""
        kind = "hung" if isinstance(error, Hung) else "cut"
        self.by[kind] += 1
        self.complain(what + {"hung": "no answer within the time", "cut": "broken off without an answer"}[kind])

    def complaints(self):
        return [f"{says}, {count} times" if count > 1 else says for says, count in self.wrong.most_common(4)]


class Caller:
    """One who asks, and keeps the connection as long as it lasts."""

    def __init__(self, case, what=""):
        self.case, self.what, self.connection = case, what, None

    async def connect(self):
        if self.connection and self.connection.reader.at_eof():
            self.close()
        self.connection = self.connection or await Connection.open(self.case.port)

    async def ask(self, request, right, also=(), silence=None):
        """Asks and counts what comes; gives the status, or None where nothing came."""
        tally = self.case.tally
        tally.sent += 1
        try:
            await self.connect()
            answer = await self.connection.ask(request, silence or self.case.settings.timeout + GRACE)
        except (Cut, Hung, OSError) as error:
            self.close()
            tally.lost(error, self.what)
            return None
        if answer.closes():
            self.close()
        tally.judge(answer, right, also, self.what)
        return answer.status

    def close(self):
        if self.connection:
            self.connection.close()
        self.connection = None


async def ask_once(case, request, right, silence=None):
    """Asks on a connection of its own."""
    caller = Caller(case)
    try:
        return await caller.ask(request, right, silence=silence)
    finally:
        caller.close()


async def ask_over_and_over(case, request, right, at_once, also=(), what=""):
    """So many callers who begin together and each ask again as soon as they are answered, until the time is up."""
    loop = asyncio.get_running_loop()
    together = asyncio.Barrier(at_once)

    async def ask(at):
        caller = Caller(case, what)
        try:
            # One after the other, so that connecting does not hold up the probes in this process.
            await asyncio.sleep(at * APART)
            with contextlib.suppress(OSError):  # Asking will tell.
                await caller.connect()
            await together.wait()
            until = loop.time() + case.seconds
            while loop.time() < until:
                if await caller.ask(request, right, also) in (503, None):
                    await asyncio.sleep(AGAIN)
        finally:
            caller.close()

    await asyncio.gather(*(ask(at) for at in range(at_once)))
