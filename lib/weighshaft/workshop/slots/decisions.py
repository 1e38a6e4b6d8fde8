"""What the builder decides about cutting curved slots."""

from __future__ import annotations

from dataclasses import dataclass

from ...sizes import check_sizes


@dataclass(frozen=True, kw_only=True)
class Slots:
    """The chapter's decisions."""

    def __post_init__(self) -> None:
        check_sizes(self)
