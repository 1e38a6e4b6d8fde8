"""Blast nozzle and chimney."""

from __future__ import annotations

from dataclasses import dataclass

from .sizes import check_sizes, size


@dataclass(frozen=True, kw_only=True)
class Nozzle:
    """The chapter's decisions."""

    diameter: float = size("Nozzle diameter", low=0.3, high=60, main=True)

    def __post_init__(self) -> None:
        check_sizes(self)
