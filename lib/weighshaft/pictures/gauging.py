"""Pictures of the chapter."""

from __future__ import annotations

from ..gauging import Gauging, GaugingResult
from .scene import Picture


def pictures(gauging: Gauging, result: GaugingResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
