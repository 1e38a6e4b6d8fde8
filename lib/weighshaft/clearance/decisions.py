"""What the builder decides about the room that the motion has."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size


@dataclass(frozen=True, kw_only=True)
class Widths:
    """Widths seen from the side, over the eyes; left empty, shares of the axle's diameter."""

    title: ClassVar[str] = "Widths seen from the side"
    rod: float | None = size(
        "Eccentric and valve rods, width", low=0.3, high=100, default=None,
        help="over their eyes; left empty: half of the axle's diameter",
    )  # fmt: skip
    lever: float | None = size(
        "Levers, arms and lifting links, width", low=0.3, high=100, default=None,
        help="over their eyes; left empty: 0.45 of the axle's diameter",
    )  # fmt: skip
    link: float | None = size(
        "Curved link, width", low=0.5, high=150, default=None,
        help="over the slot and both walls; left empty: 0.95 of the axle's diameter",
    )  # fmt: skip
    strap: float | None = size(
        "Strap, metal outside the sheave", low=0.2, high=50, default=None,
        help="left empty: a quarter of the axle's diameter",
    )  # fmt: skip
    connecting_rod: float | None = size(
        "Connecting rod, depth", low=0.5, high=150, default=None,
        help="left empty: 0.7 of the axle's diameter",
    )  # fmt: skip
    big_end: float | None = size(
        "Big end, height", low=1, high=200, default=None,
        help="left empty: 1.7 times its crankpin",
    )  # fmt: skip
    weighshaft: float | None = size(
        "Weighshaft and rocker shaft, diameter", low=0.5, high=60, default=None,
        help="left empty: half of the axle's diameter",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Thicknesses:
    """Thicknesses across the engine, and how the parts stand beside one another."""

    title: ClassVar[str] = "Thicknesses across the engine"
    rod: float | None = size(
        "Rods and levers, thickness", low=0.2, high=60, default=None,
        help="left empty: a quarter of the axle's diameter",
    )  # fmt: skip
    link: float | None = size(
        "Curved link, thickness", low=0.3, high=60, default=None,
        help="left empty: 0.3 of the axle's diameter",
    )  # fmt: skip
    side_gap: float = size(
        "Wanted beside a part, across the engine", low=0, high=10, default=0.2,
        help="over and above the side play of the axle",
    )  # fmt: skip
    forward_sheave: str = size(
        "Forward eccentric stands", "choice", choices=("outer", "inner"), default="outer",
        help="nearer the frame, or nearer the middle of the engine",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Surroundings:
    """What stands above and below; heights are from the driving axle's centre, up positive."""

    title: ClassVar[str] = "Boiler, ashpan and rail"
    boiler_bottom: float | None = size(
        "Boiler's underside above the axle", low=-500, high=2000, default=None, main=True,
        help="over its lagging; left empty: not known and not looked at",
    )  # fmt: skip
    boiler_diameter: float | None = size(
        "Boiler, diameter over its lagging", low=5, high=800, default=None,
        help="left empty: its underside counts as flat",
    )  # fmt: skip
    ashpan_bottom: float | None = size(
        "Ashpan's underside above the axle", low=-500, high=2000, default=None,
        help="negative below the axle; left empty: not known and not looked at",
    )  # fmt: skip
    ashpan_front: float | None = size(
        "Ashpan or firebox, front ahead of the axle", low=-3000, high=3000, default=None,
        help="negative behind it; left empty with the ashpan's underside given: all along",
    )  # fmt: skip
    ashpan_back: float | None = size(
        "Ashpan or firebox, back ahead of the axle", low=-3000, high=3000, default=None,
        help="negative behind it",
    )  # fmt: skip
    over_rail: float | None = size(
        "Wanted over the rail", low=0, high=100, default=None,
        help="left empty: 0.03 of the driving wheel's diameter, 1.5 mm at least",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)
        front, back = self.ashpan_front, self.ashpan_back
        if front is not None and back is not None and front <= back:
            raise SizeError(
                f"Ashpan: its front, {front:g} mm ahead of the axle, has to stand ahead of its "
                f"back at {back:g} mm.",
                "ashpan_front",
            )


@dataclass(frozen=True, kw_only=True)
class PartSizes:
    """One part whose sizes are known; what is left empty is taken as for its fellows."""

    title: ClassVar[str] = "Sizes of a part"
    name: str = size("Part", "text", default="", help="as the table of gaps names it")
    width: float | None = size("Width seen from the side", low=0.2, high=300, default=None)
    thickness: float | None = size("Thickness across", low=0.1, high=300, default=None)
    plane: float | None = size(
        "Middle of it, out from the engine's centre line", low=0, high=1000, default=None
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Clearance:
    """The chapter's decisions: what gap is wanted, and the sizes of what moves."""

    title: ClassVar[str] = "Room for the motion"
    wanted: float | None = size(
        "Gap wanted between what moves and what is near", low=0, high=50, default=None, main=True,
        help="left empty: a hundredth of the driving wheel's diameter, 0.4 mm at least",
    )  # fmt: skip
    axlebox_rise: float | None = size(
        "Axleboxes rise and fall by", low=0, high=60, default=None, main=True,
        help="each way on their springs; left empty: one axle above its neighbour, as in Wheels",
    )  # fmt: skip
    valve_spindle: float | None = size(
        "Valve spindle, length drawn ahead of its pin", low=0, high=2000, default=None,
        help="left empty: as far as the gudgeon pin goes",
    )  # fmt: skip
    widths: Widths = Widths()
    thicknesses: Thicknesses = Thicknesses()
    surroundings: Surroundings = Surroundings()
    parts: tuple[PartSizes, ...] = ()

    def __post_init__(self) -> None:
        check_sizes(self)
