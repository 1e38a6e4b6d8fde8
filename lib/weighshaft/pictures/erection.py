"""Pictures of the chapter."""

from __future__ import annotations

from ..erection import Erection, ErectionResult
from .scene import Picture


def pictures(erection: Erection, result: ErectionResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
