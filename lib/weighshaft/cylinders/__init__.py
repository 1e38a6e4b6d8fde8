"""Cylinders and haulage."""

from .chapter import work
from .decisions import Barrel, Covers, Crosshead, Cycle, Cylinders, Haulage, Passages
from .loads import piston_load
from .result import CylindersResult

__all__ = [
    "Barrel",
    "Covers",
    "Crosshead",
    "Cycle",
    "Cylinders",
    "CylindersResult",
    "Haulage",
    "Passages",
    "piston_load",
    "work",
]
