"""Pictures of the chapter."""

from __future__ import annotations

from ..springing import Springing, SpringingResult
from .scene import Picture


def pictures(springing: Springing, result: SpringingResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
