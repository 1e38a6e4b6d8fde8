"""Reverser and both sides: from the lifting arm's angle to what is cut in metal."""

from .decisions import Balance, Lever, Linkage, Reversing, Screw, Servo
from .results import HandedPart, Notch, OnSide, ReversingResult, SpringWork
from .work import work

__all__ = [
    "Balance",
    "HandedPart",
    "Lever",
    "Linkage",
    "Notch",
    "OnSide",
    "Reversing",
    "ReversingResult",
    "Screw",
    "Servo",
    "SpringWork",
    "work",
]
