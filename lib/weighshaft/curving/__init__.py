"""Round the curves."""

from .decisions import Curving, Truck
from .results import CurvingResult
from .work import work

__all__ = ["Curving", "CurvingResult", "Truck", "work"]
