"""Weight, axle loads and adhesion."""

from .decisions import Weights
from .results import WeightsResult
from .work import work

__all__ = ["Weights", "WeightsResult", "work"]
