"""Runs the Python examples of a README in one go, as a reader would, and compares what each prints with the text below it."""

import contextlib
import io
import re
import sys
from pathlib import Path

BLOCK = re.compile(r"^```(python|text)\n(.*?)^```$", re.MULTILINE | re.DOTALL)
USUAL = "http://127.0.0.1:8080"


def run(readme, address):
    """The differences between what is printed and what the README says, and how many texts were compared."""
    names, compared, different, printed = {"__name__": "readme"}, 0, [], None
    for kind, text in BLOCK.findall(readme.read_text()):
        if kind == "python":
            out = io.StringIO()
            with contextlib.redirect_stdout(out):
                exec(compile(text.replace(USUAL, address), str(readme), "exec"), names)
            printed = out.getvalue()
        else:
            compared += 1
            if [line.rstrip() for line in printed.splitlines()] != [line.rstrip() for line in text.splitlines()]:
                different.append(f"-- the README says\n{text}-- it printed\n{printed}")
    return compared, different


if __name__ == "__main__":
    compared, different = run(Path(sys.argv[1]), sys.argv[2])
    print("\n".join(different), end="")
    print(f"{compared} examples of {Path(sys.argv[1]).parent.name}/README.md, {len(different)} different")
    sys.exit(bool(different) or compared == 0)
