"""Prices the machine time of an order list: drilling, milling, turning, sawing. Made to be run every night.

    python3 price_orders.py --orders orders.csv --rates rates.toml --into prices.csv [--service http://127.0.0.1:8080]

Beside the prices it writes, with the same beginning, `….refused.csv` and `….report.txt`. Run again it asks only for
what is new, changed or refused; a run that was cut off is taken up where it stood. Python 3.11's standard library is
enough.

It ends with 0 when every line is priced, 1 when some are refused, 2 when the command, the list or the rates cannot be
read, 3 when the service did not answer, and 4 when another run is at work.
"""

import argparse
import sys
from decimal import Decimal
from pathlib import Path

import ledger
import machines
import operations
import orders
import pricing
import service

AT_ONCE = 100


def priced(lines, rates, there, asks):
    """Prices lines: rows of the table, and what is wrong by the line's number, with the question it came from."""
    rows, wrong, speeds = [], {}, {}
    rated = rates["machines"]
    asked = {line.key: operations.about_speed(line.cells, rated[line.cells["machine"]], asks) for line in lines}
    answers = there.ask({line.key: pricing.item(asked[line.key], line) for line in lines})
    for line in lines:
        answer = answers[line.key].get("answer")
        found = pricing.impossible(answer) if answer else pricing.refused(answers[line.key]["problem"], asked[line.key])
        if found:
            wrong[line.number] = ("speed", found)
        else:
            speeds[line.key] = answer
            asked[line.key] = operations.about_time(line.cells, pricing.speed_of(answer), rates["approach"])
    lines = [line for line in lines if line.key in speeds]
    answers = there.ask({line.key: pricing.item(asked[line.key], line) for line in lines})
    for line in lines:
        answer = answers[line.key].get("answer")
        if answer:
            rows.append(pricing.price(line, rates, speeds[line.key], answer))
        else:
            wrong[line.number] = ("time", pricing.refused(answers[line.key]["problem"], asked[line.key]))
    return rows, wrong


def run(asked, say):
    """One run; gives how it ends."""
    rates = orders.read_rates(asked.rates)
    lines = orders.read_orders(asked.orders, asked.separator, rates)
    partial = ledger.Partial(asked.into.with_name(asked.into.name + ".partial"))
    known = {} if asked.anew else ledger.earlier(asked.into)
    kept = known | partial.read()
    wrong = {line.number: ("order list", line.wrongs) for line in lines if line.wrongs}
    new = [line for line in lines if not line.wrongs and line.key not in kept]
    there = service.Service(asked.service, asked.tries, asked.timeout, asked.wait, say)
    asks = {}
    if new:
        asks, shop = there.known()
        for words in machines.warnings(rates["machines"], shop, asks):
            say(f"{asked.rates}: {words}")
    for first in range(0, len(new), asked.at_once):
        rows, found = priced(new[first : first + asked.at_once], rates, there, asks)
        wrong |= found
        if rows:
            partial.add(rows)
    done = kept | partial.rows
    good = [line for line in lines if line.number not in wrong]
    table = [done[line.key] for line in good]
    refused = [line for line in lines if line.number in wrong]
    changed = [
        ledger.write(asked.into, ledger.table(pricing.COLUMNS, table)),
        ledger.write(beside(asked.into, "refused.csv"), ledger.table(ledger.REFUSED, refusals(refused, wrong))),
        ledger.write(beside(asked.into, "report.txt"), report(lines, table, refused, wrong, rates)),
    ]
    partial.done()
    before = len([line for line in good if line.key in kept])
    say(
        f"{len(lines)} lines: {len(good) - before} priced now, {before} before, {len(refused)} refused; "
        f"{there.retries} retries; {sum(changed)} of 3 files changed"
    )
    return 1 if refused else 0


def beside(path, ending):
    """A file beside the table of prices."""
    return path.with_name(f"{path.stem}.{ending}")


