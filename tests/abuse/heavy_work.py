"""Requests that ask for much work: each alone within the limits of a request, many of them at once."""

import json
import math
import re
from urllib.parse import quote, urlencode

from answers import TOO_MUCH, TOO_MUCH_SAID, ask_over_and_over, codes
from client import get, post

WHEELS = ",".join(str(teeth) for teeth in range(20, 60))
GEARS = "/v1/threads/change-gears"
MANY_TRAINS = f"{GEARS}?" + urlencode({"lead": "4mm", "leadscrew_lead": "3mm", "count": 50, "gears": WHEELS})
CHART = "/threads/change-gears?" + urlencode({
    "lead": "4mm", "gears": WHEELS, "range.of": "leadscrew_lead", "range.from": "1mm", "range.to": "500mm",
    "range.step": "1mm"})
BACKWARDS = {"leadscrew_lead": "3mm", "solve_for": "lead", "wanted": "wanted_lead:4mm", "gears": WHEELS}


def near(value, known):
    return math.isclose(value, known, rel_tol=1e-9)


def trains_are_right(answer):
    """4 mm over 3 mm is four thirds, which 40 over 30 gives exactly."""
    result = json.loads(answer.body)["result"]
    if not near(result["wanted_ratio"], 4 / 3):
        return f"the ratio wanted is {result['wanted_ratio']}"
    if not near(result["trains"][0]["lead"]["value"], 4):
        return f"the nearest train gives {result['trains'][0]['lead']}"


async def change_gears(case):
    await ask_over_and_over(case, get(MANY_TRAINS), trains_are_right, 20)


def questions_are_right(answer):
    """The first is the one of seed 1; all are of the wheels owned, and no two are alike."""
    questions = json.loads(answer.body)["questions"]
    if not 0 < len(questions) <= 100 or questions[0]["seed"] != 1:
        return f"{len(questions)} questions, the first {str(questions[:1])[:200]}"
    wrong = next((one for one in questions if one["inputs"]["gears"].replace(" ", "") != WHEELS), None)
    if wrong:
        return f"a question has the wheels {wrong['inputs']['gears'][:80]}"
    if len({question["text"] for question in questions}) != len(questions):
        return "two questions are alike"


async def practice(case):
    request = get("/v1/practice?vary=true&count=100&from=" + quote(MANY_TRAINS, safe=""))
    await ask_over_and_over(case, request, questions_are_right, 4)


def chart_is_right(answer):
    """The last row of the chart: 4 mm over 500 mm is 0.008."""
    found = re.search(rb">500(\.0+)?<.{0,80}?>0\.008<", answer.body)
    return None if found else "the row of 500 mm with its ratio of 0.008 is missing"


async def chart_page(case):
    await ask_over_and_over(case, get(CHART), chart_is_right, 8)


def places():
    """88 holes, 11 by 8 on a grid of 10 mm, row by row; twelve of them with a tolerance."""
    out = []
    for at in range(88):
        x = {"value": 10.0 * (at % 11), "unit": "mm"}
        if at < 12:
            x |= {"plus": 0.1, "minus": 0.1}
        out.append({"x": x, "y": {"value": 10.0 * (at // 11), "unit": "mm"}})
    return out


# Eight rows of ten steps, and seven ways back to the first column and one row up.
AS_GIVEN = 8 * 100 + 7 * math.hypot(100, 10)


def way_is_right(answer):
    result = json.loads(answer.body)["result"]
    given, found = result["length_as_given"]["value"], result["length"]["value"]
    if not near(given, AS_GIVEN):
        return f"the way as given is {given}, not {AS_GIVEN}"
    if not 870 - 1e-6 <= found <= AS_GIVEN:
        return f"the way found is {found}"


async def visit_order(case):
    body = json.dumps({"points": places(), "units": "metric"}).encode()
    await ask_over_and_over(case, post("/v1/datum/visit-order", body), way_is_right, 8)


def is_right_item(item):
    """Whether one of many is the lead of 4 mm found backwards, or is refused for too much work."""
    if "problem" in item:
        return codes(item["problem"]) == [TOO_MUCH]
    if "recheck" in item:
        rechecked = item["recheck"]
        if rechecked["verdict"] == "refused":
            return codes(rechecked) == [TOO_MUCH]
        roots = [now["now"] for now in rechecked["differences"] if now["at"] == "/roots"]
        return bool(roots) and near(roots[0][0]["value"]["value"], 4)
    return near(item["answer"]["roots"][0]["value"]["value"], 4)


def items_are_right(number):
    def right(answer):
        items = json.loads(answer.body)
        if len(items) != number:
            return f"{len(items)} items for {number}"
        wrong = next((item for item in items if not is_right_item(item)), None)
        return wrong and f"an item is {json.dumps(wrong)[:200]}"

    return right


async def recheck(case):
    body = json.dumps([{"calculator": "threads/change-gears", "link": f"{GEARS}?{urlencode(BACKWARDS)}"}]).encode()
    await ask_over_and_over(case, post("/v1/recheck", body), items_are_right(1), 8)


async def batch(case):
    item = {"calculator": "threads/change-gears",
            "inputs": {name: value for name, value in BACKWARDS.items() if name not in ("solve_for", "wanted")},
            "solve_for": BACKWARDS["solve_for"], "wanted": BACKWARDS["wanted"]}
    request = post("/v1/batch", json.dumps([{"id": at, **item} for at in range(8)]).encode())
    await ask_over_and_over(case, request, items_are_right(8), 4)


def table_is_right(rows, column, known):
    """Each row has its line with the known value in its column, or says that it is too much work."""
    def right(answer):
        lines = answer.body.decode().splitlines()
        head, last = lines[0].split(","), {}
        at = next(at for at, name in enumerate(head) if name.split(" [")[0] == column)
        for line in lines[1:]:
            if TOO_MUCH_SAID in line:
                last[len(last)] = line
            elif near(float(line.split(",")[at]), known):
                last[line.split(",")[head.index("row")] if "row" in head else len(last)] = line
            else:
                return f"a row is {line[:120]!r}"
        return None if len(last) == rows else f"{len(last)} rows for {rows}"

    return right


async def first_row(case):
    """No heading has a unit, so that the first row decides the system by the whole of its work."""
    path = f"{GEARS}.csv?" + urlencode({"gears": WHEELS, "count": 1, "pick": "wanted_lead"})
    body = b"lead,leadscrew_lead\n" + b"4 mm \xc2\xb10.01 mm,3 mm \xc2\xb10.01 mm\n" * 8
    await ask_over_and_over(case, post(path, body, "text/csv"), table_is_right(8, "wanted_lead", 4), 8)


async def streamed_tables(case):
    """200 tables at once, and again if there is time. Half an inch over twice the tangent of 59 degrees."""
    rows, length = 1000, b",0.15021515475689,"
    request = post("/v1/holes/drill-point.csv", b"diameter [in],full_depth [in]\n" + b"0.5,0.75\n" * rows, "text/csv")

    def right(answer):
        found = answer.body.count(length)
        return None if found == rows else f"{found} of {rows} rows are right: {answer.body[:200]!r}"

    await ask_over_and_over(case, request, right, 200)
