"""Room for the motion: swept parts against axles, wheels, frames, boiler, rail and each other."""

from .decisions import Clearance, PartSizes, Surroundings, Thicknesses, Widths
from .engine import Engine, Piece
from .gaps import Gaps
from .planes import Body, Plane, planes_from, planes_of
from .results import ClearanceResult, Gap, Line, SideGap
from .work import work

__all__ = [
    "Body",
    "Clearance",
    "ClearanceResult",
    "Engine",
    "Gap",
    "Gaps",
    "Line",
    "PartSizes",
    "Piece",
    "Plane",
    "SideGap",
    "Surroundings",
    "Thicknesses",
    "Widths",
    "planes_from",
    "planes_of",
    "work",
]
