"""What the builder decides about the springs of the axles.

Every size of a spring left empty is suggested from the load on the axles, the riding height
and the room that frames and boxes leave.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size, sizes_of
from ..trade.springs import STRIP_METALS, WIRE_METALS

ENDS = ("squared and ground", "squared", "plain and ground", "plain")
UNDER, ABOVE = "under the horn stay", "above the box"
PLACES = (UNDER, ABOVE)


def check_coil(word: str, wire: float | None, coil: float | None, field: str) -> None:
    """Refuse a coil that cannot be wound of its wire.

    Raises
    ------
    SizeError : when the mean diameter is less than two wires.
    """
    if wire is not None and coil is not None and coil < 2 * wire:
        raise SizeError(
            f"{word}, mean diameter of the coil: {coil:g} mm cannot be wound of wire of "
            f"{wire:g} mm; {4 * wire:g} mm or more would do.",
            field,
        )


@dataclass(frozen=True, kw_only=True)
class CoilSprings:
    """Coil springs, the same at every coupled axle."""

    kind: ClassVar[str] = "coil"
    title: ClassVar[str] = "Coil springs"
    place: str = size(
        "Axle springs stand", "choice", choices=PLACES, default=UNDER,
        help="under the stay they work on pins that hang from the box",
    )  # fmt: skip
    number: int | None = size(
        "Axle springs to one box", "count", 1, 2, default=None,
        help="left empty: 2 under the horn stay, 1 above the box",
    )  # fmt: skip
    wire: float | None = size(
        "Axle spring, wire", low=0.1, high=12, default=None, main=True, help="diameter"
    )
    coil: float | None = size(
        "Axle spring, mean diameter of the coil", low=0.3, high=120, default=None, main=True,
        help="outside diameter less one wire",
    )  # fmt: skip
    turns: float | None = size(
        "Axle spring, working turns", "count", 1.5, 40, default=None, main=True,
        help="without the dead turns at the ends",
    )  # fmt: skip
    free_length: float | None = size(
        "Axle spring, free length", low=1, high=400, default=None, main=True,
        help="left empty: closed only 15 % beyond the box's whole rise",
    )  # fmt: skip
    ends: str = size("Axle spring, ends", "choice", choices=ENDS, default=ENDS[0])
    metal: str = size("Axle spring, wire of", "choice", choices=WIRE_METALS, default="music wire")

    def __post_init__(self) -> None:
        check_sizes(self)
        check_coil("Axle spring", self.wire, self.coil, "springs.coil")


@dataclass(frozen=True, kw_only=True)
class LeafSprings:
    """Leaf springs, the same at every coupled axle: hung at both ends, the box at the middle."""

    kind: ClassVar[str] = "leaf"
    title: ClassVar[str] = "Leaf springs"
    span: float | None = size(
        "Leaf spring, between its hangers", low=4, high=900, default=None, main=True,
        help="loaded; left empty: three quarters of the driving wheel, or what the axles leave",
    )  # fmt: skip
    buckle: float | None = size(
        "Leaf spring, buckle or band along it", low=0, high=150, default=None,
        help="bends nowhere within it; left empty: an eighth of the span",
    )  # fmt: skip
    leaves: int | None = size(
        "Leaf spring, leaves that work", "count", 1, 40, default=None, main=True,
        help="with the master leaf; leaves that only fill the buckle do not count",
    )  # fmt: skip
    full_length: int = size(
        "Leaf spring, further leaves of full length", "count", 0, 12, default=0,
        help="beside the master leaf",
    )  # fmt: skip
    thickness: float | None = size(
        "Leaf spring, thickness of a leaf", low=0.03, high=12, default=None, main=True
    )
    width: float | None = size(
        "Leaf spring, width of the leaves", low=0.5, high=120, default=None, main=True,
        help="left empty: twice the frame plate",
    )  # fmt: skip
    camber: float | None = size(
        "Leaf spring, camber when free", low=0, high=120, default=None,
        help="rise of the arc; left empty: so that it lies flat under the heaviest axle",
    )  # fmt: skip
    nip: float | None = size(
        "Leaf spring, nip of the full-length leaves", low=0, high=60, default=None,
        help="gap before they are drawn together; left empty: evens the stress, the box at its top",
    )  # fmt: skip
    metal: str = size(
        "Leaf spring, leaves of", "choice", choices=STRIP_METALS, default="spring steel"
    )

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.leaves is not None and self.full_length >= self.leaves:
            raise SizeError(
                f"Leaf spring, further leaves of full length: {self.full_length} of "
                f"{self.leaves} leaves leave no master leaf; {self.leaves - 1} or less would do.",
                "springs.full_length",
            )
        if self.span is not None and self.buckle is not None and self.buckle > 0.6 * self.span:
            raise SizeError(
                f"Leaf spring, buckle or band along it: {self.buckle:g} mm of a span of "
                f"{self.span:g} mm leave nothing to bend; {0.6 * self.span:g} mm or less would do.",
                "springs.buckle",
            )


@dataclass(frozen=True, kw_only=True)
class TruckSprings:
    """Springs of leading and trailing trucks, one or more to each truck's axlebox."""

    title: ClassVar[str] = "Springs of the trucks"
    wire: float | None = size("Truck spring, wire", low=0.1, high=12, default=None)
    coil: float | None = size(
        "Truck spring, mean diameter of the coil", low=0.3, high=120, default=None
    )
    turns: float | None = size("Truck spring, working turns", "count", 1.5, 40, default=None)
    free_length: float | None = size("Truck spring, free length", low=1, high=400, default=None)
    number: int = size("Truck springs to one box", "count", 1, 2, default=1)
    ends: str = size("Truck spring, ends", "choice", choices=ENDS, default=ENDS[0])
    metal: str = size("Truck spring, wire of", "choice", choices=WIRE_METALS, default="music wire")

    def __post_init__(self) -> None:
        check_sizes(self)
        check_coil("Truck spring", self.wire, self.coil, "trucks.coil")


@dataclass(frozen=True, kw_only=True)
class Riding:
    """How the engine is to ride, and on what track."""

    title: ClassVar[str] = "Riding height and track"
    deflection: float | None = size(
        "Springs give under the engine by", low=0.05, high=80, default=None, main=True,
        help="what a suggested spring is made for; left empty: twice the boxes' rise",
    )  # fmt: skip
    adjusting: float | None = size(
        "Springs can be packed or adjusted by", low=0, high=80, default=None,
        help="nuts of the pins or washers; left empty: as far as is asked",
    )  # fmt: skip
    stop: float | None = size(
        "Stop on the horn stay, under the box", low=0, high=120, default=None,
        help="height; left empty: so high that the box falls as far as it rises",
    )  # fmt: skip
    twist: float = size(
        "Twist of the track, 1 in", "ratio", 15, 5000, default=100.0, main=True,
        help="length over the change of cross level; 100 for garden track, common practice",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Springing:
    """The chapter's decisions."""

    springs: CoilSprings | LeafSprings = CoilSprings()
    trucks: TruckSprings = TruckSprings()
    riding: Riding = Riding()

    def __post_init__(self) -> None:
        check_sizes(self)


def offered(springing: Springing, path: str, value: float | str) -> bool:
    """Return whether a size of this or another chapter may be set to a value offered for it."""
    names = path.split(".")
    if names[0] != "springing" or isinstance(value, str):
        return True
    owner: object = springing
    for name in names[1:-1]:
        owner = getattr(owner, name)
    about = sizes_of(type(owner))[names[-1]]
    return about.low <= value <= about.high
