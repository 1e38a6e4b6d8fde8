"""Pictures of the chapter."""

from __future__ import annotations

from ..curving import Curving, CurvingResult
from .scene import Picture


def pictures(curving: Curving, result: CurvingResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
