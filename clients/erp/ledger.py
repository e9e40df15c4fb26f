"""What is done is kept: the prices made so far line by line, the tables whole or not at all."""

import contextlib
import csv
import io
import json
import os

import pricing

try:
    import fcntl
except ImportError:  # A system without it has no lock of this kind; its scheduler has to see to it.
    fcntl = None

REFUSED = ["order", "line", "part", "operation", "question", "column", "code", "says", "try"]


class Busy(Exception):
    """Another run is at work on the same files."""


@contextlib.contextmanager
def alone(path):
    """One run at a time; the lock ends with the process, however it ends."""
    with open(path, "a", encoding="utf-8") as file:
        if fcntl:
            try:
                fcntl.flock(file, fcntl.LOCK_EX | fcntl.LOCK_NB)
            except OSError as error:
                raise Busy(f"another run holds {path}") from error
        yield


class Partial:
    """Prices made by a run that has not ended, a line of JSON each."""

    def __init__(self, path):
        self.path = path
        self.rows = {}
        self.whole = 0

    def read(self):
        """Takes what an earlier run left; a last line that it did not finish counts as not written."""
        with contextlib.suppress(FileNotFoundError):
            for line in self.path.read_bytes().splitlines(keepends=True):
                row = parsed(line)
                if row is None:
                    break
                self.rows[row["key"]] = row
                self.whole += len(line)
        return self.rows

    def add(self, rows):
        """Writes prices down before the next are asked for."""
        with open(self.path, "ab") as file:
            file.truncate(self.whole)
            file.seek(self.whole)
            for row in rows:
                self.whole += file.write((json.dumps(row, ensure_ascii=False) + "\n").encode())
                self.rows[row["key"]] = row
            file.flush()
            os.fsync(file.fileno())

    def done(self):
        """The tables are written."""
        self.path.unlink(missing_ok=True)


def parsed(line):
    """A whole line, or nothing."""
    try:
        row = json.loads(line) if line.endswith(b"\n") else None
    except ValueError:
        return None
    return row if isinstance(row, dict) and list(row) == pricing.COLUMNS else None


def earlier(path):
    """The prices of the table as an earlier run left it, by key."""
    try:
        with path.open(newline="", encoding="utf-8") as file:
            reader = csv.DictReader(file)
            if reader.fieldnames != pricing.COLUMNS:
                return {}
            whole = [row for row in reader if None not in row.values()]
            return {row["key"]: {name: bare(cell) for name, cell in row.items()} for row in whole}
    except FileNotFoundError:
        return {}


def table(columns, rows):
    """A table as CSV."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(columns)
    writer.writerows([harmless(row[name]) for name in columns] for row in rows)
    return text.getvalue()


def harmless(cell):
    """A text that a spreadsheet would take for a formula begins with an apostrophe."""
    return "'" + cell if cell[:1] in ("=", "+", "-", "@", "\t", "\r", "'") else cell


def bare(cell):
    """The text as it was before."""
    return cell[1:] if cell[:1] == "'" else cell


def write(path, text):
    """Replaces a file at once, and only if that changes it; says whether it did."""
    data = text.encode()
    with contextlib.suppress(FileNotFoundError):
        if path.read_bytes() == data:
            return False
    new = path.with_name(path.name + ".new")
    with open(new, "wb") as file:
        file.write(data)
        file.flush()
        os.fsync(file.fileno())
    os.replace(new, path)
    return True
