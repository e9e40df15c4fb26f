"""The requests of clients/http, sent to a running service: status and number as the comment above each says.

Run by tests/deploy/run.
"""

import json
import re
import subprocess
import sys
import unittest
import urllib.error
import urllib.request
from decimal import ROUND_HALF_UP, Decimal

from instances import ROOT, Instance

FOLDER = ROOT / "clients/http"
sys.path.insert(0, str(FOLDER))

import make  # noqa: E402
import messages  # noqa: E402

TEXT = (FOLDER / "requests.http").read_text(encoding="utf-8")


def sent(one, service):
    """Status and text of the answer to a message."""
    address = one.address.replace("{{service}}", service)
    request = urllib.request.Request(address, one.body.encode() or None, one.headers, method=one.method)
    try:
        with urllib.request.urlopen(request, timeout=20) as answer:
            return answer.status, answer.read().decode()
    except urllib.error.HTTPError as error:
        return error.code, error.read().decode()


def at(place, text):
    """The value at a place of the JSON."""
    value = json.loads(text)
    for name in place.strip("/").split("/"):
        value = value[int(name)] if isinstance(value, list) else value[name]
    return value


class Requests(unittest.TestCase):
    """Both files, against one service with the example shop."""

    @classmethod
    def setUpClass(cls):
        cls.service = Instance().start()
        cls.addClassCleanup(cls.service.kill)
        cls.variables, cls.messages = messages.read(TEXT)

    def test_there_are_about_twenty_and_all_go_to_the_one_address(self):
        self.assertEqual(set(self.variables), {"service"})
        self.assertGreaterEqual(len(self.messages), 20)
        self.assertEqual(len({one.title for one in self.messages}), len(self.messages))
        self.assertEqual(TEXT.count("http://"), 1, "the address of the service is written once")
        for one in self.messages:
            self.assertTrue(one.address.startswith("{{service}}/"), one.title)

    def test_each_is_answered_as_its_comment_says(self):
        for one in self.messages:
            with self.subTest(one.title):
                status, value, place = one.expected()
                came, text = sent(one, self.service.base)
                self.assertEqual(came, status, text[:300])
                self.hold(value, place, text)

    def hold(self, value, place, text):
        came = at(place, text) if place else text
        if isinstance(value, Decimal):
            self.assertEqual(Decimal(str(came)).quantize(value, ROUND_HALF_UP), value)
        elif place:
            self.assertEqual(came, value)
        else:
            self.assertIn(value, came)

    def test_the_script_for_curl_is_made_from_the_file_and_gets_the_same(self):
        self.assertEqual((FOLDER / "requests.sh").read_text(encoding="utf-8"), make.script(TEXT), "run make.py")
        done = subprocess.run(
            [str(FOLDER / "requests.sh"), self.service.base], capture_output=True, text=True, timeout=120, check=True
        )
        parts = re.split(r"^### (.*)\n", done.stdout, flags=re.M)[1:]
        self.assertEqual(parts[::2], [one.title for one in self.messages])
        for one, part in zip(self.messages, parts[1::2], strict=True):
            with self.subTest(one.title):
                status, value, place = one.expected()
                body, _, came = part.rstrip("\n").rpartition("\n# ")
                self.assertEqual(int(came), status)
                self.hold(value, place, body)


class Reading(unittest.TestCase):
    """Reading such a file."""

    def test_a_message_is_read_whole(self):
        text = (
            "@service = http://x\n\n### A\n# Expect 422 and 1.5 at /a/0.\n"
            "POST {{service}}/b HTTP/1.1\nA: b:c\n\n{\n}\n\n### B\nGET {{service}}/ HTTP/1.1\n"
        )
        variables, (first, second) = messages.read(text)
        self.assertEqual((variables, first.headers, first.body), ({"service": "http://x"}, {"A": "b:c"}, "{\n}"))
        self.assertEqual(first.expected(), (422, Decimal("1.5"), "/a/0"))
        with self.assertRaises(ValueError):
            second.expected()
        with self.assertRaises(ValueError):
            messages.message("A\nGET /b\n")


if __name__ == "__main__":
    unittest.main()
