"""Wheels and axles."""

from __future__ import annotations

from dataclasses import dataclass

from .sizes import check_sizes, size


@dataclass(frozen=True, kw_only=True)
class Wheels:
    """The chapter's decisions."""

    standard: str = size("Wheel standard", "text")
    driving_diameter: float = size("Driving wheel, over the tread", low=10, high=600, main=True)

    def __post_init__(self) -> None:
        check_sizes(self)
