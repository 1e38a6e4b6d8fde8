"""Prototype and scale: what the full-size engine becomes on this track."""

from .chapter import work
from .decisions import AsBuilt, Outline, Prototype, Scale
from .result import Bought, PairError, ScaledSize, ScaleResult

__all__ = [
    "AsBuilt",
    "Bought",
    "Outline",
    "PairError",
    "Prototype",
    "Scale",
    "ScaleResult",
    "ScaledSize",
    "work",
]
