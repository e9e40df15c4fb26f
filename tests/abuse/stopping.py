"""The service told to stop: behind a balancer with callers who must not notice, and with long work in hand."""

import asyncio

from answers import GRACE, ask_once
from bad_callers import long_requests
from balancer import Balancer
from client import Connection, Cut, Hung, get, post

BODY = b'{"diameter": "0.5 in"}'
ITEMS = b'[{"calculator": "holes/drill-point", "inputs": {"diameter": "0.5 in"}}]' 
TABLE = b"diameter [in]\n" + b"0.5\n" * 200
# GET and POST in turn, of every form; each answer holds the length of the point of a half-inch drill.
MIXED = [
    get("/v1/holes/drill-point?diameter=1/2in"),
    post("/v1/holes/drill-point", BODY),
    get("/v1/holes/drill-point.txt?diameter=1/2in&pick=point_length&units=inch"),
    post("/v1/batch", ITEMS),
    get("/holes/drill-point?diameter=1/2in"),
    post("/v1/holes/drill-point.csv", TABLE, "text/csv"),
]
POINT_LENGTH = b"0.1502"
CALLERS = 16


def right(answer):
    return None if POINT_LENGTH in answer.body else f"{answer.body[:80]!r}"


async def caller(case, port, requests, pause):
    """Asks on a kept-alive connection at its pace, as long as there are requests to send."""
    loop = asyncio.get_running_loop()
    connection, due = None, loop.time()
    try:
        for request in requests:
            case.tally.sent += 1
            try:
                connection = connection or await Connection.open(port)
                answer = await connection.ask(request, 2 * case.settings.timeout + GRACE)
                case.tally.by[str(answer.status)] += 1
                if answer.status != 200 or right(answer):
                    case.tally.complain(f"a request was answered {answer.status} through the balancer")
            except (Cut, Hung, OSError) as error:
                case.tally.lost(error)
                connection = None
            due = max(due + pause, loop.time() - 1)
            await asyncio.sleep(max(0.0, due - loop.time()))
    finally:
        if connection:
            connection.close()


def turns(number):
    """So many requests of all kinds; drawn from by all callers."""
    for at in range(number):
        yield MIXED[at % len(MIXED)]


async def stop_in_turn(case, balancer, instances, asking):
    """Stops and starts one instance after the other as long as requests are sent; gives how often."""
    stops = 0
    within = case.settings.drain + case.settings.stop + GRACE
    while not all(task.done() for task in asking):
        name = list(instances)[stops % len(instances)]
        await asyncio.sleep(0.3)
        old = instances[name]
        old.tell_to_stop()
        if await old.ended(within) is None:
            case.tally.complain(f"an instance had not ended {within:g} s after it was told to")
        case.heard(old)
        instances[name] = await case.start(old.port if case.bench.first_port else 0)
        balancer.add(name, instances[name].port)
        if not await balancer.ready(name, 5):
            case.tally.complain("an instance was not ready 5 s after its start")
            return stops
        stops += 1
    return stops


async def behind_a_balancer(case):
    """Two instances, stopped and started in turn; not one request may be lost."""
    number, seconds = (50_000, 70) if case.bench.whole else (5_000, 9)
    balancer = Balancer()
    port = await balancer.start(case.bench.port())
    instances = {name: await case.start() for name in ("first", "second")}
    asking = []
    try:
        for name, instance in instances.items():
            balancer.add(name, instance.port)
            if not await balancer.ready(name, 5):
                raise SystemExit("an instance behind the balancer is not ready")
        case.probes.start(port)
        requests = turns(number)
        asking = [asyncio.create_task(caller(case, port, requests, CALLERS * seconds / number))
                  for _ in range(CALLERS)]
        stops = await stop_in_turn(case, balancer, instances, asking)
        await asyncio.gather(*asking)
        case.note(f"{stops} stops, {len(balancer.broken)} broken off, {balancer.nobody} without an instance")
        if balancer.broken:
            case.tally.complain(f"the balancer answered 502, as first by {balancer.broken[0]}")
    finally:
        for task in asking:
            task.cancel()
        await case.probes.stop()
        await balancer.stop()


async def stop_with_work(case):
    """With long work in hand, the process ends within its time, and nobody is left without a word."""
    within = case.settings.drain + case.settings.stop + GRACE
    asking = [asyncio.create_task(ask_once(case, request, lambda answer: None, silence=within + GRACE))
              for request in long_requests()]
    await asyncio.sleep(0.7)
    await case.probes.stop()
    case.service.tell_to_stop()
    took = await case.service.ended(within)
    await asyncio.gather(*asking)
    case.note(f"ended after {took:.1f} s of {within:g} s" if took is not None else "had to be killed")
    if took is None:
        case.tally.complain(f"the process had not ended {within:g} s after it was told to")
    elif case.service.process.returncode != 0:
        case.tally.complain(f"the process ended with {case.service.process.returncode}")
