"""The chapter worked."""

from __future__ import annotations

from ..frames import Whole
from .decisions import Weights
from .results import WeightsResult


def work(
    weights: Weights, *, whole: Whole, fixed: frozenset[str] = frozenset()
) -> WeightsResult:
    """Work the chapter."""
    return WeightsResult()
