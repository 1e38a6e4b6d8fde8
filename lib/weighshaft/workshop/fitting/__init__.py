"""Joints, glands and rings."""

from .decisions import Fitting
from .results import FittingResult
from .work import work

__all__ = ["Fitting", "FittingResult", "work"]
