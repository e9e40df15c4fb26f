"""Asks a running service with the client that openapi-python-client made of its description.

    python tests/openapi/python_client.py http://127.0.0.1:8080 FOLDER-OF-THE-CLIENT
"""
import builtins
import enum, functools, importlib, importlib.util, inspect, keyword, sys, typing

import httpx

BASE, FOLDER = sys.argv[1:]
sys.path.insert(0, FOLDER)

from shop_client import Client  # noqa: E402
from shop_client.api.geometry import arc  # noqa: E402
from shop_client.api.holes import drill_point, drill_point_post, holes_cell, holes_drawing, tap_drill  # noqa: E402
from shop_client.api.patterns import bolt_circle, patterns_table  # noqa: E402
from shop_client.api.service import batch, calculators, table  # noqa: E402
from shop_client.api.speeds import spindle_speed  # noqa: E402
from shop_client.models import (  # noqa: E402
    BatchItem, CalculatorId, Digits, DrillPointRequest, DrillPointSought,
    HolesCalculator, HolesDrawing, LengthUnit, LengthValue, OwnFields, PatternsCalculator, Problem, RefusalsAs, TableName,
    Units, WrongCode,
)

client = Client(base_url=BASE)


def typed(text, annotation):
    """An example's text as the client's parameter takes it."""
    kinds = [kind for kind in typing.get_args(annotation) or (annotation,)]
    for kind in kinds:
        if typing.get_origin(kind) is list:
            (item,) = typing.get_args(kind)
            return [typed(part.strip(), item) for part in text.split(",")]
        if inspect.isclass(kind) and issubclass(kind, enum.Enum):
            return kind(text)
        if kind is int and text.isdigit():
            return int(text)
    return text


def untyped(value, where):
    """Fails on a field that is kept without being described; a model with no fields of its own is a map of any."""
    if isinstance(value, list):
        for item in value:
            untyped(item, where)
    elif hasattr(value, "additional_properties"):
        own = [of.name for of in type(value).__attrs_attrs__ if of.name != "additional_properties"]
        assert not own or not value.additional_properties, f"{where}: {list(value.additional_properties)} in {type(value).__name__}"
        for name in own:
            untyped(getattr(value, name), f"{where}/{name}")


def is_reserved(name):
    """Whether the generator puts a stroke behind a name, as it does behind the language's own."""
    return keyword.iskeyword(name) or name in set(dir(builtins)) - {"id"}


def every_first_example():
    catalogue = calculators.sync(client=client)
    assert len(catalogue.calculators) >= 8, len(catalogue.calculators)
    for entry in catalogue.calculators:
        topic, name = entry.id.split("/")
        name = name.replace("-", "_")
        # Where two topics have a calculator of one name, the later one's operation has the topic in its name.
        names = [each for each in (name, f"{topic}_{name}") if importlib.util.find_spec(f"shop_client.api.{topic}.{each}")]
        operation = importlib.import_module(f"shop_client.api.{topic}.{names[0]}")
        annotations = {name: p.annotation for name, p in inspect.signature(operation.sync).parameters.items()}
        example = entry.examples[0]
        named = {name + "_" * is_reserved(name): text for name, text in example.inputs.to_dict().items()}
        inputs = {name: typed(text, annotations[name]) for name, text in named.items()}
        answer = operation.sync(client=client, **inputs)
        assert not isinstance(answer, Problem), f"{entry.id}: {answer}"
        assert answer.result and answer.calculator == entry.id
        # What the client's types hold is all that the service said, and every field has a type of its own.
        untyped(answer, entry.id)
        plain = httpx.get(BASE + example.address).json()
        assert answer.to_dict() == plain, f"{entry.id}: the types lose something"
    return len(catalogue.calculators)


def near(value, wanted):
    assert abs(value - wanted) < 5e-5 * max(1.0, abs(wanted)), f"{value}, not {wanted}"


