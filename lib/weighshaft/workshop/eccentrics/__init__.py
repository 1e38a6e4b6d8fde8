"""Eccentrics, cranks and quartering."""

from .decisions import BuiltUp, Chucking, Eccentrics, Jig, Stop, Strap
from .engine import Engine, Web
from .results import EccentricsResult
from .work import work

__all__ = [
    "BuiltUp",
    "Chucking",
    "Eccentrics",
    "EccentricsResult",
    "Engine",
    "Jig",
    "Stop",
    "Strap",
    "Web",
    "work",
]
