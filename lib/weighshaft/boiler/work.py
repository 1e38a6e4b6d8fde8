"""The chapter worked."""

from __future__ import annotations

from ..frames import Whole
from .decisions import BoilerSeat
from .results import BoilerResult


def work(
    boiler: BoilerSeat, *, whole: Whole, fixed: frozenset[str] = frozenset()
) -> BoilerResult:
    """Work the chapter."""
    return BoilerResult()
