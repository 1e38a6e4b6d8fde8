"""The chapter worked."""

from __future__ import annotations

from ..frames import Whole
from .decisions import Curving
from .results import CurvingResult


def work(
    curving: Curving, *, whole: Whole, fixed: frozenset[str] = frozenset()
) -> CurvingResult:
    """Work the chapter."""
    return CurvingResult()
