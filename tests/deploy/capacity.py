"""Measures what one core of the service answers, and writes clients/deploy/capacity.md.

    python3 capacity.py [--quick]

SHOP_RECKONER_BIN names the executable; measure the one that is shipped. What is counted is the processor time that the
service itself uses, not the clock, so that other work on the computer changes the numbers little. With --quick every
calculator is asked a few times and nothing is written: that tries this script, and any executable will do.
"""

import argparse
import datetime
import json
import os
import platform
import re
import socket
import statistics
import time
from pathlib import Path

from instances import DEPLOY, Instance

SHEET = DEPLOY / "capacity.md"
# Connections that send at the same time; requests a measurement; measurements of which the median counts.
AT_ONCE, REQUESTS, TIMES = 8, 400, 9
ROWS, ROWS_AT = 100_000, "/v1/holes/drill-point.csv?units=inch"
# How much of a core is planned with; the rest is for the busy minute.
SHARE = 0.5
# A phone in use asks as its user types; a cell of LibreOffice sends three requests.
SECONDS_A_PHONE, REQUESTS_A_CELL = 2, 3
CELL = "/v1/holes/drill-point.txt?diameter=1/2%20in&full_depth=3/4%20in&pick=tip_depth&units=inch&digits=shop"
BATCH = json.dumps([{"calculator": "holes/drill-point", "inputs": {"diameter": "0.5 in"}}] * 100)


def request(method, address, kind="", body="", more=""):
    """A request as it goes over the wire."""
    has = f"Content-Type: {kind}\r\nContent-Length: {len(body)}\r\n" if body else ""
    return f"{method} {address} HTTP/1.1\r\nHost: shop\r\n{has}{more}\r\n{body}".encode()


def received(connection):
    """Takes one answer off a connection, of known length or in pieces; gives the bytes of its body."""
    data = b""
    while b"\r\n\r\n" not in data:
        data += got(connection)
    head, _, body = data.partition(b"\r\n\r\n")
    if not head.startswith(b"HTTP/1.1 200"):
        raise SystemExit(f"refused: {data[:600].decode(errors='replace')}")
    length = re.search(rb"content-length: (\d+)", head, re.I)
    while len(body) < int(length[1]) if length else not body.endswith(b"0\r\n\r\n"):
        body += got(connection)
    return len(body)


def got(connection):
    data = connection.recv(1 << 16)
    if not data:
        raise SystemExit("the service closed a connection")
    return data


def worked(pid):
    """Seconds of processor time of all threads of a process so far."""
    return sum(int(path.read_text().split()[0]) for path in Path(f"/proc/{pid}/task").glob("*/schedstat")) / 1e9


class Bench:
    """A running service, and what it uses."""

    def __init__(self, quick):
        self.quick = quick
        self.service = Instance("--body-limit", str(64 << 20), "--long-requests", "10000").start()
        self.process = Path(f"/proc/{self.service.process.pid}")
        self.at_rest = self.memory()
        self.connections = [self.connect() for _ in range(AT_ONCE)]

    def connect(self):
        return socket.create_connection(("127.0.0.1", self.service.port), 120)

    def worked(self):
        return worked(self.service.process.pid)

    def memory(self, name="VmRSS"):
        return int(re.search(rf"{name}:\s+(\d+)", (self.process / "status").read_text())[1]) / 1024

    def cost(self, asked):
        """Microseconds of processor time a request, least first, and the bytes of the answer."""
        self.round(asked)
        costs = []
        for _ in range(1 if self.quick else TIMES):
            before, rounds = self.worked(), 1 if self.quick else REQUESTS // AT_ONCE
            for _ in range(rounds):
                size = self.round(asked)
            costs.append((self.worked() - before) / rounds / AT_ONCE * 1e6)
        return sorted(costs), size

    def round(self, asked):
        """Every connection asks once."""
        for one in self.connections:
            one.sendall(asked)
        return [received(one) for one in self.connections][0]

    def rows(self, count):
        """Microseconds of processor time a row, least first, of a table by POST."""
        body = "diameter [in],full_depth [in]\n" + "0.5,0.75\n" * count
        costs = []
        for _ in range(1 if self.quick else TIMES):
            before = self.worked()
            with self.connect() as one:
                one.sendall(request("POST", ROWS_AT, "text/csv", body, "Connection: close\r\n"))
                lines = b"".join(iter(lambda one=one: one.recv(1 << 16), b"")).count(b"\n0.5,0.75,")
            if lines != count:
                raise SystemExit(f"{lines} rows came back of {count}")
            costs.append((self.worked() - before) / count * 1e6)
        return sorted(costs)


