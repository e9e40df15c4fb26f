"""A way to the service that fails as told: busy, cut off in the middle of an answer, silent."""

import http.server
import json
import threading
import urllib.request


class Unsteady(http.server.ThreadingHTTPServer):
    """Stands before a service. `faults` are what becomes of the next requests, in order; later ones pass. Keeps the
    ids that were asked and those that were answered in whole lines."""

    daemon_threads = True

    def __init__(self, service, faults=()):
        super().__init__(("127.0.0.1", 0), Way)
        self.service, self.faults = service, list(faults)
        self.asked, self.requests = [], 0
        self.silent = threading.Event()
        self.address = f"http://127.0.0.1:{self.server_port}"
        threading.Thread(target=self.serve_forever, daemon=True).start()

    def __enter__(self):
        return self

    def __exit__(self, *_):
        self.silent.set()
        self.shutdown()
        self.server_close()


class Way(http.server.BaseHTTPRequestHandler):
    """One request."""

    def do_GET(self):
        """The list of calculators passes, whatever is to become of the questions."""
        with urllib.request.urlopen(self.server.service + self.path, timeout=60) as answer:
            self.answer(200, answer.read(), {})

    def do_POST(self):
        way = self.server
        body = self.rfile.read(int(self.headers["Content-Length"]))
        way.requests += 1
        if "json" in self.headers["Content-Type"]:
            way.asked += [json.loads(line).get("id") for line in body.splitlines()]
        fault = way.faults.pop(0) if way.faults else None
        if fault == "silent":
            way.silent.wait(60)
            self.close_connection = True
        elif isinstance(fault, int):
            self.answer(fault, b'{"detail": "busy"}', {"Retry-After": "0"})
        else:
            request = urllib.request.Request(
                way.service + self.path, body, {"Content-Type": self.headers["Content-Type"]}
            )
            with urllib.request.urlopen(request, timeout=60) as answer:
                whole = answer.read()
            if fault == "cut":
                # All but the last line and a half, as a broken wire leaves it.
                lines = whole.splitlines(keepends=True)
                part = b"".join(lines[:-1]) + lines[-1][: len(lines[-1]) // 2]
                self.send_response(200)
                self.send_header("Content-Length", str(len(whole)))
                self.end_headers()
                self.wfile.write(part)
                self.close_connection = True
            else:
                self.answer(200, whole, {})

    def answer(self, status, body, headers):
        self.send_response(status)
        for name, value in headers.items():
            self.send_header(name, value)
        self.send_header("Content-Length", str(len(body)))
        self.end_headers()
        self.wfile.write(body)

    def log_message(self, *_):
        pass
