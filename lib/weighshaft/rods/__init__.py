"""Rods, crossheads and balance."""

from .decisions import BalanceWeights, CouplingRods, Rods, SmallEnd, Weighed
from .results import Layout, Masses, RodsResult, Span, Stretch, Wheel
from .work import work

__all__ = [
    "BalanceWeights",
    "CouplingRods",
    "Layout",
    "Masses",
    "Rods",
    "RodsResult",
    "SmallEnd",
    "Span",
    "Stretch",
    "Weighed",
    "Wheel",
    "work",
]
