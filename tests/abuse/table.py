"""The one table that comes out."""

# Statuses with a column of their own; the rest stand together under `other`.
STATUSES = ("200", "422", "503", "429", "cut", "hung")
WAITS = ("cheap", "health", "compressed", "this")
LINE = "{:<31} {:>6} " + " {:>6}" * (len(STATUSES) + 1) + " {:>11}" * len(WAITS) + " {:>6}  {}"


def head():
    """The columns; waits are 99th percentile and worst in milliseconds, memory is in MB."""
    return LINE.format("case", "sent", *STATUSES, "other", *(f"{name} ms" for name in WAITS), "MB", "verdict")


def row(case, wrong):
    """What came of a case; what is wrong with it stands below, a line each."""
    by = case.tally.by
    other = sum(by.values()) - sum(by[status] for status in STATUSES)
    waits = [probe.waits.shown() for probe in case.probes.all] + [case.probes.late.shown()]
    verdict = "; ".join(["FAILS" if wrong else "holds", *case.notes])
    counts = [by[status] for status in STATUSES]
    line = LINE.format(case.name, case.tally.sent, *counts, other, *waits, f"{case.memory.most:.0f}", verdict)
    return "\n".join([line, *(f"    {says}" for says in wrong)])
