"""What may come back: a right answer, a clean refusal of too much work, or `come again later` with when. All
else is counted as wrong."""

import asyncio
import json
import re
from collections import Counter

from client import Connection, Cut, Hung

# Beyond the time of a request, before a caller calls it hanging.
GRACE = 2.0
# A caller who was told to come again does so after this; sooner than told, but not at once.
AGAIN = 0.2
TOO_MUCH = "too_much_work"


def codes(problem):
    """The codes of a problem document."""
    return [error.get("code") for error in problem.get("errors", [])]


def is_too_much(answer):
    """Whether an answer refuses for too much work and says nothing else."""
    if answer.status != 422:
        return False
    if "html" in answer.kind():
        return b"longer than a request may" in answer.body
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


async def ask_once(case, request, right, also=(), silence=None, what=""):
    """Asks on a new connection and counts what comes; gives the status, or None where nothing came."""
    case.tally.sent += 1
    connection = None
    try:
        connection = await Connection.open(case.port)
        answer = await connection.ask(request, silence or case.settings.timeout + GRACE)
    except (Cut, Hung, OSError) as error:
        case.tally.lost(error, what)
        return None
    finally:
        if connection:
            connection.close()
    case.tally.judge(answer, right, also, what)
    return answer.status


async def ask_over_and_over(case, request, right, at_once, also=(), what=""):
    """So many callers who each ask again as soon as they are answered, until the time of the case is up."""
    loop = asyncio.get_running_loop()
    until = loop.time() + case.seconds

    async def caller():
        while loop.time() < until:
            if await ask_once(case, request, right, also, what=what) in (503, 429, None):
                await asyncio.sleep(AGAIN)

    await asyncio.gather(*(caller() for _ in range(at_once)))
