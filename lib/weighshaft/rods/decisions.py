"""What the builder decides about rods and balance weights.

The rods' thickness, pins and bushes belong to the wheels, the connecting rod's section to the
clearances, lengths along the cylinder to the cylinders.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size
from ..trade.materials import MATERIALS

KNUCKLED, RIGID = "knuckle joints", "one rigid rod"
JOINTS = (KNUCKLED, RIGID)
BEHIND, AHEAD = "behind the axle", "ahead of the axle"
IN_LINE, OPPOSITE = "in line with the cranks", "opposite the cranks"
ALL_AXLES, DRIVING = "all coupled axles", "the driving axle alone"
WEIGHT_METALS = (*MATERIALS, "lead")


@dataclass(frozen=True, kw_only=True)
class CouplingRods:
    """The coupling rods; thickness and pins belong to the wheels."""

    title: ClassVar[str] = "Coupling rods"
    depth: float | None = size(
        "Coupling rod, depth", low=0.5, high=120, default=None, main=True,
        help="between the eyes; left empty: 0.8 of the axle's diameter",
    )  # fmt: skip
    eye: float | None = size(
        "Coupling rod, eye over its bush", low=1, high=200, default=None,
        help="left empty: twice the crankpin",
    )  # fmt: skip
    material: str = size("Rods, of", "choice", choices=MATERIALS, default="mild steel")
    flute: float = size(
        "Coupling rod, flute in each side, depth", low=0, high=20, default=0.0, main=True,
        help="0 where the rod is plain",
    )  # fmt: skip
    flute_height: float | None = size(
        "Coupling rod, flute, height", low=0.3, high=100, default=None,
        help="left empty: half of the rod's depth",
    )  # fmt: skip
    joint: str = size(
        "Coupling rods over more than two axles", "choice", choices=JOINTS, default=KNUCKLED
    )
    knuckle: float | None = size(
        "Knuckle pin, from the crankpin beside it", low=1, high=300, default=None,
        help="left empty: 0.9 of the eye",
    )  # fmt: skip
    knuckle_side: str = size(
        "Knuckle joint stands", "choice", choices=(BEHIND, AHEAD), default=BEHIND
    )
    knuckle_pin: float | None = size(
        "Knuckle pin, diameter", low=0.5, high=60, default=None,
        help="left empty: 0.7 of the crankpin",
    )  # fmt: skip
    pins: str = size(
        "Coupled crankpins of inside cylinders stand", "choice", choices=(IN_LINE, OPPOSITE),
        default=IN_LINE, help="outside cylinders drive on these pins themselves",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class SmallEnd:
    """The gudgeon pin in the connecting rod's small end."""

    title: ClassVar[str] = "Gudgeon pin"
    diameter: float | None = size(
        "Gudgeon pin, diameter", low=0.5, high=80, default=None,
        help="left empty: 1.1 of the piston rod",
    )  # fmt: skip
    width: float | None = size(
        "Small end, width on the gudgeon pin", low=0.4, high=120, default=None,
        help="left empty: as thick as the connecting rod's shank",
    )  # fmt: skip
    length: float | None = size(
        "Gudgeon pin, length", low=0.8, high=200, default=None,
        help="left empty: flush with the crosshead's outsides",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class BalanceWeights:
    """The weights in the wheels, each a filled piece of a ring between rim and boss.

    Two thirds of the reciprocating masses is the share of the text-books; common practice.
    """

    title: ClassVar[str] = "Balance weights"
    fitted: bool = size("Balance weights that work", "yes/no", default=True)
    share: float = size(
        "Reciprocating masses balanced", "%", 0, 100, default=66.7, main=True,
        help="two thirds is usual; the rest is left to shake the engine",
    )  # fmt: skip
    axles: str = size(
        "Reciprocating masses balanced in", "choice", choices=(ALL_AXLES, DRIVING),
        default=ALL_AXLES,
    )  # fmt: skip
    outside: float | None = size(
        "Balance weight, outer radius", low=1, high=300, default=None,
        help="left empty: 0.85 of the wheel's radius",
    )  # fmt: skip
    inside: float | None = size(
        "Balance weight, inner radius", low=0, high=280, default=None,
        help="left empty: 0.4 of the wheel's radius",
    )  # fmt: skip
    thickness: float | None = size(
        "Balance weight, thickness", low=0.2, high=60, default=None,
        help="left empty: 0.6 of the tyre's width",
    )  # fmt: skip
    material: str = size(
        "Balance weights, of", "choice", choices=WEIGHT_METALS, default="mild steel"
    )

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.outside is not None and self.inside is not None and self.inside >= self.outside:
            raise SizeError(
                f"Balance weight, inner radius: {self.inside:g} mm is not within the outer one "
                f"of {self.outside:g} mm; less than that would do.",
                "inside",
            )


@dataclass(frozen=True, kw_only=True)
class Weighed:
    """What the builder's own scales say of the parts of one side, in place of reckoned masses."""

    title: ClassVar[str] = "Parts of one side as weighed"
    reciprocating: float | None = size(
        "Piston with its rod and crosshead, on the scales", "g", 0.1, 50_000, default=None,
        help="of one side; left empty: reckoned from the sizes",
    )  # fmt: skip
    small_end: float | None = size(
        "Connecting rod's small end, on the scales", "g", 0.05, 20_000, default=None,
        help="the rod lying level on both pins; left empty: reckoned",
    )  # fmt: skip
    big_end: float | None = size(
        "Connecting rod's big end, on the scales", "g", 0.05, 30_000, default=None,
        help="likewise",
    )  # fmt: skip
    coupling: float | None = size(
        "Coupling rods of one side, on the scales", "g", 0.1, 50_000, default=None,
        help="left empty: reckoned",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Rods:
    """The chapter's decisions."""

    coupling: CouplingRods = CouplingRods()
    small_end: SmallEnd = SmallEnd()
    balance: BalanceWeights = BalanceWeights()
    weighed: Weighed = Weighed()
    top_speed: float | None = size(
        "Greatest speed that the rods must stand", "km/h", 0.5, 120, default=None, main=True,
        help="a slip counts too; left empty: twice the running speed",
    )  # fmt: skip
    factor: float = size(
        "Factor wanted on the rods", "ratio", 1, 20, default=3.0,
        help="proof stress over greatest stress, and buckling load over thrust",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)