def measured(quick):
    """All numbers of the sheet."""
    bench = Bench(quick)
    try:
        listed = json.loads(bench.service.get("/v1/calculators"))
        found = {"version": listed["version"], "rest": bench.at_rest}
        found["calculators"] = {
            one["id"]: bench.cost(request("GET", one["examples"][0]["address"])) for one in listed["calculators"]
        }
        found["cell"], _ = bench.cost(request("GET", CELL))
        found["page"], _ = bench.cost(request("GET", "/holes/drill-point"))
        batches, _ = bench.cost(request("POST", "/v1/batch?working=false", "application/json", BATCH))
        found["batch"] = [one / 100 for one in batches]
        found["rows"] = bench.rows(1000 if quick else ROWS)
        found["asked"] = bench.memory()
        bench.service.get("/openapi.json")
        found["described"], found["most"] = bench.memory(), bench.memory("VmHWM")
        return found
    finally:
        bench.service.kill()


def machine():
    """What the numbers were measured on."""
    info = Path("/proc/cpuinfo").read_text(encoding="utf-8")
    model = re.search(r"model name\s*: (.*)", info)
    return f"{model[1] if model else platform.machine()}, {os.cpu_count()} cores, Linux {platform.release()}"


def worked_by_others():
    """Seconds of processor time so far of all programs but this one and those it started and waited for."""
    user, nice, system, _, _, _, _, steal = map(int, Path("/proc/stat").read_text().split()[1:9])
    return (user + nice + system + steal) / os.sysconf("SC_CLK_TCK") - sum(os.times()[:4])


class Others:
    """How many cores other programs take from now on, on the average."""

    def __init__(self):
        self.begun, self.before = time.monotonic(), worked_by_others()

    def cores(self):
        return max(0, worked_by_others() - self.before) / (time.monotonic() - self.begun)


def plain(number):
    """A number to two digits, with marks between thousands."""
    if number < 10:
        return f"{number:.1f}"
    step = 10 ** max(0, len(str(int(number))) - 2)
    return f"{round(number / step) * step:,}"


def row(what, costs):
    """A row of the table of measured costs."""
    return f"| {what} | {plain(statistics.median(costs))} | {plain(costs[0])} to {plain(costs[-1])} |"


def sheet(found, busy):
    """The sheet's text."""
    each = sorted(found["calculators"].items(), key=lambda one: statistics.median(one[1][0]))
    (middle, _), (longest, _) = each[len(each) // 2][1], each[-1][1]
    a_second = {
        name: SHARE * 1e6 / statistics.median(costs)
        for name, costs in (("answer", middle), *((name, found[name]) for name in ("cell", "batch", "rows")))
    }
    rows = "\n".join(
        f"| `{name}` | {size:,} | {plain(statistics.median(costs))} | {plain(1e6 / statistics.median(costs))} |"
        for name, (costs, size) in each
    )
    phones, cells = a_second["answer"] * SECONDS_A_PHONE, a_second["cell"] / REQUESTS_A_CELL
    return f"""# What one core serves

Made by `tests/deploy/capacity.py` on {datetime.date.today():%B %-d, %Y}: {machine()}; Shop Reckoner {found["version"]}.
It counts the processor time that the service itself uses, over loopback on {AT_ONCE} connections. A proxy and
encryption come on top. Other programs took {busy:.1f} of its cores meanwhile, which shows in the spread.
Measure yours the same way.

## Plan with this

Half of a core is planned with; the other half is for the busy minute.

| one core serves | how many | assumed |
|---|---|---|
| phones in use at once | {plain(phones)} | a whole answer every {SECONDS_A_PHONE} seconds each |
| cells of a spreadsheet, in a second | {plain(cells)} | {REQUESTS_A_CELL} requests a cell, as LibreOffice sends them |
| questions of a batch, in a second | {plain(a_second["batch"])} | `working=false`, a hundred in a request |
| rows of a table, in a second | {plain(a_second["rows"])} | `holes/drill-point`, by POST |

| memory | MB |
|---|---|
| at rest, with the example shop | {found["rest"]:.0f} |
| after every calculator was asked and {ROWS:,} rows came back | {found["asked"]:.0f} |
| after the description was read too | {found["described"]:.0f} |
| the most at any time | {found["most"]:.0f} |

The limit of 512 MiB in the unit and the manifests is for requests that are made to hurt: `tests/abuse/run` shows what
they take. A second core answers as much again. A second instance is there for the moment when the first is not, so
either must do alone.

## Measured

| what | microseconds, the median of {TIMES} | least to greatest |
|---|---|---|
{row("a cell: `.txt` with `pick`, one request", found["cell"])}
{row("a page with its form", found["page"])}
{row("a question in a batch", found["batch"])}
{row("a row of a table", found["rows"])}
{row("a whole answer, the middle calculator", middle)}
{row("a whole answer, the longest", longest)}

The whole answers, with their working, are those to the first example of each calculator:

| calculator | bytes | microseconds | a second a core |
|---|---|---|---|
{rows}
"""


def main():
    """Measures, and writes unless quick."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--quick", action="store_true", help="ask a few times and write nothing")
    quick = parser.parse_args().quick
    others = Others()
    found = measured(quick)
    text = sheet(found, others.cores())
    if not quick:
        SHEET.write_text(text, encoding="utf-8")
    a_row = plain(statistics.median(found["rows"]))
    print(f"{len(found['calculators'])} calculators measured, {a_row} microseconds a row")


if __name__ == "__main__":
    main()
