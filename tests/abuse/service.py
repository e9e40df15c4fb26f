"""The service as a process: built, started, watched from outside through /proc, and ended."""

import asyncio
import os
import pathlib
import re
import signal
import subprocess
import tempfile
import time

ROOT = pathlib.Path(__file__).resolve().parents[2]
TICKS = os.sysconf("SC_CLK_TCK")
RUNNING = set()


def built():
    """The executable: the one named, or one built here."""
    named = os.environ.get("SHOP_RECKONER_BIN")
    if not named:
        words = 'set -e; . ../service.sh; build; echo "$executables/shop-reckoner"'
        named = subprocess.check_output(["bash", "-c", words], cwd=ROOT / "tests/abuse", text=True).strip()
    return pathlib.Path(named).resolve()


class Settings:
    """What the executable can be told in seconds, as it says itself, and what it is told here."""

    def __init__(self, binary, wanted):
        helped = subprocess.run([binary, "--help"], capture_output=True, text=True, check=True).stdout
        self.binary = binary
        self.seconds = {}
        for part in re.split(r"\n(?=\s+(?:-\w, )?--)", helped):
            name, default = re.search(r"--([\w-]+) <SECONDS>", part), re.search(r"\[default: ([\d.]+)\]", part)
            if name and default:
                self.seconds[name[1]] = float(default[1])
        # A setting is known by its name or by a word of it.
        by_word = {name: next((wanted[word] for word in name.split("-") if word in wanted), None) for name in self.seconds}
        self.told = {name: wanted.get(name, by_word[name]) for name in self.seconds}
        self.told = {name: value for name, value in self.told.items() if value is not None}
        self.seconds.update(self.told)
        if not {"timeout", "stop-timeout"} <= self.seconds.keys():
            raise SystemExit(f"{binary} does not say by --help how to set timeout and stop-timeout")
        self.timeout, self.stop = self.seconds["timeout"], self.seconds["stop-timeout"]
        self.drain = self.of("drain", 0.0)
        # A reader has the time of a request unless there is a setting of its own.
        self.reader = self.of("read", self.timeout)

    def of(self, word, absent):
        """The setting whose name has the word in it."""
        return next((value for name, value in self.seconds.items() if word in name), absent)

    def flags(self):
        return [word for name, value in self.told.items() for word in (f"--{name}", f"{value:g}")]

    def says(self):
        return ", ".join(f"{name} {value:g} s" for name, value in self.seconds.items())


class Service:
    """One running service."""

    def __init__(self, process, port, log):
        self.process, self.pid, self.port, self.log = process, process.pid, port, log

    @classmethod
    async def start(cls, settings, port=0):
        log = tempfile.TemporaryFile()
        process = await asyncio.create_subprocess_exec(
            settings.binary, "--listen", f"127.0.0.1:{port}", "--log", "warn", *settings.flags(),
            stdin=subprocess.DEVNULL, stdout=subprocess.PIPE, stderr=log)
        RUNNING.add(process)
        line = await asyncio.wait_for(process.stdout.readline(), 10)
        said = re.search(rb"answers at http://[^/]*:(\d+)/", line)
        if not said:
            raise SystemExit(f"the service did not start: {line.decode()}{cls(process, 0, log).logged()}")
        return cls(process, int(said[1]), log)

    def proc(self, name):
        return pathlib.Path(f"/proc/{self.pid}/{name}").read_text()

    def runs(self):
        return self.process.returncode is None

    def resident(self, most=False):
        """Resident memory in MB, now or the most there has been."""
        try:
            found = re.search(rf"{'VmHWM' if most else 'VmRSS'}:\s+(\d+)", self.proc("status"))
        except OSError:
            return 0.0
        return int(found[1]) / 1024 if found else 0.0

    def descriptors(self):
        return len(os.listdir(f"/proc/{self.pid}/fd"))

    def worked(self):
        """Seconds of processor time used so far."""
        parts = self.proc("stat").rpartition(")")[2].split()
        return (int(parts[11]) + int(parts[12])) / TICKS

    def logged(self):
        self.log.seek(0)
        return self.log.read().decode(errors="replace")

    def tell_to_stop(self):
        if self.runs():
            self.process.send_signal(signal.SIGTERM)

    async def ended(self, within):
        """Waits for the end of the process; the seconds it took, or None where it had to be killed."""
        begun = time.monotonic()
        try:
            await asyncio.wait_for(self.process.wait(), within)
        except TimeoutError:
            self.process.kill()
            await self.process.wait()
            return None
        finally:
            if not self.runs():
                RUNNING.discard(self.process)
        return time.monotonic() - begun

    async def kill(self):
        if self.runs():
            self.process.kill()
            await self.process.wait()
        RUNNING.discard(self.process)
        self.log.close()


def kill_all():
    """Ends whatever was started and still runs."""
    for process in RUNNING:
        if process.returncode is None:
            try:
                process.kill()
            except ProcessLookupError:
                pass


class Memory:
    """Samples of resident memory, taken all along."""

    def __init__(self):
        self.most = 0.0
        self.watched = []

    def watch(self, service):
        self.watched.append(service)

    def look(self):
        for service in self.watched:
            self.most = max(self.most, service.resident(), service.resident(most=True))

    async def run(self):
        while True:
            self.look()
            await asyncio.sleep(0.05)
