"""Asks a running service with the client that openapi-generator made of its description: a plain answer, a range,
backwards, JSON, a list, a refusal, a batch.

    python tests/openapi/every/client.py http://127.0.0.1:8080 FOLDER-OF-THE-CLIENT
"""
import sys

BASE, FOLDER = sys.argv[1:]
sys.path.insert(0, FOLDER)

import shop_client  # noqa: E402
from shop_client import models  # noqa: E402
from shop_client.exceptions import ApiException  # noqa: E402

service = shop_client.ApiClient(shop_client.Configuration(host=BASE))
holes, speeds = shop_client.HolesApi(service), shop_client.SpeedsApi(service)


def near(value, wanted):
    assert abs(value - wanted) < 5e-5 * max(1.0, abs(wanted)), f"{value}, not {wanted}"


# 0.25 in / tan 59 deg = 0.1502 in.
answer = holes.drill_point(diameter="1/2 in", point_angle="118 deg")
assert answer.calculator is models.CalculatorId.HOLES_DRILL_POINT and answer.rows is None, answer
point = answer.result.point_length
near(point.value, 0.1502)
assert (point.unit, point.text) == ("in", "0.1502 in"), point
cases = holes.drill_point(diameter="1/4 in|1/2 in").rows
assert cases[1].result.point_length == point, cases
# 2 x 0.152 in x tan 59 deg = 0.5059 in.
found = holes.drill_point(solve_for=models.DrillPointSought.DIAMETER, wanted="point_length:0.152 in").roots
near(found[0].value.value, 0.5059)
for size in ["1/2 in", models.LengthValue(value=0.5, unit=models.LengthUnit.IN)]:
    body = models.DrillPointRequest(diameter=models.DrillDiameter(size), working=False)
    posted = holes.drill_point_post(body)
    assert posted.result.point_length == point and posted.working == [], posted
# 12 x 70 / (pi x 0.5) = 534.76 rpm; the step below is 450.
speed = speeds.spindle_speed(cutting_speed="70 ft/min", diameter="0.5 in", available=["450 rpm", "630 rpm"]).result
near(speed.exact_speed.value, 534.7606)
near(speed.spindle_speed.value, 450)
try:
    holes.drill_point(diameter="0.5")
    raise AssertionError("a bare number was answered")
except ApiException as refusal:
    assert refusal.status == 422 and refusal.data.errors[0].var_field == "/diameter", refusal
    assert refusal.data.errors[0].var_try == "0.5 in", refusal
inputs = [models.ItemInputs(models.DrillPointRequest(diameter=models.DrillDiameter(text))) for text in ["1/2 in", "0.5"]]
items = [models.BatchItem(calculator=models.CalculatorId.HOLES_DRILL_POINT, inputs=one) for one in inputs]
first, second = shop_client.ServiceApi(service).batch(items)
assert first.answer and not first.problem and second.problem.status == 422, (first, second)
print("the second Python client was answered: cases, roots, JSON, a list, a refusal, a batch")
