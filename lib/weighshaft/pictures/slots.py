"""Pictures of the chapter."""

from __future__ import annotations

from ..workshop.slots import Slots, SlotsResult
from .scene import Picture


def pictures(slots: Slots, result: SlotsResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
