"""The benchmark's counterpart in Python: the drill point as a FastAPI service, made as one would make it to be fast.

pint reads each unit and converts it once, and that is kept; numbers are taken off by a pattern, since pint's own reader
of expressions is slower. The sums run on plain floats. With KEEP=0 pint reads and converts each quantity anew, as its
documentation shows it. orjson writes the answer, and FastAPI does not look at it again.
It takes five of the thirteen fields, and refuses what ours refuses: an unknown field, a missing or wrong unit, a value
out of bounds, all wrong fields at once.
"""

import functools
import math
import os
import re
from typing import Annotated, Any

import orjson
import pint
from fastapi import FastAPI, Query, Request
from fastapi.responses import Response
from pydantic import BaseModel, BeforeValidator

DATA_VERSION = os.environ.get("DATA_VERSION", "")
REGISTRY = pint.UnitRegistry()
NUMBER = re.compile(r"\s*([-+]?\d+(?:\.\d*)?)\s*([a-zµ]+)\s*")


KEEP = os.environ.get("KEEP") != "0"


@functools.lru_cache(maxsize=1024 if KEEP else 0)
def factors(unit):
    """What one of a unit is in the units of answers: a length in both systems, or an angle; empty for all others."""
    try:
        one = REGISTRY.Quantity(1.0, unit)
    except pint.UndefinedUnitError:
        return {}
    # pint takes an angle for a bare number.
    to = ("in", "mm") if one.check("[length]") else ("deg",) if unit in ("deg", "rad") else ()
    return {each: one.m_as(each) for each in to}


def parted(text):
    """The number of a quantity and its unit."""
    if KEEP:
        found = NUMBER.fullmatch(text)
        return (float(found[1]), found[2]) if found else None
    try:
        found = REGISTRY.Quantity(text)
        return float(found.magnitude), f"{found.units:~}"
    except (pint.PintError, AttributeError, TypeError):
        return None


def quantity(unit, example, least, most, or_least=True):
    """A reader of one field, of the kind of `unit` and with bounds in it: the number and its unit, as stated."""

    def read(text):
        found = parted(text)
        if not found:
            raise ValueError(f'"{text}" has no unit. Try {example}.')
        number, stated = found
        factor = factors(stated).get(unit)
        if factor is None:
            raise ValueError(f'"{text}" is not {"an angle" if unit == "deg" else "a length"}. Try {example}.')
        value = number * factor
        if value > most or value < least or (value == least and not or_least):
            raise ValueError(f'"{text}" is out of bounds. Try {example}.')
        return number, stated

    return Annotated[Any, BeforeValidator(read)]


class DrillPoint(BaseModel, extra="forbid"):
    diameter: quantity("in", "0.5 in", 0, 39370.079, or_least=False)
    point_angle: quantity("deg", "118 deg", 0, 180, or_least=False) = None
    full_depth: quantity("in", "0.75 in", 0, 39370.079) = None
    tip_flat: quantity("in", "0 in", 0, 39370.079) = None
    face_height: quantity("in", "0 in", -39370.079, 39370.079) = None


def shown(value, unit):
    """A value with its unit and text; 15 digits are sent, and a 5 at the end of a text is rounded up."""
    up = value * (1 + 1e-14)
    text = f"{up:.4f}".rstrip("0").rstrip(".") + "°" if unit == "deg" else f"{up:.{4 if unit == 'in' else 3}f} {unit}"
    return {"value": float(f"{value:.15g}"), "unit": unit, "text": text}


def written(name, field, value, unit):
    """A value as a step of the working names it."""
    return f"{name} ({field}) = {value:.15g} {unit}"


CAUTIONS = [
    {"code": "starting_point", "says": "This is a starting point, not a setting to trust blindly. The tool maker's data, the machine's manual and the shop's rules come first, and a qualified person decides."},
    {"code": "drilling", "says": "Clamp the work so that it cannot spin, check what is below the hole, and ease the feed as the point breaks through."},
    {"code": "turning_spindle", "says": "Wear eye protection. Keep gloves, sleeves and hair away from the spindle, and stop it before you measure or clear chips."},
]
SOURCES = [{"key": "geometry", "title": "Plane geometry, derived", "where": "right triangle of the cone: half the diameter over the tangent of half the angle", "trust": "derivation"}]
SHARP = "The point is assumed sharp; a chisel edge makes it a little shorter."
FACE = "The face drilled is assumed to be the one where zero was set."


def answer(asked, link):
    """The whole answer with its working."""
    inputs, assumed, result, working = {}, [], {}, []
    unit = "in" if asked.diameter[1] == "in" else "mm"

    def take(field, assumed_value=None, says=None):
        """A field's value in the units of the answer, and as it was stated."""
        given = getattr(asked, field)
        own = "deg" if field == "point_angle" else unit
        if given is None:
            assumed.append({"field": field, "value": shown(assumed_value, own), "says": says})
            return assumed_value, (assumed_value, own)
        inputs[field] = shown(*given)
        return given[0] * factors(given[1])[own], given

    def step(what, field, value, formula, *symbols):
        result[field] = shown(value, unit)
        parts = "; ".join(written(name, of, *stated) for name, of, stated in symbols)
        working.append({"what": what, "by": "formula", "formula": formula, "with": parts, "gives": {"field": field, **result[field]}})

    diameter, d_stated = take("diameter")
    angle, a_stated = take("point_angle", 118.0, "118° is the general-purpose point; look at the drill.")
    flat, w_stated = take("tip_flat", 0.0, SHARP)
    if flat >= diameter:
        raise ValueError("The flat at the tip must be smaller than the drill.")
    point = (diameter - flat) / (2 * math.tan(math.radians(angle) / 2)) if angle < 180 else 0.0
    step("Length of the point", "point_length", point, "h = (D - w) / (2 × tan(σ / 2))",
         ("D", "diameter", d_stated), ("w", "tip_flat", w_stated), ("σ", "point_angle", a_stated))
    cautions = CAUTIONS[:1]
    if asked.full_depth is not None:
        depth, l_stated = take("full_depth")
        tip = depth + point
        step("Depth of the tip", "tip_depth", tip, "t = L + h",
             ("L", "full_depth", l_stated), ("h", "point_length", (point, unit)))
        assumed.append({"field": "zeroed_at", "value": "tip", "says": "Zero is assumed where the tip touches the face."})
        height, f_stated = take("face_height", 0.0, FACE)
        step("Travel from zero, the tip having touched", "travel", tip - height, "z = t - f",
             ("t", "tip_depth", (tip, unit)), ("f", "face_height", f_stated))
        cautions = CAUTIONS
    elif asked.face_height is not None:
        raise ValueError("This matters only for a depth: give the depth at full diameter too.")
    assumed.append({"field": "units", "value": "inch" if unit == "in" else "metric", "says": "The units of the first input that has any."})
    return {
        "calculator": "holes/drill-point", "version": "0.1.0", "data_version": DATA_VERSION, "link": link, "inputs": inputs,
        "assumed": assumed, "result": result, "working": working, "notes": [], "cautions": cautions, "sources": SOURCES,
        "trust": "derivation",
    }


app = FastAPI()


@app.get("/v1/holes/drill-point")
async def drill_point(request: Request, asked: Annotated[DrillPoint, Query()]):
    link = f"{request.scope['path']}?{request.scope['query_string'].decode()}"
    try:
        body = answer(asked, link)
    except ValueError as error:
        return Response(orjson.dumps({"detail": str(error)}), 422, media_type="application/problem+json")
    return Response(orjson.dumps(body), media_type="application/json")