def known_values():
    # 0.25 in / tan 59 deg = 0.1502 in.
    point = drill_point.sync(client=client, diameter="1/2 in", point_angle="118 deg").result.point_length
    near(point.value, 0.1502)
    assert (point.unit, point.text) == ("in", "0.1502 in"), point
    body = DrillPointRequest(diameter=LengthValue(value=0.5, unit=LengthUnit.IN), point_angle="118 deg", working=False)
    posted = drill_point_post.sync(client=client, body=body)
    assert posted.result.point_length == point and posted.working == []
    # Chord 21, height 6: radius (10.5^2 + 6^2) / 12 = 12.1875.
    near(arc.sync(client=client, chord="21 mm", height="6 mm").result.solutions[0].radius.value, 12.1875)
    holes = bolt_circle.sync(client=client, diameter="4 in", holes=6).result.positions
    near(holes[1].y.value, 3 ** 0.5)
    # 0.25 in - 1.299038 x 0.05 in x 75 % = 0.2013 in.
    near(tap_drill.sync(client=client, thread="1/4-20 UNC", thread_percent="75 percent").result.drill_diameter.value, 0.2013)
    # 12 x 70 / (pi x 0.5) = 534.76 rpm; the step below is 450.
    speed = spindle_speed.sync(client=client, cutting_speed="70 ft/min", diameter="0.5 in", available=["450 rpm", "630 rpm"])
    near(speed.result.exact_speed.value, 534.7606)
    assert speed.result.spindle_speed.value == 450


def own(**fields):
    return OwnFields.from_dict(fields)


def other_forms():
    ask = functools.partial(holes_cell.sync, client=client, calculator=HolesCalculator.DRILL_POINT, pick="point_length", units=Units.INCH)
    cell = ask(fields=own(diameter="1/2 in"), digits=Digits.SHOP)
    assert cell == "0.1502", cell
    refused = ask(fields=own(diameter="0.5"), refusals=RefusalsAs.TEXT)
    assert refused.startswith("REFUSED: diameter: "), refused
    fields = own(diameter="4 in", holes="6")
    rows = patterns_table.sync(client=client, calculator=PatternsCalculator.BOLT_CIRCLE, fields=fields).splitlines()
    assert rows[0] == "number,x [in],y [in],dx [in],dy [in],angle [deg]" and len(rows) == 7, rows
    fields = own(diameter="1/2 in")
    assert holes_drawing.sync(client=client, calculator=HolesDrawing.DRILL_POINT, fields=fields).startswith("<svg")
    drills = table.sync(name=TableName.DRILLS_INCH, client=client)
    assert {"name", "diameter"} <= set(drills.rows[0].to_dict()) and len(drills.rows) > 100, drills.rows[0]


def several_and_backwards():
    cases = drill_point.sync(client=client, diameter="1/4 in|1/2 in")
    assert not cases.result and not cases.roots, cases
    near(cases.rows[1].result.point_length.value, 0.1502)
    counted = bolt_circle.sync(client=client, diameter="4 in", holes="4|6").rows
    assert [len(case.result.positions) for case in counted] == [4, 6]
    roots = drill_point.sync(
        client=client, diameter="1/2 in", solve_for=DrillPointSought.POINT_ANGLE, wanted="point_length:0.25 in")
    assert not roots.result and not roots.rows, roots
    near(roots.roots[0].value.value, 90)
    # What is to be found is not stated, and the types let it be left out: 2 x 0.152 in x tan 59 deg = 0.5059 in.
    sought = drill_point.sync(client=client, solve_for=DrillPointSought.DIAMETER, wanted="point_length:0.152 in")
    near(sought.roots[0].value.value, 0.5059)
    measured = drill_point.sync(
        client=client, diameter="1/2 in", measured="point_length:0.152 in", correct=DrillPointSought.DIAMETER)
    near(measured.correction.as_made.value, 0.5059)


def many_in_one():
    items = [
        BatchItem(calculator=CalculatorId.HOLES_DRILL_POINT, inputs=DrillPointRequest(diameter=text), id=name, working=False)
        for name, text in [("A1", "1/2 in"), ("A2", "0.5")]
    ]
    first, second = batch.sync(client=client, body=items)
    assert first.id == "A1" and first.answer.calculator == CalculatorId.HOLES_DRILL_POINT, first
    near(first.answer["result"]["point_length"]["value"], 0.1502)
    assert second.problem.status == 422 and second.problem.errors[0].field == "/inputs/diameter", second


def a_refusal():
    answer = drill_point.sync_detailed(client=client, diameter="0.5", point_angle="200 deg")
    assert answer.status_code == 422 and isinstance(answer.parsed, Problem)
    wrongs = {wrong.field: wrong for wrong in answer.parsed.errors}
    assert wrongs["/diameter"].code == WrongCode.UNIT_MISSING and wrongs["/diameter"].try_ == "0.5 in", wrongs
    assert wrongs["/point_angle"].code == WrongCode.VALUE_OUT_OF_RANGE, wrongs


count = every_first_example()
known_values()
other_forms()
several_and_backwards()
many_in_one()
a_refusal()
print(f"the Python client was answered: {count} calculators, cells, tables, a drawing, cases, roots, a correction, a batch, a refusal")
