"""Blast and draught."""

from .decisions import Draughting, GasWay, JetLosses
from .ejector import Chimney, Draught, Gas, Losses, draw
from .front import FrontEnd
from .jet import Jet
from .results import DraughtResult, Scan
from .work import work

__all__ = [
    "Chimney",
    "Draught",
    "DraughtResult",
    "Draughting",
    "FrontEnd",
    "Gas",
    "GasWay",
    "Jet",
    "JetLosses",
    "Losses",
    "Scan",
    "draw",
    "work",
]
