"""Measured on the bench and on the line: runs that fit the engine's own coefficients."""

from .decisions import Bench, Fitted, Found, Predicted, Run
from .fitting import Stand, fitted
from .model import Fire, Line, Stopped
from .results import BenchResult
from .work import work

__all__ = [
    "Bench", "BenchResult", "Fire", "Fitted", "Found", "Line", "Predicted", "Run",
    "Stand", "Stopped", "fitted", "work",
]  # fmt: skip
