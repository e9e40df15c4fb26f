"""Two instances behind the balancers of the examples: one is killed, the other restarted, and no request is lost.

Run by tests/deploy/run. The examples are used as they stand but for ports, paths and the name of the computer.
"""

import os
import re
import shutil
import ssl
import subprocess
import tempfile
import time
import unittest
import urllib.error
import urllib.request
from pathlib import Path

from instances import DEPLOY, Instance, Load, free_port

NGINX, CADDY = os.environ.get("NGINX_PROGRAM", "nginx"), os.environ.get("CADDY", "caddy")
# Around the example, what an installed nginx has around it; everything is kept in one folder.
MAIN = """
daemon off;
pid {folder}/pid;
error_log {folder}/error.log;
events {{}}
http {{
    log_format tries '$status $request_method $upstream_addr';
    access_log {folder}/access.log tries;
    client_body_temp_path {folder}/body;
    proxy_temp_path {folder}/proxy;
    fastcgi_temp_path {folder}/fastcgi;
    uwsgi_temp_path {folder}/uwsgi;
    scgi_temp_path {folder}/scgi;
    include {folder}/example.conf;
}}
"""


def example(name, changes):
    """The text of an example with its ports and paths changed; each must be in it."""
    text = (DEPLOY / name).read_text(encoding="utf-8")
    for old, new in changes.items():
        if not re.search(old, text):
            raise AssertionError(f"{name} has no {old}")
        text = re.sub(old, new, text)
    return text


class Balanced:
    """What every balancer must hold to."""

    secure = False

    def setUp(self):
        self.folder = Path(tempfile.mkdtemp(prefix="balancer-"))
        self.addCleanup(shutil.rmtree, self.folder)
        self.folder.chmod(0o755)
        self.first, self.second = (
            Instance("--drain-timeout", "2", "--stop-timeout", "5", "--trust-forwarded", "x-forwarded-for").start()
            for _ in "12"
        )
        for instance in (self.first, self.second):
            self.addCleanup(lambda instance=instance: instance.process.poll() is None and instance.kill())
        self.port = free_port()
        self.balancer = self.start_balancer()
        self.addCleanup(self.balancer.wait, 20)
        self.addCleanup(self.balancer.terminate)
        self.trusts = str(self.folder / "certificate.pem") if self.secure else None
        for _ in range(100):
            try:
                self.ask("/healthz")
                return
            except OSError:
                time.sleep(0.1)
        self.fail(f"the balancer does not answer: {self.said()}")

    def ask(self, path, port=None):
        """Status of a request, redirects not followed."""
        kind = "https" if self.secure and port is None else "http"
        context = ssl._create_unverified_context() if kind == "https" else None
        still = type("Still", (urllib.request.HTTPRedirectHandler,), {"redirect_request": lambda *_: None})
        ask = urllib.request.build_opener(still, urllib.request.HTTPSHandler(context=context))
        try:
            with ask.open(f"{kind}://127.0.0.1:{port or self.port}{path}", timeout=10) as answer:
                return answer.status
        except urllib.error.HTTPError as error:
            return error.code

    def said(self):
        return (self.folder / "error.log").read_text(encoding="utf-8")

    def asked_again(self, instance):
        """Waits until the instance answers its share."""
        for _ in range(100):
            if instance.answered() > 20:
                return
            time.sleep(0.2)
        self.fail("an instance that is there gets no requests within 20 s")

    def one_killed_the_other_restarted(self):
        """Runs it under load; gives the load, for its counts."""
        with Load(self.port, trusts=self.trusts) as load:
            self.asked_again(self.first)
            self.asked_again(self.second)
            self.first.kill()
            time.sleep(2)
            self.first.start()
            self.asked_again(self.first)
            self.assertEqual(self.second.stop(), 0)
            time.sleep(1)
            self.second.start()
            self.asked_again(self.second)
            time.sleep(2)
        self.assertGreater(min(load.count["GET"], load.count["POST"]), 300, load.count)
        return load

    def test_metrics_are_not_for_the_outside(self):
        self.assertEqual(self.ask("/metrics"), 403)


class Nginx(Balanced, unittest.TestCase):
    """nginx.conf, with its encryption."""

    secure = True

    def start_balancer(self):
        make = "openssl req -x509 -newkey rsa:2048 -nodes -days 2 -subj /CN=shop.example"
        make += " -keyout key.pem -out certificate.pem"
        subprocess.run(make.split(), cwd=self.folder, check=True, capture_output=True)
        self.plain = free_port()
        changes = {
            r"127\.0\.0\.1:8081": f"127.0.0.1:{self.first.port}",
            r"127\.0\.0\.1:8082": f"127.0.0.1:{self.second.port}",
            r"listen 443 ssl;": f"listen 127.0.0.1:{self.port} ssl;",
            r"listen 80;": f"listen 127.0.0.1:{self.plain};",
            r"/etc/ssl/shop-reckoner": str(self.folder),
        }
        (self.folder / "example.conf").write_text(example("nginx.conf", changes))
        (self.folder / "nginx.conf").write_text(MAIN.format(folder=self.folder))
        files = {"-p": self.folder, "-c": self.folder / "nginx.conf", "-e": self.folder / "error.log"}
        command = [NGINX, *(str(word) for pair in files.items() for word in pair)]
        subprocess.run([*command, "-t", "-q"], check=True)
        return subprocess.Popen(command)

    def test_no_request_is_lost(self):
        load = self.one_killed_the_other_restarted()
        tries = (self.folder / "access.log").read_text(encoding="utf-8").splitlines()
        again = [line for line in tries if "," in line]
        asked = f"{load.count['GET']} GET, {load.count['POST']} POST"
        print(f"nginx: {asked}, {len(again)} sent again, {len(load.cut)} cut off in the answer, {len(load.lost)} lost")
        self.assertFalse(load.lost, load.lost[:5])
        # No more than were in hand when the instance was killed.
        self.assertLessEqual(len(load.cut), len(load.threads), load.cut)
        # Had nothing been cut off or refused, nothing would have been tried.
        self.assertGreater(len(again), 0)

    def test_plain_requests_are_sent_to_the_encrypted_port(self):
        self.assertEqual(self.ask("/", self.plain), 308)


@unittest.skipUnless(shutil.which(CADDY), "caddy cannot be had here: its example is not run")
class Caddy(Balanced, unittest.TestCase):
    """Caddyfile, without encryption, since no certificate is to be had for the name in it."""

    def start_balancer(self):
        changes = {
            r"127\.0\.0\.1:8081": f"127.0.0.1:{self.first.port}",
            r"127\.0\.0\.1:8082": f"127.0.0.1:{self.second.port}",
            r"shop\.example \{": f"{{\n\tadmin off\n}}\nhttp://127.0.0.1:{self.port} {{",
        }
        config = self.folder / "Caddyfile"
        config.write_text(example("Caddyfile", changes))
        log = open(self.folder / "error.log", "wb")
        self.addCleanup(log.close)
        command = [CADDY, "run", "--config", str(config), "--adapter", "caddyfile"]
        return subprocess.Popen(command, stderr=log, env=os.environ | {"HOME": str(self.folder)})

    def test_no_get_is_lost(self):
        load = self.one_killed_the_other_restarted()
        lost = [one for one in load.lost if "GET" in one]
        asked = f"{load.count['GET']} GET, {load.count['POST']} POST"
        print(f"caddy: {asked}, {len(lost)} GET and {len(load.lost) - len(lost)} POST lost")
        self.assertFalse(lost, lost[:5])


if __name__ == "__main__":
    unittest.main()
