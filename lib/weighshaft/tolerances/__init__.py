"""What must be held tight: how far each dimension moves the events, and what a workshop makes."""

from .decisions import Operation, Tolerances, Workshop
from .results import Dimension, EventScatter, Ranked, TolerancesResult
from .work import work

__all__ = [
    "Dimension",
    "EventScatter",
    "Operation",
    "Ranked",
    "Tolerances",
    "TolerancesResult",
    "Workshop",
    "work",
]
