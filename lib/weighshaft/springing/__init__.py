"""Axle springs and horns."""

from .decisions import Springing
from .results import SpringingResult
from .work import work

__all__ = ["Springing", "SpringingResult", "work"]
