"""Threads and fittings."""

from __future__ import annotations

from dataclasses import dataclass

from .sizes import check_sizes, size


@dataclass(frozen=True, kw_only=True)
class Threads:
    """The chapter's decisions."""

    depth: float = size("Depth of thread wanted", "%", 40, 100, default=70.0, main=True)

    def __post_init__(self) -> None:
        check_sizes(self)
