"""Fire, boiler and feed."""

from .decisions import Firing
from .results import FiringResult, Raising
from .shape import Seat
from .work import work

__all__ = ["Firing", "FiringResult", "Raising", "Seat", "work"]
