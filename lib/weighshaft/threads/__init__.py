"""Threads and fittings: drills, the joints of the engine, connectors, screws to scale."""

from .chapter import ThreadsResult, work
from .decisions import (
    Connector,
    CoverScrews,
    Exhaust,
    Joint,
    Nozzle,
    PistonGland,
    PistonHead,
    PistonRod,
    Rack,
    Steam,
    Threads,
    ValveGland,
    ValveSpindle,
)

__all__ = [
    "Connector",
    "CoverScrews",
    "Exhaust",
    "Joint",
    "Nozzle",
    "PistonGland",
    "PistonHead",
    "PistonRod",
    "Rack",
    "Steam",
    "Threads",
    "ThreadsResult",
    "ValveGland",
    "ValveSpindle",
    "work",
]
