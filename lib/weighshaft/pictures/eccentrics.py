"""Pictures of the chapter."""

from __future__ import annotations

from ..workshop.eccentrics import Eccentrics, EccentricsResult
from .scene import Picture


def pictures(eccentrics: Eccentrics, result: EccentricsResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
