"""Cylinders and haulage."""

from .chapter import work
from .chest import Asked, SteamChest
from .decisions import Barrel, Chest, Covers, Crosshead, Cycle, Cylinders, Haulage, Passages
from .loads import piston_load
from .result import CylindersResult

__all__ = [
    "Asked",
    "Barrel",
    "Chest",
    "Covers",
    "Crosshead",
    "Cycle",
    "Cylinders",
    "CylindersResult",
    "Haulage",
    "Passages",
    "SteamChest",
    "piston_load",
    "work",
]
