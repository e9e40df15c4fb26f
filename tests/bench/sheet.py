"""The table in Markdown, the text of latest.md, and README's part of it."""

import re

import growth
from common import BUSY, CONNECTIONS, ROOT

from capacity import machine


def markdown(found, readme=False):
    """The table: all of it, or the few rows that README shows."""
    head = ("what", "Shop Reckoner", "compared with", "ratio", "least to greatest")
    cells = [row.cells() for row in found] if not readme else [(row.short, *row.cells()[1:]) for row in found if row.short]
    wide = 4 if readme else 5
    return "\n".join("| " + " | ".join(each[:wide]) + " |" for each in (head, ("---",) * 5, *cells)).replace("| --- ", "|---").replace("|--- |", "|---|")


def undisturbed(busy):
    """How far other programs disturbed the figures."""
    rough = ", so the figures are rough" if busy > 0.2 else ""
    return f"Other programs took {busy:.1f} of its cores meanwhile{rough}."


def latest(found, points, begun, busy):
    """The text of latest.md."""
    grown, worse = growth.table(points)
    worse = f"Worse than linear (more than {growth.LINEAR}): {'; '.join(worse)}." if worse else "Neither grows worse than linear here."
    return f"""# How fast it is

Made by `tests/bench/run` on {begun}: {machine()}. {undisturbed(busy)}

- The load comes from the same computer and shares its cores, over loopback on {CONNECTIONS} connections (8 for batches).
- Every request has random numbers of its own. The service keeps no answers.
- "bare" is one route of the same framework that sends as many bytes, always the same. It looks at no question and sends
  fewer headers.
- The two sides of a row alternate. A ratio is ours over the other in one pair; shown is the median of the pairs.
- A table goes through the service by one client that sends and writes at once; a script reads the file, works it out and
  writes it. The scripts check no units, bounds or drills' names. The answers are compared: numbers to 1e-12.
- The service in Python (`python_service.py`) gives the same answer and refuses the same mistakes. Made to
  be fast, it keeps what pint reads of a unit; as documented, pint reads and converts each quantity anew. Before it is
  measured, 100 answers are compared, word for word and number by number.
- Waits are counted from the moment when a request was due, so a late answer counts for those behind it too. The service
  has half of the cores and the load the others: on shared cores the waits are those of programs for their turns. The
  rate is the one at which the service keeps its cores {100 * BUSY:.0f} % busy.

{markdown(found)}

## Cost as work grows

The last three columns are slopes, the power of the count with which a figure grows: 0 is flat, 1 is linear. The first is by
least squares over all sizes on log-log, the second over the last three. Other programs disturb the time; what counts is
the processor time of the service and its memory at the peak. {worse}

A bolt circle has at most 1,000 holes and a range at most 500 cases: the service refuses more. A table has no limit. Many
connections cost the system and the load too, which the bare route shows.

{grown}

![Time and memory as the work grows](growth.svg)
"""


def show_in_readme(found, begun, busy):
    """Puts the short table into README, from its mark to the next heading."""
    readme = ROOT / "README.md"
    text = f"""<!-- made by tests/bench/run -->
Made by `tests/bench/run` on {begun}: {machine()}. {undisturbed(busy)}
The load ran on it too. "bare" sends as many bytes and works out nothing. [All of it, and how cost grows](tests/bench/latest.md).

{markdown(found, readme=True)}

"""
    pattern = r"<!-- made by tests/bench/run -->.*?(?=^## )"
    whole = re.sub(pattern, lambda _: text, readme.read_text(encoding="utf-8"), flags=re.S | re.M)
    readme.write_text(whole, encoding="utf-8")
