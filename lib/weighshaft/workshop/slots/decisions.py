"""What the builder decides about cutting curved slots."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ...sizes import SizeError, check_sizes, size

MIDDLE, END_HOLE, EDGES = "middle of the arc", "end hole", "edges of the work"
DATUMS = (END_HOLE, MIDDLE, EDGES)
THROUGH, INWARDS = "from end to end", "from both ends to the middle"
ORDERS = (THROUGH, INWARDS)


@dataclass(frozen=True, kw_only=True)
class Roughing:
    """Drilling out the waste along the arc."""

    title: ClassVar[str] = "Drilling out the waste"
    drill: float | None = size(
        "Drill for the waste, diameter", low=0.3, high=40, default=None,
        help="left empty: the largest that leaves the allowance in each flank",
    )  # fmt: skip
    allowance: float = size(
        "Left in each flank of the slot for the cutter", low=0, high=3, default=0.15
    )
    overlap: float = size(
        "Holes of the waste overlap by", low=-5, high=5, default=0.1,
        help="negative: a web is left between them, to be chiselled or milled out",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Slots:
    """The chapter's decisions."""

    radius: float | None = size(
        "Slot to be cut, radius of its centre line", low=2, high=2000, default=None, main=True,
        help="left empty: the engine's link, radius rod or guide",
    )  # fmt: skip
    length: float | None = size(
        "Slot to be cut, travel of the die along it", low=0.5, high=1000, default=None, main=True,
        help="of the middle of the die; left empty: the slot of the gear",
    )  # fmt: skip
    width: float | None = size(
        "Slot to be cut, width", low=0.3, high=60, default=None, main=True,
        help="left empty: the cutter owned that is nearest to 0.4 of the link's width",
    )  # fmt: skip
    die_length: float | None = size(
        "Die, length along the slot", low=0.3, high=100, default=None,
        help="left empty: a round die as long as the slot is wide",
    )  # fmt: skip
    die_pin: float | None = size(
        "Die's pin, diameter", low=0.2, high=50, default=None,
        help="left empty: half of the slot's width",
    )  # fmt: skip
    cutter: float | None = size(
        "Slot drill for the slot, diameter", low=0.2, high=60, default=None, main=True,
        help="left empty: the largest owned that the slot takes in",
    )  # fmt: skip
    step: float = size(
        "Step along the slot", low=0.01, high=20, default=0.254, main=True,
        help="along the chord; 0.254 mm is 10 thou",
    )  # fmt: skip
    cusp_wanted: float = size(
        "Ridge allowed between two steps", low=0.0001, high=1, default=0.01,
        help="what file and emery take off",
    )  # fmt: skip
    datum: str = size("Coordinates from", "choice", choices=DATUMS, default=END_HOLE)
    order: str = size(
        "Slot is cut", "choice", choices=ORDERS, default=THROUGH,
        help="towards the middle both screws push one way only",
    )  # fmt: skip
    edge_along: float | None = size(
        "Left edge of the work to the middle of the slot", low=0, high=1000, default=None,
        help="along the chord; left empty: room for the slot and its own width beside it",
    )  # fmt: skip
    edge_across: float | None = size(
        "Hollow edge of the work to the middle of the slot", low=0, high=1000, default=None,
        help="the edge on the side of the arc's centre; left empty: twice the slot's width and "
        "what the arc falls",
    )  # fmt: skip
    roughing: Roughing = Roughing()

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.width is not None and self.cutter is not None and self.cutter > self.width:
            raise SizeError(
                f"Slot drill for the slot, diameter: {self.cutter:g} mm does not go into a slot "
                f"of {self.width:g} mm; that or less would do.",
                "cutter",
            )
