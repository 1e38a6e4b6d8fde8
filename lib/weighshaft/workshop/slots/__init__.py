"""Curved slots and arcs."""

from .decisions import Roughing, Slots
from .engine import EngineSlot, slot_of
from .results import SlotsResult
from .work import work

__all__ = ["EngineSlot", "Roughing", "Slots", "SlotsResult", "slot_of", "work"]
