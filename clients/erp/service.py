"""The service, asked in batches: one question a line of JSON, answered in order, again where it did not answer."""

import contextlib
import http.client
import json
import random
import time
import urllib.parse
from decimal import Decimal

LINES = "application/x-ndjson"
# Told to come again later.
BUSY = (429, 500, 502, 503, 504)
LONGEST_WAIT = 60.0


class Unreachable(Exception):
    """The service was asked as often as agreed and did not answer everything."""


class Turned(Exception):
    """The service answers, but not to this: a wrong address or a service of another kind."""


class Service:
    """A service at an address."""

    def __init__(self, address, tries=6, timeout=60.0, first_wait=0.5, say=print, sleep=time.sleep):
        self.parts = urllib.parse.urlsplit(address)
        if self.parts.scheme not in ("http", "https") or not self.parts.hostname:
            raise Turned(f"{address!r} is no address of a service; one looks like http://127.0.0.1:8080")
        self.tries, self.timeout, self.first_wait, self.say, self.sleep = tries, timeout, first_wait, say, sleep
        self.retries = 0

    def ask(self, questions):
        """Answers by id: `{"answer": …}` or `{"problem": …}`. What came before a connection broke is kept, and
        only the rest is asked again."""
        answers, failures, alone = {}, 0, False
        while len(answers) < len(questions):
            left = {id: question for id, question in questions.items() if id not in answers}
            if alone:
                left = dict([next(iter(left.items()))])
            before, wait = len(answers), None
            try:
                wait, reason, ended = self.post(left, answers)
            except (OSError, http.client.HTTPException) as error:
                reason, ended = f"{type(error).__name__}: {error}", False
            got = len(answers) - before
            if got == len(left):
                continue
            # Whoever gets on is not failing.
            failures = 1 if got else failures + 1
            if failures >= self.tries:
                if not (ended and len(left) == 1):
                    where = self.parts.geturl()
                    raise Unreachable(f"{where} did not answer in {failures} tries; the last time: {reason}")
                # One question that the service cannot get over must not hold up the others for ever.
                problem = {"detail": f"The service failed at this in {failures} tries.", "errors": []}
                answers[next(iter(left))] = {"problem": problem}
                failures = 0
                continue
            alone = alone or ended
            self.retries += 1
            wait = self.wait(failures) if wait is None else min(wait, LONGEST_WAIT)
            self.say(f"asked {len(left)}, answered {got} ({reason}); again in {wait:.1f} s")
            self.sleep(wait)
        return answers

    def known(self):
        """The fields that each calculator asks for, and what the shop's file says of each machine."""
        for failures in range(1, self.tries + 1):
            wait = None
            try:
                with contextlib.closing(self.connection()) as connection:
                    connection.request("GET", self.path("/v1/calculators"), headers={"Accept": "application/json"})
                    response = connection.getresponse()
                    if response.status == 200:
                        return read_register(json.loads(response.read()))
                    wait, reason, _ = self.turned(response, "/v1/calculators")
            except (OSError, http.client.HTTPException) as error:
                reason = f"{type(error).__name__}: {error}"
            except (ValueError, KeyError, TypeError) as error:
                raise Turned(f"{self.parts.geturl()} lists no calculators as this service does: {error}") from error
            if failures < self.tries:
                self.retries += 1
                self.sleep(self.wait(failures) if wait is None else min(wait, LONGEST_WAIT))
        raise Unreachable(f"{self.parts.geturl()} did not answer in {self.tries} tries; the last time: {reason}")

    def connection(self):
        kind = http.client.HTTPSConnection if self.parts.scheme == "https" else http.client.HTTPConnection
        return kind(self.parts.hostname, self.parts.port, timeout=self.timeout)

    def path(self, address):
        return self.parts.path.rstrip("/") + address

    def wait(self, failures):
        """Twice as long each time, and not all callers at the same moment."""
        return min(self.first_wait * 2 ** (failures - 1), LONGEST_WAIT) * random.uniform(0.75, 1.25)

    def post(self, questions, answers):
        """Sends the questions and takes what comes; gives how long to wait if told, why not all came, and whether
        the service said as much as it had to say."""
        connection = self.connection()
        body = "".join(json.dumps({"id": id, **question}) + "\n" for id, question in questions.items())
        try:
            connection.request("POST", self.path("/v1/batch"), body.encode(), {"Content-Type": LINES, "Accept": LINES})
            response = connection.getresponse()
            if response.status != 200:
                return self.turned(response, "/v1/batch")
            lines = 0
            for line in response:
                lines += line.endswith(b"\n")
                item = parsed(line)
                if item.get("id") in questions and not busy(item):
                    answers[item["id"]] = item
            return None, f"{lines} whole lines came for {len(questions)}", lines >= len(questions)
        finally:
            connection.close()

    def turned(self, response, address):
        """What a status other than 200 means."""
        said = response.read(4096).decode("utf-8", "replace").strip()
        if response.status in BUSY:
            after = response.getheader("Retry-After", "")
            return (float(after) if after.isdigit() else None), f"status {response.status}", False
        try:
            said = json.loads(said)["detail"]
        except (ValueError, KeyError, TypeError):
            pass
        raise Turned(f"{self.parts.geturl()}{address} answers with status {response.status}: {said[:500]}")


def read_register(whole):
    """What is used of the list of calculators."""
    asks = {one["id"]: {field["name"] for field in one["fields"]} for one in whole["calculators"]}
    return asks, {machine["name"]: machine["fields"] for machine in whole.get("shop", {}).get("machines", [])}


def parsed(line):
    """A line as it came; one that was cut off holds nothing."""
    try:
        item = json.loads(line, parse_float=Decimal)
    except ValueError:
        item = {}
    return item if isinstance(item, dict) else {}


def busy(item):
    """Whether an item failed by the service's fault, and not by its own."""
    problem = item.get("problem")
    return "answer" not in item and (not isinstance(problem, dict) or problem.get("status") in BUSY)
