"""Checks that the library lacks: an unsound field is refused also beside sound ones, a cell may be refused in words, and
what fits the description is refused only for what no schema can say.

The library's own negative_data_rejection lets an answer pass in its coverage phase as soon as any other field of the
query is sound.
"""
import json
import pathlib
import re
import sys
import tomllib
from functools import reduce

import schemathesis
from schemathesis.core.parameters import ParameterLocation
from schemathesis.generation.meta import CoveragePhaseData
from schemathesis.specs.openapi.checks import negative_data_rejection

# The library loads this file by itself, without its folder.
sys.path.insert(0, str(pathlib.Path(__file__).parent))
from closed import close  # noqa: E402

# What a machine of the shop stands in for where it is not stated.
MACHINES = tomllib.loads((pathlib.Path(__file__).parents[2] / "data/shop/tern-point-works.toml").read_text())["machines"]

# What a request that fits the description can still be refused for, and why no schema says it.
UNSAID = {
    "conflict": "a rule between fields: which go together, which is the greater",
    "field_missing": "a rule between fields; what solve_for or a machine can stand in for is not marked as required",
    "not_found": "a thread, drill, material, machine, result or input of that name is not there",
    "no_answer": "sound inputs between which there is no shape, thread or speed",
    "not_offered": "known, but not answered for here",
}
# The same where the value is a quantity: its bounds are stated in one unit and hold in all; one unit may stand for a number
# and its tolerance, so that a pattern does not ask for it behind each; no pattern sees that the fraction in 1-3/2 is above 1.
OF_A_QUANTITY = {"value_out_of_range", "unit_missing", "value_ambiguous"}
# The same where the value is a text that says more than one thing: a range, a list, a tolerance, a designation, a row. Its
# pattern holds the parts, not in which order they make sense, nor how many there may be, nor whether any has a unit.
OF_A_TEXT_OF_PARTS = {
    "value_unreadable", "unit_unknown", "unit_wrong", "kind_wrong", "too_large", "value_empty",
}
PARTED = re.compile(r"\||\.\.|step|±|\+|[/⁄∕][-−–‐‑]")


def resolved(case, schema):
    document = case.operation.schema.raw_schema
    while "$ref" in schema:
        schema = reduce(lambda at, key: at[key], schema["$ref"][2:].split("/"), document)
    return schema


def schema_of(case, name):
    """The schema of a field of the request, and whether it is required."""
    operation = case.operation.schema.raw_schema["paths"][case.operation.path][case.method.lower()]
    parameters = {of["name"]: of for of in (resolved(case, of) for of in operation.get("parameters", []))}
    if name in parameters:
        return resolved(case, parameters[name]["schema"]), parameters[name].get("required", False)
    body = operation.get("requestBody", {}).get("content", {}).get("application/json")
    parts, fields, required = [body["schema"]] if body else [], {}, []
    while parts:
        part = resolved(case, parts.pop())
        parts += part.get("allOf", [])
        fields |= part.get("properties", {})
        required += part.get("required", [])
    return resolved(case, fields.get(name, {})), name in required


def is_of_parts(case, schema, value):
    """Whether a text says more than one thing. A quantity or a number does where something stands between its numbers;
    other texts with a pattern are designations, points and rows."""
    if not isinstance(value, str):
        return False
    about = [resolved(case, one).get("description", "") for one in [schema, *schema.get("oneOf", [])]]
    is_quantity = any("A number and a unit" in one or "in place of one" in one for one in about)
    return not is_quantity or PARTED.search(value) is not None or len(value) > 64


def unsaid(case, wrong):
    """Whether no schema says what is wrong."""
    code, names = wrong["code"], wrong["field"].strip("/").split("/")
    schema, is_required = schema_of(case, names[0])
    if not schema and "{calculator}." in case.operation.path:
        # Which fields a calculator has, and how each is, an address that holds any of them cannot say.
        return True
    body = case.body if isinstance(case.body, dict) else {}
    value = {**(case.query or {}), **body}.get(names[0])
    # A text is the last place that can be seen from here, and a member of an object is asked for as a field of its kind is.
    for name in names[1:]:
        if isinstance(value, (dict, list)):
            value = value.get(name) if isinstance(value, dict) else value[int(name)]
            schema = resolved(case, schema.get("items", {}))
    if code == "field_missing" and is_required and len(names) == 1:
        return False
    if code in UNSAID:
        return True
    if code in OF_A_QUANTITY:
        # A count has its bounds in the schema; in a list they can be another field's.
        of_count = "integer" in json.dumps(schema) and schema.get("type") != "array"
        return "enum" not in schema and not (of_count and str(value).strip().isdigit())
    if isinstance(value, dict) and {"plus", "minus", "plus_minus"} & value.keys():
        # A tolerance is stated once, and threads per inch take none. A schema could say so of each unit by itself, but linters
        # then take the object's own example for a wrong one.
        return code == "value_unreadable"
    return code in OF_A_TEXT_OF_PARTS and is_of_parts(case, schema, value)


@schemathesis.hook
def before_load_schema(context, raw_schema):
    """Answers are described as open, since fields are added; those of today are described to the last field."""
    close(raw_schema)


def refused_in_words(case, response):
    if not case.operation.path.endswith(".txt") or not response.content.startswith(b"REFUSED: "):
        return False
    asked = (case.query or {}).get("refusals")
    assert asked == "text", f"refused in words without being asked to: refusals={asked!r}"
    return True


@schemathesis.check
def sound_request_is_refused_for_a_reason(ctx, response, case):
    if response.status_code != 422 or case.meta is None or not case.meta.generation.mode.is_positive:
        return
    for wrong in response.json()["errors"]:
        assert unsaid(case, wrong), f"it fits the description and is refused: {wrong}"


@schemathesis.check
def unsound_field_is_refused(ctx, response, case):
    if response.status_code >= 300 or case.meta is None or not case.meta.generation.mode.is_negative:
        return
    data = case.meta.phase.data
    if not isinstance(data, CoveragePhaseData) or data.parameter_location != ParameterLocation.QUERY or not data.parameter:
        return
    if refused_in_words(case, response):
        return
    query = case.query or {}
    sent = query.get(data.parameter)
    if data.parameter not in query and data.parameter in MACHINES.get(query.get("machine"), {}):
        return
    raise AssertionError(f"{data.parameter}={sent!r} was answered: {data.description}")


@schemathesis.check
def unsound_cell_is_refused(ctx, response, case):
    if case.operation.path.endswith(".txt") and not refused_in_words(case, response):
        negative_data_rejection(ctx, response, case)


@schemathesis.serializer("text/csv")
def table_as_bytes(ctx, value):
    return value if isinstance(value, bytes) else str(value).encode()


@schemathesis.serializer("application/x-ndjson")
def lines_as_bytes(ctx, value):
    return value if isinstance(value, bytes) else str(value).encode()
