"""Pictures of the chapter."""

from __future__ import annotations

from ..workshop.fitting import Fitting, FittingResult
from .scene import Picture


def pictures(fitting: Fitting, result: FittingResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
