"""Widths, clearances and the loading gauge."""

from .decisions import Gauging
from .results import GaugingResult
from .work import work

__all__ = ["Gauging", "GaugingResult", "work"]
