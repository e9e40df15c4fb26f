"""What the parts of the benchmark share: random requests, servers with their memory, loads by wrk in turn, rows of a table."""

import dataclasses
import os
import random
import re
import statistics
import subprocess
import sys
import time
import urllib.error
import urllib.request
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
BENCH, WORK = ROOT / "tests/bench", ROOT / "tests/bench/.work"
sys.path.insert(0, str(ROOT / "tests/deploy"))

from capacity import plain, worked  # noqa: E402
from instances import free_port  # noqa: E402

# The question of most parts. <1..2> is a number between, <a|b> one of the words, drawn anew for each request.
DRILL = "diameter=<0.1..2>%20in&point_angle=<60..140>%20deg&full_depth=<0..3>%20in"
DRILL_POINT = f"/v1/holes/drill-point?{DRILL}"
# Kept-alive connections of a load.
CONNECTIONS = 32
# How busy the service keeps its processors while waits are measured.
BUSY = 0.8


def filled(template, rnd=random):
    """A request drawn from a template."""

    def draw(found):
        low, between, high = found[1].partition("..")
        return f"{rnd.uniform(float(low), float(high)):.4f}" if between else rnd.choice(found[1].split("|"))

    return re.sub("<([^>]*)>", draw, template)


@dataclasses.dataclass
class Row:
    """A row of the table: two figures in words, the ratios of their pairs, and what README calls it, if it shows it."""

    what: str
    ours: str
    other: str = ""
    ratios: tuple = ()
    short: str = ""

    def cells(self):
        spread = f"{min(self.ratios):.2f} to {max(self.ratios):.2f}" if len(self.ratios) > 1 else ""
        return self.what, self.ours, self.other, f"{statistics.median(self.ratios):.2f}" if self.ratios else "", spread


def rates_row(what, ours, other, unit, name, short=""):
    """A row of two lists of rates, measured in turn."""
    first, second = plain(statistics.median(ours)), plain(statistics.median(other))
    ratios = tuple(a / b for a, b in zip(ours, other))
    return Row(what, f"{first}{unit}", f"{name}: {second}{unit}", ratios, short)


class Server:
    """A server that runs, and answered `address` once; `started` is how many seconds that took."""

    def __init__(self, command, address, **more):
        self.port = free_port()
        begun = time.perf_counter()
        self.process = subprocess.Popen([part.format(port=self.port) for part in command], stdout=subprocess.DEVNULL, **more)
        while True:
            try:
                self.first = self.get(address)
                break
            except OSError as error:
                if isinstance(error, urllib.error.HTTPError) or time.perf_counter() - begun > 20:
                    self.stop()
                    raise
                time.sleep(0.0005)
        self.started = time.perf_counter() - begun

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.stop()

    def stop(self):
        self.process.terminate()
        self.process.wait()

    def get(self, address, body=None):
        kind = {"Content-Type": "application/json"} if body else {}
        request = urllib.request.Request(f"http://127.0.0.1:{self.port}{address}", body, kind)
        with urllib.request.urlopen(request, timeout=20) as answer:
            return answer.read()

    def processes(self):
        """The numbers of its processes, the first that of the one that was started."""
        pids, parents = [self.process.pid], {}
        for status in Path("/proc").glob("[0-9]*/status"):
            try:
                text = status.read_text()
            except OSError:
                continue
            parents.setdefault(int(re.search(r"PPid:\s+(\d+)", text)[1]), []).append(int(status.parent.name))
        for pid in pids:
            pids += parents.get(pid, [])
        return pids

    def memory(self):
        """MB a second later, of all its processes; what several of them share counts once."""
        time.sleep(1)
        pids = self.processes()
        of = "Rss" if len(pids) == 1 else "Pss"
        texts = [Path(f"/proc/{pid}/smaps_rollup").read_text() for pid in pids]
        return sum(int(re.search(rf"^{of}:\s+(\d+)", text, re.M)[1]) for text in texts) / 1024

    def worked(self):
        """Seconds of processor time of all its processes so far."""
        return sum(map(worked, self.processes()))

    def forget_peak(self):
        Path(f"/proc/{self.process.pid}/clear_refs").write_text("5")

    def peak(self):
        """The most MB resident since `forget_peak`."""
        status = Path(f"/proc/{self.process.pid}/status").read_text()
        return int(re.search(r"VmHWM:\s+(\d+)", status)[1]) / 1024


class Programs:
    """Where the executables are, and how long to measure."""

    def __init__(self, folder, quick, python):
        self.folder, self.quick, self.python = folder, quick, python

    def service(self, *flags):
        command = [str(self.folder / "shop-reckoner"), "--listen", "127.0.0.1:{port}", "--log", "warn", *flags]
        return Server(command, filled(DRILL_POINT))

    def bare(self, body):
        """A bare route of the same framework that sends the same bytes each time."""
        WORK.mkdir(exist_ok=True)
        (WORK / "body").write_bytes(body)
        return Server([str(self.folder / "examples/constant"), str(WORK / "body"), "{port}"], "/")

    def python_service(self, keep="1"):
        """The counterpart in Python, with as many processes as there are cores."""
        options = ["--loop", "uvloop", "--http", "httptools", "--no-access-log", "--log-level", "error"]
        command = [self.python, "-m", "uvicorn", "python_service:app", "--workers", str(os.cpu_count()), *options]
        server = Server([*command, "--port", "{port}"], filled(DRILL_POINT), cwd=BENCH, env={**os.environ, "KEEP": keep})
        # The other processes may come later than the first answer.
        load(server, DRILL_POINT, 2)
        return server

    def in_turn(self, one, other, pairs=5):
        """What two measurements gave, made A B A B ..."""
        return zip(*((one(), other()) for _ in range(1 if self.quick else pairs)))


def load(server, path, seconds=1, connections=CONNECTIONS, item=None, items=0):
    """Requests a second under full load by wrk."""
    given = {"BENCH_PATH": path, **({"BENCH_ITEM": item, "BENCH_ITEMS": str(items)} if item else {})}
    command = ["wrk", f"-t{min(2, connections)}", f"-c{connections}", f"-d{seconds}s", "--timeout", "30s"]
    command += ["-s", str(BENCH / "requests.lua"), f"http://127.0.0.1:{server.port}"]
    out = subprocess.run(command, env={**os.environ, **given}, capture_output=True, text=True, check=True).stdout
    if "Non-2xx" in out or "Socket errors" in out:
        sys.exit(f"{path} was refused or cut off under load:\n{out}")
    return float(re.search(r"Requests/sec:\s+([\d.]+)", out)[1])
