"""The chapter worked."""

from __future__ import annotations

from ..machines import Machines
from .decisions import Patterns
from .results import PatternsResult


def work(
    patterns: Patterns, *, machines: Machines, fixed: frozenset[str] = frozenset()
) -> PatternsResult:
    """Work the chapter."""
    return PatternsResult()
