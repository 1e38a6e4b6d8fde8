"""The steam in the cylinder: what the indicator would draw of an engine not yet built."""

from .cycle import Cycle, CycleError, End, Losses, Outlet, Supply, run
from .decisions import SteamSide
from .engine import Engine, Running, looked_at, march, regulator_bore
from .many import Condition, Marching, Outcome, Stopped, all_ran, outcome
from .map import CycleMap, map_of
from .openings import Moved
from .results import SteamResult
from .work import work

__all__ = [
    "Condition",
    "Cycle",
    "CycleError",
    "CycleMap",
    "End",
    "Engine",
    "Losses",
    "Marching",
    "Moved",
    "Outcome",
    "Outlet",
    "Running",
    "SteamResult",
    "SteamSide",
    "Stopped",
    "Supply",
    "all_ran",
    "looked_at",
    "map_of",
    "march",
    "outcome",
    "regulator_bore",
    "run",
    "work",
]
