"""Weight, axle loads and adhesion."""

from .decisions import Ballast, Bearing, Stiffness, Weighed, Weights
from .masses import Mass, State
from .results import Used, WeightsResult
from .work import Hauled, work

__all__ = [
    "Ballast",
    "Bearing",
    "Hauled",
    "Mass",
    "State",
    "Stiffness",
    "Used",
    "Weighed",
    "Weights",
    "WeightsResult",
    "work",
]
