"""Pictures of the chapter."""

from __future__ import annotations

from ..weights import Weights, WeightsResult
from .scene import Picture


def pictures(weights: Weights, result: WeightsResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
