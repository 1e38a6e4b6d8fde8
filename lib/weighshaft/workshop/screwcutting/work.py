"""The chapter worked."""

from __future__ import annotations

from ..machines import Machines
from .decisions import Screwcutting
from .results import ScrewcuttingResult


def work(
    screwcutting: Screwcutting, *, machines: Machines, fixed: frozenset[str] = frozenset()
) -> ScrewcuttingResult:
    """Work the chapter."""
    return ScrewcuttingResult()
