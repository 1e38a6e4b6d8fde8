"""The chapter worked."""

from __future__ import annotations

from ..frames import Whole
from .decisions import Springing
from .results import SpringingResult


def work(
    springing: Springing, *, whole: Whole, fixed: frozenset[str] = frozenset()
) -> SpringingResult:
    """Work the chapter."""
    return SpringingResult()
