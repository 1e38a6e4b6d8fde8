"""The chapter worked."""

from __future__ import annotations

from ..machines import Machines
from .decisions import Slots
from .results import SlotsResult


def work(slots: Slots, *, machines: Machines, fixed: frozenset[str] = frozenset()) -> SlotsResult:
    """Work the chapter."""
    return SlotsResult()
