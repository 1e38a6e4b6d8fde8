"""Putting together and taking apart."""

from .decisions import Erection
from .results import ErectionResult
from .work import work

__all__ = ["Erection", "ErectionResult", "work"]
