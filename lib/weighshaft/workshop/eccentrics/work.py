"""The chapter worked."""

from __future__ import annotations

from ..machines import Machines
from .decisions import Eccentrics
from .results import EccentricsResult


def work(
    eccentrics: Eccentrics, *, machines: Machines, fixed: frozenset[str] = frozenset()
) -> EccentricsResult:
    """Work the chapter."""
    return EccentricsResult()
