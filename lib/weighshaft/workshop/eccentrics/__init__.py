"""Eccentrics, cranks and quartering."""

from .decisions import Eccentrics
from .results import EccentricsResult
from .work import work

__all__ = ["Eccentrics", "EccentricsResult", "work"]
