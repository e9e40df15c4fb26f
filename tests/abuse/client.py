"""HTTP/1.1 over raw sockets, no more of it than the measuring needs, and cheap."""

import asyncio
import socket
from dataclasses import dataclass, field

HOST = "127.0.0.1"
# What asyncio may hold of one connection before it stops reading.
ROOM = 1 << 18
BROKEN = (ConnectionError, asyncio.IncompleteReadError, asyncio.LimitOverrunError, ValueError, OSError)


class Cut(Exception):
    """The connection ended before the answer was whole."""


class Hung(Exception):
    """Nothing came for longer than an answer may take."""


@dataclass(slots=True)
class Answer:
    """An answer that came whole."""

    status: int
    headers: dict = field(default_factory=dict)
    body: bytes = b""

    def kind(self):
        return self.headers.get("content-type", "")

    def closes(self):
        return self.headers.get("connection", "").lower() == "close"


def get(path, **headers):
    """The bytes of a GET."""
    return message("GET", path, headers)


def post(path, body, kind="application/json", **headers):
    """The bytes of a POST."""
    return message("POST", path, {"Content-Type": kind, "Content-Length": str(len(body)), **headers}) + body


def message(method, path, headers):
    lines = [f"{method} {path} HTTP/1.1", "Host: shop", *(f"{k.replace('_', '-')}: {v}" for k, v in headers.items())]
    return ("\r\n".join(lines) + "\r\n\r\n").encode()


async def read_head(reader):
    """The first line and the headers of what comes."""
    lines = (await reader.readuntil(b"\r\n\r\n")).decode("latin-1").split("\r\n")
    headers = {}
    for line in lines[1:-2]:
        name, _, value = line.partition(":")
        headers[name.lower()] = value.strip()
    return lines[0], headers


async def read_body(reader, headers, heard=lambda: None):
    """The body, by its length or in chunks; `heard` is called whenever something came."""
    if headers.get("transfer-encoding", "").lower() != "chunked":
        left, parts = int(headers.get("content-length", 0)), []
        while left:
            part = await reader.read(min(left, ROOM))
            if not part:
                raise Cut
            heard()
            parts.append(part)
            left -= len(part)
        return b"".join(parts)
    parts = []
    while True:
        size = int((await reader.readline()).split(b";")[0] or b"-", 16)
        heard()
        if size:
            parts.append(await reader.readexactly(size))
        await reader.readexactly(2)
        if not size:
            return b"".join(parts)


async def read_answer(reader, heard=lambda: None):
    """A whole answer; raises one of BROKEN or Cut where it breaks off."""
    first, headers = await read_head(reader)
    status = int(first.split(" ")[1])
    heard()
    while status == 100:
        first, headers = await read_head(reader)
        status = int(first.split(" ")[1])
    body = b"" if status in (204, 304) else await read_body(reader, headers, heard)
    return Answer(status, headers, body)


class Connection:
    """A connection to the service, kept between requests."""

    def __init__(self, reader, writer):
        self.reader, self.writer = reader, writer

    @classmethod
    async def open(cls, port):
        return cls(*await asyncio.open_connection(HOST, port, limit=ROOM))

    async def ask(self, request, silence):
        """Sends a request and reads its answer; silence is how long nothing may come."""
        loop = asyncio.get_running_loop()
        try:
            async with asyncio.timeout(silence) as limit:
                try:
                    self.writer.write(request)
                    await self.writer.drain()
                except ConnectionError:
                    pass  # An answer that came before the whole request was sent is still there to be read.
                return await read_answer(self.reader, lambda: limit.reschedule(loop.time() + silence))
        except TimeoutError:
            raise Hung from None
        except BROKEN as error:
            raise Cut from error

    def close(self):
        self.writer.close()


async def raw_socket(port, room=None):
    """A connected socket that asyncio does not read from; with `room`, one with so small a buffer for what comes."""
    raw = socket.socket()
    raw.setblocking(False)
    if room:
        raw.setsockopt(socket.SOL_SOCKET, socket.SO_RCVBUF, room)
    try:
        await asyncio.get_running_loop().sock_connect(raw, (HOST, port))
    except BaseException:
        raw.close()
        raise
    return raw
