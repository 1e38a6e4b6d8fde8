"""Blast nozzle and chimney."""

from .chapter import work
from .cones import Layout
from .decisions import Cones, ExhaustSteam, Nozzle, Smokebox
from .result import NozzleResult
from .rules import Rule

__all__ = [
    "Cones",
    "ExhaustSteam",
    "Layout",
    "Nozzle",
    "NozzleResult",
    "Rule",
    "Smokebox",
    "work",
]
