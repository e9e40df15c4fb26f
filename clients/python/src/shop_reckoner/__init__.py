"""Ask a Shop Reckoner service: quantities in and out, problems as exceptions, one request or thousands."""

from .answer import Answer, Source, Told
from .clients import AsyncReckoner, Reckoner
from .problems import Busy, Problem, Refused, Unreachable, WrongField
from .quantity import Quantity
from .register import Calculator, Field
from .retrying import Retries

__all__ = [
    "Answer",
    "AsyncReckoner",
    "Busy",
    "Calculator",
    "Field",
    "Problem",
    "Quantity",
    "Reckoner",
    "Refused",
    "Retries",
    "Source",
    "Told",
    "Unreachable",
    "WrongField",
]
