"""A table of many drills through the service, and through a script of pandas and numpy and one of polars: table in, table out."""

import http.client
import os
import random
import shutil
import statistics
import subprocess
import threading
import time

from common import WORK, Row, plain, rates_row

ADDRESS = "/v1/holes/drill-point.csv"
PANDAS = """
import sys, numpy, pandas
table = pandas.read_csv(sys.argv[1])
half = numpy.radians(table["point_angle [deg]"] / 2)
table["point_length [in]"] = table["diameter [in]"] / (2 * numpy.tan(half))
table["tip_depth [in]"] = table["full_depth [in]"] + table["point_length [in]"]
table["travel [in]"] = table["tip_depth [in]"]
table.to_csv(sys.argv[2], index=False)
"""
POLARS = """
import sys, polars
diameter, angle, depth = (polars.col(name) for name in ("diameter [in]", "point_angle [deg]", "full_depth [in]"))
point = diameter / (2 * (angle / 2).radians().tan())
table = polars.scan_csv(sys.argv[1]).with_columns(point.alias("point_length [in]"), (depth + point).alias("tip_depth [in]"))
table.with_columns(polars.col("tip_depth [in]").alias("travel [in]")).collect().write_csv(sys.argv[2])
"""
# Reads both answers and prints how far apart they lie; stops where a row is missing or refused.
COMPARED = """
import sys, numpy, pandas
a, b = pandas.read_csv(sys.argv[1]), pandas.read_csv(sys.argv[2])
assert len(a) == len(b) == int(sys.argv[3]) and a["refused"].isna().all()
names = ["point_length [in]", "tip_depth [in]", "travel [in]"]
print(max(float(numpy.max(numpy.abs(a[name] - b[name]) / numpy.abs(b[name]))) for name in names))
"""


def write_table(path, rows):
    """A table of random drills."""
    rnd = random.Random()
    with open(path, "w") as out:
        out.write("part,diameter [in],point_angle [deg],full_depth [in]\n")
        for at in range(rows):
            out.write(f"P{at % 9973},{rnd.uniform(0.02, 2):.4f},{rnd.uniform(90, 140):.1f},{rnd.uniform(0.1, 4):.3f}\n")


def send_table(port, table, answers):
    """Sends a table and writes what comes back, both at once; gives the seconds it took."""
    begun = time.perf_counter()
    connection = http.client.HTTPConnection("127.0.0.1", port, timeout=60)
    connection.putrequest("POST", ADDRESS)
    connection.putheader("Content-Type", "text/csv")
    connection.putheader("Content-Length", str(os.path.getsize(table)))
    connection.endheaders()
    with open(table, "rb") as body, open(answers, "wb") as out:
        sender = threading.Thread(target=connection.sock.sendfile, args=(body,))
        sender.start()
        answer = connection.getresponse()
        if answer.status != 200:
            raise SystemExit(f"the table was refused: {answer.read(600)}")
        shutil.copyfileobj(answer, out, 1 << 18)
        sender.join()
    connection.close()
    return time.perf_counter() - begun


def run_script(python, script, *arguments):
    """Runs a script; gives the seconds it took and the most MB it had resident."""
    begun = time.perf_counter()
    process = subprocess.Popen([python, "-c", script, *map(str, arguments)])
    _, status, used = os.wait4(process.pid, 0)
    process.returncode = os.waitstatus_to_exitcode(status)
    if process.returncode:
        raise SystemExit("a script of the comparison failed")
    return time.perf_counter() - begun, used.ru_maxrss / 1024


def measure(programs):
    """The rows of the table for this part."""
    count = 100_000 if programs.quick else 1_000_000
    table, ours, theirs = (WORK / name for name in ("drills.csv", "ours.csv", "theirs.csv"))
    write_table(table, count)
    rows, what = [], f"a table of {count:,} rows, in and out"
    with programs.service() as service:

        def by_service():
            service.forget_peak()
            return count / send_table(service.port, table, ours), service.peak()

        if not programs.python:
            rate, most = by_service()
            rows.append(Row(what, f"{plain(rate)} rows/s, {most:.0f} MB", "not measured: the packages are not installed"))
            return rows
        for name, script in (("pandas and numpy", PANDAS), ("polars", POLARS)):

            def by_script(script=script):
                seconds, most = run_script(programs.python, script, table, theirs)
                return count / seconds, most

            if not programs.quick:
                # The files and packages are then at hand for all.
                by_service(), by_script()
            first, second = programs.in_turn(by_service, by_script, 3)
            apart = subprocess.check_output([programs.python, "-c", COMPARED, ours, theirs, str(count)], text=True)
            if float(apart) > 1e-12:
                raise SystemExit(f"the answers of {name} lie {apart} apart")
            rates = [rate for rate, _ in first], [rate for rate, _ in second]
            rows.append(rates_row(what, *rates, " rows/s", name, short=what))
            most = [plain(statistics.median(most for _, most in each)) + " MB" for each in (first, second)]
            rows.append(Row("memory at the peak of it", most[0], f"{name}: {most[1]}"))
    return rows
