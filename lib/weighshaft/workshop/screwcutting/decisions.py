"""What the builder decides about threads to be cut, dividing and speeds."""

from __future__ import annotations

from dataclasses import dataclass

from ...sizes import check_sizes


@dataclass(frozen=True, kw_only=True)
class Screwcutting:
    """The chapter's decisions."""

    def __post_init__(self) -> None:
        check_sizes(self)
