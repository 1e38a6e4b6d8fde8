"""The best place for the pivots: what may move, what counts, and a search for the best."""

from .blocks import Progress, Stop
from .decisions import Angle, Counting, Holding, Length, Pivots
from .fields import Room
from .map import pivot_map
from .problem import Clear, Problem, posed
from .results import Moved, Part, PivotMap, PivotsResult, Score, SearchResult, Worth, scored
from .search import search
from .work import work

__all__ = [
    "Angle",
    "Clear",
    "Counting",
    "Holding",
    "Length",
    "Moved",
    "Part",
    "PivotMap",
    "Pivots",
    "PivotsResult",
    "Problem",
    "Progress",
    "Room",
    "Score",
    "SearchResult",
    "Stop",
    "Worth",
    "pivot_map",
    "posed",
    "scored",
    "search",
    "work",
]
