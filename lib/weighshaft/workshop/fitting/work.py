"""The chapter worked."""

from __future__ import annotations

from ..machines import Machines
from .decisions import Fitting
from .results import FittingResult


def work(
    fitting: Fitting, *, machines: Machines, fixed: frozenset[str] = frozenset()
) -> FittingResult:
    """Work the chapter."""
    return FittingResult()
