"""Holes, ports and tapers."""

from .decisions import Patterns
from .results import PatternsResult
from .work import work

__all__ = ["Patterns", "PatternsResult", "work"]
