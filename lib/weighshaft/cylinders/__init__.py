"""Cylinders and haulage."""

from .decisions import Barrel, Covers, Crosshead, Cycle, Cylinders, Haulage, Passages

__all__ = [
    "Barrel",
    "Covers",
    "Crosshead",
    "Cycle",
    "Cylinders",
    "Haulage",
    "Passages",
]
