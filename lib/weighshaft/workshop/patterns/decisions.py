"""What the builder decides about holes, ports and tapers to be set out."""

from __future__ import annotations

from dataclasses import dataclass

from ...sizes import check_sizes


@dataclass(frozen=True, kw_only=True)
class Patterns:
    """The chapter's decisions."""

    def __post_init__(self) -> None:
        check_sizes(self)
