"""The boiler in the frames."""

from .decisions import BoilerSeat, Firebox, Shell
from .results import BoilerResult
from .work import work

__all__ = ["BoilerResult", "BoilerSeat", "Firebox", "Shell", "work"]
