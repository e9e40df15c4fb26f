"""Checks that the library lacks: an unsound field is refused also beside sound ones, and a cell may be refused in words.

The library's own negative_data_rejection lets an answer pass in its coverage phase as soon as any other field of the
query is sound.
"""
import pathlib
import tomllib

import schemathesis
from schemathesis.core.parameters import ParameterLocation
from schemathesis.generation.meta import CoveragePhaseData
from schemathesis.specs.openapi.checks import negative_data_rejection

# What a machine of the shop stands in for where it is not stated.
MACHINES = tomllib.loads((pathlib.Path(__file__).parents[2] / "data/shop/tern-point-works.toml").read_text())["machines"]


def refused_in_words(case, response):
    if not case.operation.path.endswith(".txt") or not response.content.startswith(b"REFUSED: "):
        return False
    asked = (case.query or {}).get("refusals")
    assert asked == "text", f"refused in words without being asked to: refusals={asked!r}"
    return True


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
