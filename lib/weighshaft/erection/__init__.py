"""Putting together and taking apart."""

from .decisions import Erection
from .results import ErectionResult, Removal, Screws, SpannerRoom, Step
from .sweep import Shape, Way
from .work import work

__all__ = ["Erection", "ErectionResult", "Removal", "Screws", "Shape", "SpannerRoom", "Step",
           "Way", "work"]  # fmt: skip
