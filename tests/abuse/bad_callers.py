"""Callers who send nothing, or slowly, or what no one should, and callers who go away."""

import asyncio
import json

from answers import ask_once, ask_over_and_over
from client import Connection, Cut, get, post, raw_socket, read_answer
from heavy_answers import MANY_HOLES
from heavy_work import BACKWARDS, CHART, MANY_TRAINS, WHEELS, places
from probes import CHEAP, is_cheap

SLOW_HEAD = f"GET {CHEAP} HTTP/1.1\r\nHost: shop\r\nX-Slow: ".encode()
SLOW_BODY = post("/v1/holes/drill-point", b" " * 1000)[:-900]
# Refusals of what cannot be right.
REFUSED = (400, 404, 408, 413, 414, 422, 431)
IDLE, SLOW = 2_000, 500


def never(answer):
    return f"it was answered at all: {answer.body[:80]!r}"


async def idle(case):
    """Connections on which nothing is sent; the service may keep them or close them."""
    open_ones = []
    try:
        for at in range(IDLE):
            open_ones.append(await raw_socket(case.port))
            if at % 50 == 0:
                await asyncio.sleep(0.005)
        await asyncio.sleep(case.seconds)
    except OSError as error:
        case.tally.complain(f"connection {len(open_ones)} was not taken: {error}")
    finally:
        for raw in open_ones:
            raw.close()


async def slow(case):
    """Callers who send a byte a second, half of them of a header, half of a body. They may be refused or cut."""
    connections = []
    try:
        for at in range(SLOW):
            connections.append(await Connection.open(case.port))
            connections[-1].writer.write((SLOW_HEAD, SLOW_BODY)[at % 2])
        case.tally.sent += SLOW
        for _ in range(int(case.seconds)):
            await asyncio.sleep(1)
            for at, connection in enumerate(connections):
                if not connection.reader.at_eof() and not connection.writer.is_closing():
                    connection.writer.write(b" ")
                if at % 50 == 0:
                    await asyncio.sleep(0)
        for connection in connections:
            await take_what_came(case, connection)
        case.note(f"{case.tally.by['waits']} of {SLOW} slow senders still heard")
    except OSError as error:
        case.tally.complain(f"slow sender {len(connections)} was not taken: {error}")
    finally:
        for connection in connections:
            connection.writer.transport.abort()


async def take_what_came(case, connection):
    """What a slow sender was told up to now, if anything."""
    try:
        async with asyncio.timeout(0.001):
            case.tally.judge(await read_answer(connection.reader), never, also=(408,), what="slow sender: ")
    except TimeoutError:
        case.tally.by["waits"] += 1
    except (Cut, OSError, EOFError):
        case.tally.by["cut"] += 1


async def idle_and_slow(case):
    await asyncio.gather(idle(case), slow(case))


async def oversize(case):
    """Each over and over: refused, whatever their size, and at no great cost."""
    fields = json.dumps({f"{at:04x}": 1 for at in range(20_000)}, separators=(",", ":")).encode()
    name = json.dumps({"calculator": "x" * 250_000, "seed": 7, "answer": "9 mm"}).encode()
    bad = {
        "header of 20 kB: ": get(CHEAP, X_Large="x" * 20_000),
        "header of 300 kB: ": get(CHEAP, X_Large="x" * 300_000),
        "20,000 unknown fields: ": post("/v1/holes/drill-point", fields),
        "name of 250 kB: ": post("/v1/practice/check", name),
        "path of 8 kB: ": get("/" + "x" * 8_000),
    }
    await asyncio.gather(*(ask_over_and_over(case, request, never, 1, also=REFUSED, what=what)
                           for what, request in bad.items()))


def long_requests():
    """One of each kind that takes long, twice."""
    backwards = [{"calculator": "threads/change-gears", "inputs": {"leadscrew_lead": "3mm", "gears": WHEELS},
                  "solve_for": BACKWARDS["solve_for"], "wanted": BACKWARDS["wanted"]}] * 8
    return 2 * [
        get(MANY_TRAINS.replace("leadscrew_lead=3mm", "leadscrew_lead=1mm..500mm%20step%201mm").replace("count=50", "count=5")),
        post("/v1/datum/visit-order", json.dumps({"points": places()}).encode()),
        post("/v1/batch", json.dumps(backwards).encode()),
        get(CHART),
    ]


async def send_and_go(case):
    """Sends eight long requests and closes, half of them at once, half after a moment."""
    requests = [MANY_HOLES, *long_requests()[1:]]
    case.tally.sent += len(requests)
    connections = []
    for request in requests:
        connections.append(await Connection.open(case.port))
        connections[-1].writer.write(request)
        await connections[-1].writer.drain()
    for at, connection in enumerate(connections):
        if at == len(connections) // 2:
            await asyncio.sleep(0.1)
        connection.close()


async def gone_callers(case):
    """A second after the callers have gone the service rests; the probes rest meanwhile too."""
    used, before = [], case.service.descriptors()
    for _ in range(max(1, int(case.seconds / 3))):
        await send_and_go(case)
        await asyncio.sleep(0.5)
        case.probes.pause()
        await asyncio.sleep(0.5)
        worked = case.service.worked()
        await asyncio.sleep(1)
        used.append(case.service.worked() - worked)
        case.probes.resume()
    worst = max(used)
    case.note(f"{worst:.0%} of a core a second after")
    if worst >= 0.10:
        case.tally.complain(f"a second after the callers had gone {worst:.0%} of a core was at work for a second")
    left = case.service.descriptors() - before
    if left > 0:
        case.tally.complain(f"{left} callers who had gone still hold a descriptor")
    # What comes next must be answered as ever.
    await ask_once(case, get(CHEAP), lambda answer: None if is_cheap(answer) else "it is not as ever")
