"""The chapter worked."""

from __future__ import annotations

from ..frames import Whole
from .decisions import Rods
from .results import RodsResult


def work(
    rods: Rods, *, whole: Whole, fixed: frozenset[str] = frozenset()
) -> RodsResult:
    """Work the chapter."""
    return RodsResult()
