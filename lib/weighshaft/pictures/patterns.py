"""Pictures of the chapter."""

from __future__ import annotations

from ..workshop.patterns import Patterns, PatternsResult
from .scene import Picture


def pictures(patterns: Patterns, result: PatternsResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
