"""What the tests of the workbook know of services: the running one, and one that says the same to everything."""

import contextlib
import http.server
import json
import os
import threading
import urllib.parse
import urllib.request

SERVICE = os.environ["SHOP_RECKONER"]


def asked(calculator, **fields):
    """The whole answer of the service to what a row asks."""
    query = urllib.parse.urlencode(fields, quote_via=urllib.parse.quote)
    with urllib.request.urlopen(f"{SERVICE}/v1/{calculator}?{query}", timeout=20) as answer:
        return json.load(answer)["result"]


def answered():
    """How many cells the service has answered or refused so far, by its own counters."""
    with urllib.request.urlopen(f"{SERVICE}/metrics", timeout=20) as answer:
        text = answer.read().decode()
    lines = [line for line in text.splitlines() if line.startswith("shop_reckoner_requests_total{")]
    return sum(float(line.rsplit(" ", 1)[1]) for line in lines)


class Other(http.server.BaseHTTPRequestHandler):
    """Another service, which answers 7 to every question and keeps what it was asked."""

    seen = []

    def do_GET(self):
        Other.seen.append(self.path)
        self.reply()

    def do_HEAD(self):
        self.reply()

    def do_OPTIONS(self):
        self.reply()

    def reply(self):
        self.send_response(200)
        self.send_header("Content-Type", "text/plain; charset=utf-8")
        self.send_header("Content-Length", "1")
        self.end_headers()
        if self.command == "GET":
            self.wfile.write(b"7")

    def log_message(self, *_):
        pass


@contextlib.contextmanager
def other_service(port=0):
    """A running one of them; gives its address."""
    server = http.server.ThreadingHTTPServer(("127.0.0.1", port), Other)
    threading.Thread(target=server.serve_forever, daemon=True).start()
    Other.seen.clear()
    try:
        yield f"http://127.0.0.1:{server.server_port}"
    finally:
        server.shutdown()
        server.server_close()
