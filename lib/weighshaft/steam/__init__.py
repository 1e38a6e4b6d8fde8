"""The steam in the cylinder: what the indicator would draw of an engine not yet built."""

from .cycle import Cycle, CycleError, End, Losses, Outlet, Supply, run
from .decisions import SteamSide
from .engine import Engine, Running, march
from .openings import Moved
from .results import SteamResult
from .work import work

__all__ = [
    "Cycle",
    "CycleError",
    "End",
    "Engine",
    "Losses",
    "Moved",
    "Outlet",
    "Running",
    "SteamResult",
    "SteamSide",
    "Supply",
    "march",
    "run",
    "work",
]