def refusals(lines, wrong):
    """The rows of the table of what was refused."""
    rows = []
    for line in lines:
        question, found = wrong[line.number]
        for one in found:
            row = {name: line.cells[name] for name in ("order", "line", "part", "operation")}
            row |= {"question": question, "column": one.column, "code": one.code, "says": one.says}
            rows.append(row | {"try": one.try_this})
    return rows


def report(lines, table, refused, wrong, rates):
    """The report in words. It says nothing of the run, so that it stays the same while prices do."""
    total = sum((Decimal(row["price"]) for row in table), Decimal(0))
    text = [f"{len(table)} of {len(lines)} lines are priced: {total} {rates['currency']} in all."]
    if refused:
        text += [f"The sum is short of {len(refused)} refused lines:", ""]
        for row in refusals(refused, wrong):
            way_out = f" Try: {row['try']}." if row["try"] else ""
            name = f"order {row['order']} line {row['line']} ({row['operation']})"
            text.append(f"  {name}, {row['column']}: {row['says']}{way_out}")
    held = [row for row in table if row["limited_by"]]
    if held:
        lines_held = f"In {len(held)} lines"
        text += [
            "",
            f"{lines_held} the machine sets other speeds or feeds than the tables ask for (column limited_by).",
        ]
    unchecked = [row for row in table if not row["load [percent]"]]
    if unchecked:
        text += [
            "",
            f"In {len(unchecked)} lines nobody checked that the spindle has the power (load [percent] is empty):",
            "its power is not known, or the service gives none for the operation. The machine may stall.",
        ]
    versions = sorted({(row["service_version"], row["data_version"], row["shop_version"]) for row in table})
    if versions:
        said = ", ".join(f"{service}, tables {data}, shop's file {shop}" for service, data, shop in versions)
        text += ["", f"Reckoned by Shop Reckoner {said}."]
    if len(versions) > 1:
        text.append("Prices stay as they were first made; --anew makes them all again with those of today.")
    cautions = dict.fromkeys(caution for row in table for caution in row["cautions"].split(pricing.BETWEEN))
    text += ["", "To beware of, as the service said it:", *(f"  {caution}" for caution in cautions)] if table else []
    return "\n".join(text) + "\n"


def main(arguments=None):
    """Runs and gives the code to end with."""
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("--orders", type=Path, required=True)
    parser.add_argument("--rates", type=Path, required=True)
    parser.add_argument("--into", type=Path, required=True, help="the table of prices")
    parser.add_argument("--service", default="http://127.0.0.1:8080")
    parser.add_argument("--separator", default=",", choices=[",", ";"], help="of the order list")
    parser.add_argument("--anew", action="store_true", help="price every line again, also those priced before")
    parser.add_argument("--tries", type=int, default=6, help="how often to ask in vain before giving up")
    parser.add_argument("--wait", type=float, default=0.5, help="seconds before the second try; then twice as long")
    parser.add_argument("--timeout", type=float, default=60.0, help="seconds without an answer")
    parser.add_argument("--at-once", type=int, default=AT_ONCE, help="lines a batch")
    asked = parser.parse_args(arguments)

    def say(words):
        print(words, file=sys.stderr, flush=True)

    try:
        if asked.tries < 1 or asked.at_once < 1 or asked.wait < 0 or asked.timeout <= 0:
            raise orders.Unusable("--tries and --at-once are 1 or more, --wait 0 or more, --timeout above 0")
        with ledger.alone(asked.into.with_name(asked.into.name + ".lock")):
            return run(asked, say)
    except (orders.Unusable, OSError) as error:
        say(str(error))
        return 2
    except (service.Unreachable, service.Turned) as error:
        say(f"{error}\nWhat was priced is kept; run again to go on.")
        return 3
    except ledger.Busy as error:
        say(str(error))
        return 4
    except KeyboardInterrupt:
        say("Stopped. What was priced is kept; run again to go on.")
        return 130


if __name__ == "__main__":
    sys.exit(main())
