"""Pictures of the chapter."""

from __future__ import annotations

from ..boiler import BoilerResult, BoilerSeat
from .scene import Picture


def pictures(boiler: BoilerSeat, result: BoilerResult) -> tuple[Picture, ...]:
    """Return the pictures."""
    return ()
