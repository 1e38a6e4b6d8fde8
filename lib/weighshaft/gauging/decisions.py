"""What the builder decides about the line that the engine has to clear.

The gap wanted between parts, over the rail and beside a part across the engine belongs to the
room for the motion; the greatest width to the wheels.
"""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size
from ..trade.gauges import COUPLINGS, LOADING_GAUGES, PLATFORMS

SCALED, OWN, NONE = "the prototype's width and height", "own outline", "none"
OUTLINES = (SCALED, OWN, *LOADING_GAUGES)


@dataclass(frozen=True, kw_only=True)
class Corner:
    """One corner of an outline of one's own, at model size."""

    title: ClassVar[str] = "Corner of the loading gauge"
    height: float = size("Corner above the rail", low=0, high=2000, default=0.0)
    half_width: float = size("Corner, half of the width there", low=0, high=1000, default=50.0)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Lineside:
    """The loading gauge, and what stands beside the line."""

    title: ClassVar[str] = "Loading gauge and platforms"
    outline: str = size(
        "Loading gauge", "choice", choices=OUTLINES, default=SCALED, main=True,
        help="published ones of full size are taken at scale",
    )  # fmt: skip
    spare: float = size(
        "Wanted inside the loading gauge", low=0, high=60, default=0.0, help="all round"
    )
    platform: str = size(
        "Platform", "choice", choices=(NONE, OWN, *PLATFORMS), default=NONE,
        help="published ones are taken at scale",
    )  # fmt: skip
    platform_height: float | None = size(
        "Platform above the rail", low=0, high=500, default=None, help="of one's own"
    )
    platform_edge: float | None = size(
        "Platform edge from the track's middle", low=5, high=1000, default=None,
        help="of one's own; straight track",
    )  # fmt: skip
    couplings: str = size(
        "Buffers and couplings after", "choice", choices=(NONE, *COUPLINGS), default=NONE,
        help="what the other stock has; published ones of full size are taken at scale",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Gauging:
    """The chapter's decisions."""

    line: Lineside = Lineside()
    corners: tuple[Corner, ...] = ()

    def __post_init__(self) -> None:
        check_sizes(self)
        for low, high in pairwise(self.corners):
            if high.height < low.height:
                raise SizeError(
                    f"Corner above the rail: {high.height:g} mm comes after {low.height:g} mm; "
                    "corners from the rail upwards would do.",
                    "corners",
                )
        if self.line.outline == OWN and not self.corners:
            raise SizeError(
                "Loading gauge: an outline of one's own needs its corners; one at least would do.",
                "corners",
            )
