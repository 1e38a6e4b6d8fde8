"""The machines and tools that the builder has, and what the engine asks of them."""

from .decisions import (
    FLAT,
    HEXAGON,
    PLATE,
    PLATES,
    ROUND,
    SHAPES,
    TUBE,
    WHEELS,
    Dividing,
    Lathe,
    Machines,
    Mill,
    Piece,
    Rack,
    Tools,
)
from .owned import Bore, Need, Owned, near_reamer, owned, same_thread
from .work import MachinesResult, work

__all__ = [
    "FLAT",
    "HEXAGON",
    "PLATE",
    "PLATES",
    "ROUND",
    "SHAPES",
    "TUBE",
    "WHEELS",
    "Bore",
    "Dividing",
    "Lathe",
    "Machines",
    "MachinesResult",
    "Mill",
    "Need",
    "Owned",
    "Piece",
    "Rack",
    "Tools",
    "near_reamer",
    "owned",
    "same_thread",
    "work",
]
