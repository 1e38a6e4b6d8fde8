"""Wheels and axles: across the engine, between the wheels, round curves, and under load."""

from .decisions import (
    Across,
    Between,
    InsideCylinders,
    OutsideCylinders,
    Quartering,
    Tyres,
    Wheels,
)
from .results import CurveAxle, CurveLayout, Line, Part, WheelsResult
from .work import work

__all__ = [
    "Across",
    "Between",
    "CurveAxle",
    "CurveLayout",
    "InsideCylinders",
    "Line",
    "OutsideCylinders",
    "Part",
    "Quartering",
    "Tyres",
    "Wheels",
    "WheelsResult",
    "work",
]
