"""Curved slots and arcs."""

from .decisions import Slots
from .results import SlotsResult
from .work import work

__all__ = ["Slots", "SlotsResult", "work"]
