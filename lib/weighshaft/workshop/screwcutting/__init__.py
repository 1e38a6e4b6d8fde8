"""Screwcutting, dividing and speeds."""

from .decisions import Screwcutting
from .results import ScrewcuttingResult
from .work import work

__all__ = ["Screwcutting", "ScrewcuttingResult", "work"]
