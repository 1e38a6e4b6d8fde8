"""Holes, ports and tapers."""

from .decisions import Ball, Chest, Circle, Face, Patterns, Row, Slant, Taper
from .engine import Engine, Ports
from .results import PatternsResult
from .work import work

__all__ = [
    "Ball",
    "Chest",
    "Circle",
    "Engine",
    "Face",
    "Patterns",
    "PatternsResult",
    "Ports",
    "Row",
    "Slant",
    "Taper",
    "work",
]
