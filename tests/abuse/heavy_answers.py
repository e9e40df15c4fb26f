"""Small requests with answers far larger than memory: read fast, slowly, or not at all."""

import asyncio

from answers import GRACE
from client import BROKEN, Answer, Connection, Cut, Hung, post, raw_socket, read_body, read_head

PATH = "/v1/patterns/bolt-circle.csv?diameter=4in"
# 13,000 rows of 1000 holes each, in 65 kB.
MANY_HOLES = post(PATH, b"holes\n" + b"1000\n" * 13_000, "text/csv")
# Four rows of 1000 holes, each with a note of 250 kB that goes along to every line.
LONG_NOTES = post(PATH, b"holes,_note\n" + (b"1000," + b"n" * 250_000 + b"\n") * 4, "text/csv")
# Its connection is not to be kept, so that an answer to the end leaves none behind.
LEFT_UNREAD = MANY_HOLES.replace(b"\r\n\r\n", b"\r\nConnection: close\r\n\r\n", 1)
LAST_CHUNK = b"0\r\n\r\n"
# How a row is refused whose lines would be more than one row may have.
ROW_TOO_LARGE = "too long for a table"


def wrong_with_first_hole(begun):
    """The first hole of a circle of 4 in stands 2 in from its middle on X, and 0 on Y."""
    lines = begun.decode(errors="replace").splitlines()
    head = next((line.split(",") for line in lines if line.startswith("holes,")), None)
    row = next((line.split(",") for line in lines if line.startswith("1000,")), None)
    if not head or not row:
        return f"no row of the table has come: {begun[:200]!r}"
    if ROW_TOO_LARGE in row[-1]:
        return None
    value = dict(zip((name.split(" [")[0].rpartition(".")[2] for name in head), row))
    if float(value["x"]) != 2 or abs(float(value["y"])) > 1e-12:
        return f"the first hole is at {value['x']}, {value['y']}"


async def read_some(case, request, block, pause, enough=2_000):
    """Reads a stream at its pace as long as it lasts or the time is up, and looks at how it begins and ends."""
    loop = asyncio.get_running_loop()
    until = loop.time() + case.seconds
    silence = case.settings.timeout + GRACE
    case.tally.sent += 1
    connection = None
    begun, last = b"", b""
    try:
        connection = await Connection.open(case.port)
        connection.writer.write(request)
        async with asyncio.timeout(silence) as limit:
            first, headers = await read_head(connection.reader)
            if " 200 " not in first:
                body = await read_body(connection.reader, headers)
                return case.tally.judge(Answer(int(first.split(" ")[1]), headers, body), str)
            while loop.time() < until or len(begun) < enough:
                part = await connection.reader.read(block)
                if not part and last != LAST_CHUNK:
                    raise Cut
                if not part:
                    break
                if len(begun) < enough:
                    begun += part[:enough]
                last = (last + part)[-len(LAST_CHUNK):]
                case.read += len(part)
                limit.reschedule(loop.time() + silence + pause)
                await asyncio.sleep(pause)
        case.tally.judge(Answer(200, headers, begun), lambda answer: wrong_with_first_hole(answer.body))
    except TimeoutError:
        case.tally.lost(Hung())
    except (Cut, *BROKEN):
        case.tally.lost(Cut())
    finally:
        if connection:
            connection.writer.transport.abort()


async def tables(case):
    """Two fast readers and six slow ones of the same table."""
    fast = [read_some(case, MANY_HOLES, 1 << 18, 0.005) for _ in range(2)]
    slow = [read_some(case, MANY_HOLES, 8192, 0.1) for _ in range(6)]
    await asyncio.gather(*fast, *slow)
    case.note(f"{case.read / 1e6:.0f} MB read")


async def long_notes(case):
    """Two fast readers and two slow ones of a table that grows a thousandfold."""
    fast = [read_some(case, LONG_NOTES, 1 << 18, 0.005, 260_000) for _ in range(2)]
    slow = [read_some(case, LONG_NOTES, 32768, 0.1, 260_000) for _ in range(2)]
    await asyncio.gather(*fast, *slow)
    case.note(f"{case.read / 1e6:.0f} MB read")


async def never_read(case):
    """A hundred readers who send and never read: they are cut when the reader's time is up."""
    loop = asyncio.get_running_loop()
    before = case.service.descriptors()
    readers = []
    try:
        for _ in range(100):
            raw = await raw_socket(case.port, room=4096)
            readers.append((raw, asyncio.create_task(loop.sock_sendall(raw, LEFT_UNREAD))))
        case.tally.sent += len(readers)
        begun, most = loop.time(), case.settings.reader + 2 * GRACE
        await asyncio.sleep(1)
        while case.service.descriptors() > before and loop.time() < begun + most:
            await asyncio.sleep(0.1)
        left = case.service.descriptors() - before
        case.note(f"cut after {loop.time() - begun:.1f} s" if left <= 0 else f"{left} left after {most:g} s")
        if left > 0:
            case.tally.complain(f"{left} readers who never read still hold a descriptor after {most:g} s")
    finally:
        for raw, sending in readers:
            sending.cancel()
        await asyncio.gather(*(sending for _, sending in readers), return_exceptions=True)
        for raw, _ in readers:
            status = begun_with(raw)
            case.tally.by[status] += 1
            raw.close()
            if status not in ("200", "422", "503", "cut"):
                case.tally.complain(f"left unread: {status}")


def begun_with(raw):
    """The status of the answer that was left unread; `cut` where there is none."""
    try:
        return raw.recv(12)[9:].decode() or "cut"
    except BlockingIOError:
        return "waits"
    except OSError:
        return "cut"
