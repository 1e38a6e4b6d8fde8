"""Rods, crossheads and balance."""

from .decisions import CouplingRods, Rods
from .results import RodsResult
from .work import work

__all__ = ["CouplingRods", "Rods", "RodsResult", "work"]
