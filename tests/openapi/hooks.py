"""Checks that the library lacks: an unsound field is refused also beside sound ones, a cell may be refused in words, and
what fits the description is refused only for what no schema can say.

The library's own negative_data_rejection lets an answer pass in its coverage phase as soon as any other field of the
query is sound.
"""
import pathlib
import sys
import tomllib

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
    "value_out_of_range": "a bound that is stated in one unit holds in all of them, and for every number of a range",
    "not_found": "a thread, drill, material, machine, result or input of that name is not there",
    "no_answer": "sound inputs between which no shape or thread lies",
    "not_offered": "known, but not answered for here",
    "unit_missing": "one unit stands for all numbers of a range or a list; a pattern cannot see whether there is one at all",
    "kind_wrong": "in wanted and measured the unit is that of the result named",
    "unit_wrong": "in wanted and measured the unit is that of the result named",
    "too_large": "more cases than one request may have",
}
# Why a text that fits its pattern can be unreadable: its grammar is more than a pattern of a sensible length holds.
LOOSE = {}


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
        import json
        name = wrong["field"].strip("/").split("/")[0]
        value = (case.query or {}).get(name) if case.method == "GET" else (case.body or {}).get(name) if isinstance(case.body, dict) else None
        with open("/tmp/b-gen/codes.jsonl", "a") as f: f.write(json.dumps([case.operation.label, wrong["code"], wrong["field"], str(value), wrong["says"]], ensure_ascii=False)+"\n")


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
