"""Pictures of the chapter."""

from __future__ import annotations

from ..workshop.screwcutting import Screwcutting, ScrewcuttingResult
from .scene import Picture


def pictures(screwcutting: Screwcutting, result: ScrewcuttingResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
