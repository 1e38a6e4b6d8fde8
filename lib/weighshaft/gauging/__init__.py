"""Widths, clearances and the loading gauge."""

from .decisions import Corner, Gauging, Lineside
from .line import Prototype
from .results import GaugingResult
from .sweep import Near
from .work import work

__all__ = ["Corner", "Gauging", "GaugingResult", "Lineside", "Near", "Prototype", "work"]
