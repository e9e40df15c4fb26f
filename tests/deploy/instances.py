"""Instances of the service as processes, and a steady load of several callers on kept-alive connections."""

import collections
import http.client
import os
import re
import signal
import socket
import ssl
import subprocess
import threading
import time
import urllib.request
from pathlib import Path

ROOT = Path(__file__).resolve().parents[2]
DEPLOY = ROOT / "clients/deploy"
BINARY = os.environ.get("SHOP_RECKONER_BIN", str(ROOT / "target/trial/shop-reckoner"))
SHOP = ROOT / "data/shop/tern-point-works.toml"


def free_port():
    with socket.socket() as one:
        one.bind(("127.0.0.1", 0))
        return one.getsockname()[1]


class Instance:
    """One running service at a port of its own, which it keeps when it starts again."""

    def __init__(self, *flags):
        self.port, self.flags, self.process = free_port(), flags, None
        self.base = f"http://127.0.0.1:{self.port}"

    def start(self):
        command = [BINARY, "--listen", f"127.0.0.1:{self.port}", "--shop", str(SHOP), "--log", "error", *self.flags]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True)
        if not re.search(r" answers at ", self.process.stdout.readline()):
            raise RuntimeError(self.process.stderr.read())
        return self

    def kill(self):
        self.process.kill()
        self.process.communicate()

    def stop(self):
        """As an operator stops it; gives its exit code."""
        self.process.send_signal(signal.SIGTERM)
        self.process.communicate(timeout=30)
        return self.process.returncode

    def get(self, path):
        with urllib.request.urlopen(self.base + path, timeout=20) as answer:
            return answer.read().decode()

    def answered(self):
        """How many questions it has answered since it started."""
        lines = [line for line in self.get("/metrics").splitlines() if line.startswith("shop_reckoner_requests_total{")]
        return sum(float(line.rsplit(" ", 1)[1]) for line in lines)


QUERY = "diameter=1/2%20in&point_angle=118deg&units=inch"
JSON = '{"diameter": "1/2 in", "point_angle": "118 deg", "units": "inch"}'
# Each answer has the length of the point of a half-inch drill in it.
QUESTIONS = [
    ("GET", f"/v1/holes/drill-point?{QUERY}", None, None),
    ("POST", "/v1/holes/drill-point", JSON, "application/json"),
    ("GET", f"/v1/holes/drill-point.txt?{QUERY}&digits=shop&pick=point_length", None, None),
    ("POST", "/v1/batch", f'[{{"calculator": "holes/drill-point", "inputs": {JSON}}}]', "application/json"),
    ("POST", "/v1/holes/drill-point.csv?units=inch", "diameter [in]\n" + "0.5\n" * 50, "text/csv"),
]
POINT = b"0.1502"


class Load:
    """Callers who ask at their pace until told to stop. Counts what came back. An answer that breaks off after its
    beginning was passed on cannot be sent again by a balancer: it is counted by itself, and the caller asks again."""

    def __init__(self, port, callers=8, pause=0.02, trusts=None):
        self.port, self.pause, self.trusts = port, pause, trusts
        self.count, self.lost, self.cut = collections.Counter(), [], []
        self.ended = threading.Event()
        self.threads = [threading.Thread(target=self.call, args=(at,)) for at in range(callers)]

    def __enter__(self):
        for thread in self.threads:
            thread.start()
        return self

    def __exit__(self, *_):
        self.ended.set()
        for thread in self.threads:
            thread.join(60)

    def connect(self):
        if self.trusts is None:
            return http.client.HTTPConnection("127.0.0.1", self.port, timeout=30)
        context = ssl.create_default_context(cafile=self.trusts)
        context.check_hostname = False
        return http.client.HTTPSConnection("127.0.0.1", self.port, timeout=30, context=context)

    def call(self, at):
        connection = self.connect()
        while not self.ended.is_set():
            at += 1
            question = QUESTIONS[at % len(QUESTIONS)]
            self.count[question[0]] += 1
            try:
                self.ask(connection, question)
            except http.client.IncompleteRead as error:
                self.cut.append(f"{question[:2]}: {error}")
                connection.close()
                connection = self.connect()
                self.ask_again(connection, question)
            except (OSError, http.client.HTTPException) as error:
                self.lost.append(f"{question[:2]}: {type(error).__name__} {error}")
                connection.close()
                connection = self.connect()
            time.sleep(self.pause)
        connection.close()

    def ask(self, connection, question):
        method, path, body, kind = question
        connection.request(method, path, body, {"Content-Type": kind} if kind else {})
        answer = connection.getresponse()
        whole = answer.read()
        if answer.status != 200 or POINT not in whole:
            self.lost.append(f"{question[:2]}: {answer.status} {whole[:120]!r}")

    def ask_again(self, connection, question):
        try:
            self.ask(connection, question)
        except (OSError, http.client.HTTPException) as error:
            self.lost.append(f"{question[:2]}, asked again: {type(error).__name__} {error}")
