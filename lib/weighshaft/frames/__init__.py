"""The engine in its frames: one model of all its parts, from the decisions of every chapter."""

from .decisions import Beams, Frames, Horns, Plates, Platework, Pump, Shown, Stay
from .results import FramesResult
from .solids import Bar, Place, Plate, Point, Round, Solid, block, disc, mirrored
from .whole import Axle, Drive, Part, Whole, moved
from .work import work

__all__ = [
    "Axle",
    "Bar",
    "Beams",
    "Drive",
    "Frames",
    "FramesResult",
    "Horns",
    "Part",
    "Place",
    "Plate",
    "Plates",
    "Platework",
    "Point",
    "Pump",
    "Round",
    "Shown",
    "Solid",
    "Stay",
    "Whole",
    "block",
    "disc",
    "mirrored",
    "moved",
    "work",
]
