"""Pictures of the chapter."""

from __future__ import annotations

from ..rods import Rods, RodsResult
from .scene import Picture


def pictures(rods: Rods, result: RodsResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
