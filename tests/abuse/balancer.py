"""A small HTTP balancer as one stands before copies of the service: it asks each whether it is ready, keeps its
connections to them alive, and sends nothing twice. What an instance breaks off unanswered is a 502."""

import asyncio

from client import BROKEN, HOST, ROOM, Connection, Cut, Hung, get, read_body, read_head

EVERY = 0.2
# How long an instance may take to say that it is ready, and to answer.
READY_WITHIN, ANSWER_WITHIN = 1.0, 20.0


class Instance:
    """One copy of the service, as the balancer sees it."""

    def __init__(self, port):
        self.port, self.in_turn, self.idle = port, False, []

    async def ask(self, request):
        """Passes a request on and reads the answer."""
        connection = None
        while self.idle and connection is None:
            connection = self.idle.pop()
            if connection.reader.at_eof():
                connection.close()
                connection = None
        connection = connection or await Connection.open(self.port)
        try:
            answer = await connection.ask(request, ANSWER_WITHIN)
        except BaseException:
            connection.close()
            raise
        if answer.closes() or not self.in_turn:
            connection.close()
        else:
            self.idle.append(connection)
        return answer

    def drop_idle(self):
        for connection in self.idle:
            connection.close()
        self.idle.clear()


class Balancer:
    """Takes requests at a port of its own and passes them to the instances in turn."""

    def __init__(self):
        self.instances, self.next, self.broken, self.nobody = {}, 0, [], 0
        self.server, self.tasks = None, []
        self.open = set()

    async def start(self, port=0):
        self.server = await asyncio.start_server(self.serve, HOST, port, limit=ROOM, backlog=1024)
        return self.server.sockets[0].getsockname()[1]

    def add(self, name, port):
        """Knows an instance, which gets requests from when it says that it is ready."""
        before = self.instances.get(name)
        if before:
            before.in_turn = False
            before.drop_idle()
        self.instances[name] = instance = Instance(port)
        self.tasks.append(asyncio.create_task(self.look_at(name, instance)))

    async def look_at(self, name, instance):
        """Asks whether the instance is ready, for as long as it is the one of its name."""
        while self.instances[name] is instance:
            connection = None
            try:
                connection = await Connection.open(instance.port)
                answer = await connection.ask(get("/readyz", Connection="close"), READY_WITHIN)
                instance.in_turn = answer.status == 200
            except (Cut, Hung, OSError):
                instance.in_turn = False
            finally:
                if connection:
                    connection.close()
            if not instance.in_turn:
                instance.drop_idle()
            await asyncio.sleep(EVERY)

    async def ready(self, name, within):
        """Whether the instance gets requests before the time is up."""
        for _ in range(int(within / 0.02)):
            if self.instances[name].in_turn:
                return True
            await asyncio.sleep(0.02)
        return False

    async def pass_on(self, request):
        """The answer of an instance in its turn, as bytes; or the balancer's own."""
        there = [pair for pair in self.instances.items() if pair[1].in_turn]
        if not there:
            self.nobody += 1
            return own(503, "no instance is ready")
        self.next += 1
        name, instance = there[self.next % len(there)]
        try:
            answer = await instance.ask(request)
        except (Cut, Hung, *BROKEN) as error:
            self.broken.append(f"{name}: {type(error).__name__} {error.__cause__ or error}".strip())
            return own(502, "the instance broke off")
        kept = "".join(f"{k}: {v}\r\n" for k, v in answer.headers.items() if k not in BY_HOP)
        head = f"HTTP/1.1 {answer.status} passed\r\n{kept}content-length: {len(answer.body)}\r\n\r\n"
        return head.encode("latin-1") + answer.body

    async def serve(self, reader, writer):
        """One caller's connection, request by request."""
        self.open.add(writer)
        try:
            while True:
                first, headers = await read_head(reader)
                kept = "".join(f"{k}: {v}\r\n" for k, v in headers.items() if k != "connection")
                request = f"{first}\r\n{kept}\r\n".encode("latin-1") + await read_body(reader, headers)
                writer.write(await self.pass_on(request))
                await writer.drain()
        except (Cut, *BROKEN):
            pass
        finally:
            self.open.discard(writer)
            writer.close()

    async def stop(self):
        for task in self.tasks:
            task.cancel()
        await asyncio.gather(*self.tasks, return_exceptions=True)
        for instance in self.instances.values():
            instance.drop_idle()
        self.server.close()
        for writer in list(self.open):
            writer.close()


# Headers that concern one connection alone.
BY_HOP = ("connection", "content-length", "transfer-encoding", "keep-alive")


def own(status, says):
    """An answer of the balancer itself."""
    return f"HTTP/1.1 {status} balancer\r\ncontent-length: {len(says)}\r\n\r\n{says}".encode()
