"""What the builder decides about the reverser and about the two sides of the engine.

Every length left empty follows the gear; the chapter's suggestions say how.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size, sizes_of

CUTOFFS = (60.0, 45.0, 30.0)
"""Notches between full gear and mid gear, per cent of the stroke."""


@dataclass(frozen=True, kw_only=True)
class Linkage:
    """The arm on the weighshaft that the reach rod drives, and the rod."""

    title: ClassVar[str] = "Reversing arm and reach rod"
    arm: float | None = size(
        "Reversing arm", low=1, high=500, default=None, main=True,
        help="on the weighshaft, to the reach rod's pin; left empty: as long as the lifting arm",
    )  # fmt: skip
    arm_angle: float | None = size(
        "Reversing arm, from the lifting arm", "deg", -360, 360, default=None,
        help="anticlockwise; left empty: upright in mid gear",
    )  # fmt: skip
    reach_rod: float | None = size(
        "Reach rod", low=2, high=5000, default=None,
        help="between centres; left empty: the length that puts mid gear in the middle",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Lever:
    """A lever in the cab with a latch that drops into the notches of a quadrant."""

    kind: ClassVar[str] = "lever"
    title: ClassVar[str] = "Lever and quadrant"
    length: float | None = size(
        "Lever, pivot to reach rod", low=2, high=800, default=None, main=True,
        help="left empty: so long that it leans some 20 degrees in full gear",
    )  # fmt: skip
    handle: float | None = size("Lever, pivot to the grip", low=3, high=2000, default=None)
    pivot_x: float | None = size(
        "Lever's pivot ahead of axle", low=-5000, high=5000, default=None,
        help="along the cylinder's line; negative: behind the axle",
    )  # fmt: skip
    pivot_y: float | None = size("Lever's pivot above axle", low=-1000, high=1000, default=None)
    quadrant_radius: float | None = size(
        "Quadrant, radius of the notched edge", low=2, high=1500, default=None
    )
    latch: float | None = size(
        "Latch, width of its tooth", low=0.2, high=50, default=None,
        help="where the quadrant's edge cuts it",
    )  # fmt: skip
    land: float | None = size(
        "Least metal to leave between two notches", low=0.1, high=50, default=None
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Screw:
    """A screw whose nut draws the reach rod along a straight line."""

    kind: ClassVar[str] = "screw"
    title: ClassVar[str] = "Screw reverser"
    pitch: float = size("Screw, pitch", low=0.1, high=20, default=1.0, main=True)
    starts: int = size("Screw, starts", "count", 1, 6, default=1)
    diameter: float | None = size("Screw, diameter over the thread", low=1, high=60, default=None)
    nut_x: float | None = size(
        "Nut's pin ahead of axle, in mid gear", low=-5000, high=5000, default=None
    )
    nut_y: float | None = size(
        "Nut's pin above axle, in mid gear", low=-1000, high=1000, default=None
    )
    inclination: float = size(
        "Screw inclined", "deg", -60, 60, default=0.0,
        help="anticlockwise from the cylinder's line",
    )  # fmt: skip
    wheel: float | None = size("Handwheel or crank handle, radius", low=2, high=300, default=None)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Servo:
    """A radio-control servo whose horn takes the lever's place."""

    kind: ClassVar[str] = "servo"
    title: ClassVar[str] = "Servo"
    horn: float | None = size(
        "Servo horn, radius", low=2, high=100, default=None, main=True,
        help="left empty: so long that the servo uses its travel",
    )  # fmt: skip
    travel: float = size(
        "Servo's travel that may be used", "deg", 20, 270, default=80.0,
        help="from end to end, as the transmitter sets it",
    )  # fmt: skip
    torque: float | None = size(
        "Servo's torque as its maker gives it", "kg cm", 0.05, 200, default=None
    )
    shaft_x: float | None = size("Servo's shaft ahead of axle", low=-5000, high=5000, default=None)
    shaft_y: float | None = size("Servo's shaft above axle", low=-1000, high=1000, default=None)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Balance:
    """What hangs on the weighshaft, and the spring that carries it."""

    title: ClassVar[str] = "Weight and balance spring"
    hung: float | None = size(
        "What hangs on the lifting arms, both sides together", "g", 0, 50_000, default=None,
        help="link and its share of the rods; left empty: estimated from the sizes",
    )  # fmt: skip
    spring: str = size(
        "Balance spring", "choice", choices=("none", "coil spring in tension"), default="none"
    )
    arm: float | None = size(
        "Arm of the spring on the weighshaft", low=1, high=300, default=None,
        help="square to the spring in mid gear",
    )  # fmt: skip
    wire: float | None = size("Spring, diameter of the wire", low=0.1, high=8, default=None)
    coil: float | None = size("Spring, mean diameter of the coil", low=0.8, high=80, default=None)
    turns: float | None = size("Spring, working turns", "count", 2, 400, default=None)
    material: str = size(
        "Spring's wire", "choice", choices=("steel", "stainless steel", "phosphor bronze"),
        default="steel",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.wire is not None and self.coil is not None and self.coil < 2 * self.wire:
            raise SizeError(
                f"Spring, mean diameter of the coil: {self.coil:g} mm cannot be wound of wire of "
                f"{self.wire:g} mm; {4 * self.wire:g} mm or more would do.",
                "balance.coil",
            )


@dataclass(frozen=True, kw_only=True)
class Reversing:
    """The chapter's decisions."""

    cutoffs: tuple[float, ...] = size(
        "Notches to cut between full and mid gear", "%", 3, 95, default=CUTOFFS, main=True,
        help="mean cut-off of both ends; full gear and mid gear have a notch in any case",
    )  # fmt: skip
    leading_side: str = size(
        "Crank that leads, running forward", "choice", choices=("right", "left"),
        default="right", main=True, help="right as one sits in the cab looking ahead",
    )  # fmt: skip
    linkage: Linkage = Linkage()
    worked_by: Lever | Screw | Servo = Lever()
    balance: Balance = Balance()

    def __post_init__(self) -> None:
        check_sizes(self)


def offered(reversing: Reversing, path: str, value: float | str) -> bool:
    """Return whether a size of this or another chapter may be set to a value offered for it."""
    names = path.split(".")
    if names[0] != "reversing" or isinstance(value, str):
        return True
    owner: object = reversing
    for name in names[1:-1]:
        owner = getattr(owner, name)
    about = sizes_of(type(owner))[names[-1]]
    return about.low <= value <= about.high
