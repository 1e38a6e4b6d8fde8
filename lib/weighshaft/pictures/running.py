"""Pictures of pull, train and track."""

from __future__ import annotations

from ..running import Running, RunningResult
from .scene import Picture


def pictures(running: Running, result: RunningResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
