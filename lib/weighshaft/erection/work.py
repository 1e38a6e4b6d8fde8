"""The chapter worked."""

from __future__ import annotations

from ..frames import Whole
from .decisions import Erection
from .results import ErectionResult


def work(
    erection: Erection, *, whole: Whole, fixed: frozenset[str] = frozenset()
) -> ErectionResult:
    """Work the chapter."""
    return ErectionResult()
