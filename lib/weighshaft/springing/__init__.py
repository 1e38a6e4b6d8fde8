"""Axle springs and horns."""

from .decisions import CoilSprings, LeafSprings, Riding, Springing, TruckSprings
from .results import AxleSpring, Bed, SpringingResult
from .work import work

__all__ = [
    "AxleSpring",
    "Bed",
    "CoilSprings",
    "LeafSprings",
    "Riding",
    "Springing",
    "SpringingResult",
    "TruckSprings",
    "work",
]
