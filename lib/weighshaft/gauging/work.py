"""The chapter worked."""

from __future__ import annotations

from ..frames import Whole
from .decisions import Gauging
from .results import GaugingResult


def work(
    gauging: Gauging, *, whole: Whole, fixed: frozenset[str] = frozenset()
) -> GaugingResult:
    """Work the chapter."""
    return GaugingResult()
