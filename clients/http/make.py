"""Makes requests.sh, the same requests for curl, from requests.http.

    python3 make.py [--check]

With --check it writes nothing and fails where requests.sh is another.
"""

import shlex
import sys
from pathlib import Path

import messages

FOLDER = Path(__file__).resolve().parent
HEAD = """#!/usr/bin/env bash
# The requests of requests.http, sent by curl one after the other. Made by make.py; change requests.http instead.
#
#     ./requests.sh [http://127.0.0.1:8080]
set -euo pipefail
service=${{1:-{service}}}
ask() {{ printf '\\n### %s\\n' "$1"; shift; curl --silent --show-error --write-out '\\n# %{{http_code}}\\n' "$@"; }}
"""


def script(text):
    """The script for a file of requests."""
    variables, all_of_them = messages.read(text)
    return HEAD.format(**variables) + "".join(f"\n{command(one)}" for one in all_of_them)


def command(one):
    """One request as a call of curl."""
    start = "{{service}}"
    if not one.address.startswith(start):
        raise ValueError(f"{one.title}: the address does not begin with {start}")
    words = [f'"$service"{shlex.quote(one.address.removeprefix(start))}']
    words += [f"--header {shlex.quote(f'{name}: {value}')}" for name, value in one.headers.items()]
    if one.body:
        words.append(f"--data-binary {shlex.quote(one.body)}")
    if one.method != ("POST" if one.body else "GET"):
        words.append(f"--request {one.method}")
    comments = "".join(f"# {comment}\n" for comment in one.comments)
    return f"{comments}ask {shlex.quote(one.title)} \\\n  " + " \\\n  ".join(words) + "\n"


def main():
    """Writes or checks."""
    made, path = script((FOLDER / "requests.http").read_text(encoding="utf-8")), FOLDER / "requests.sh"
    if sys.argv[1:] == ["--check"]:
        if path.read_text(encoding="utf-8") != made:
            sys.exit(f"{path.name} is not what make.py makes of requests.http: run make.py")
    else:
        path.write_text(made, encoding="utf-8")
        path.chmod(0o755)


if __name__ == "__main__":
    main()
