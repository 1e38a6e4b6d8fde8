"""Pull, train and track: what the engine pulls, how fast, and how it runs over a line."""

from .assumed import Assumed, Notch, Point, assumed_map, assumed_raising, with_feed
from .decisions import Running
from .given import ANSWERS, EngineMap, Raising
from .resistance import Rolling
from .results import RunningResult
from .work import work

__all__ = [
    "ANSWERS",
    "Assumed",
    "EngineMap",
    "Notch",
    "Point",
    "Raising",
    "Rolling",
    "Running",
    "RunningResult",
    "assumed_map",
    "assumed_raising",
    "with_feed",
    "work",
]
