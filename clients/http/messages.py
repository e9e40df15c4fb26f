"""A file of requests as editors run it: messages parted by lines that begin with ###, with variables and comments."""

import re
from dataclasses import dataclass, field
from decimal import Decimal


@dataclass
class Message:
    """One request: its title, what is expected of it, and what is sent."""

    title: str
    comments: list = field(default_factory=list)
    method: str = ""
    address: str = ""
    headers: dict = field(default_factory=dict)
    body: str = ""

    def expected(self):
        """Status, text or number, and the place of it in the answer's JSON; from `# Expect 200 and "#7" at /place.`
        A number is meant to the digits that it is written with."""
        said = " ".join(self.comments)
        found = re.fullmatch(r'.*Expect (\d{3}) and ("[^"]+"|[\d.]*\d)(?: at (/\S+))?\.', said)
        if not found:
            raise ValueError(f"{self.title}: no comment says what to expect")
        status, value, place = found.groups()
        return int(status), value[1:-1] if value[0] == '"' else Decimal(value), place


def read(text):
    """The variables and the messages of a file."""
    head, *parts = re.split(r"^###[ \t]*", text, flags=re.M)
    variables = dict(re.findall(r"^@(\w+) *= *(\S+)$", head, flags=re.M))
    return variables, [message(part) for part in parts]


def message(part):
    """One message: title, comments, request line, headers, and after an empty line the body."""
    title, _, rest = part.partition("\n")
    one = Message(title.strip())
    lines = rest.splitlines()
    while lines and (not lines[0].strip() or lines[0].startswith("#")):
        if lines[0].startswith("#"):
            one.comments.append(lines[0].lstrip("# "))
        lines.pop(0)
    one.method, one.address, version = lines.pop(0).split(" ")
    if version != "HTTP/1.1":
        raise ValueError(f"{title}: {version}")
    while lines and lines[0].strip():
        name, _, value = lines.pop(0).partition(":")
        one.headers[name.strip()] = value.strip()
    one.body = "\n".join(lines).strip()
    return one
