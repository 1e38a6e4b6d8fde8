"""What the builder decides about the boiler as it lies in the frames."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import check_sizes, size
from ..trade.materials import MATERIALS

KINDS = ("as fired", "pot", "centre flue", "locomotive type", "vertical")
HELD = ("at the smokebox", "at the firebox")
PAN_WAYS = ("down", "ahead", "back")


@dataclass(frozen=True, kw_only=True)
class Shell:
    """Barrel, lagging and smokebox; height and diameter belong to the room for the motion."""

    title: ClassVar[str] = "Barrel and smokebox"
    smokebox_front: float | None = size(
        "Smokebox front ahead of the driving axle", low=-500, high=3000, default=None, main=True,
        help="left empty: the prototype's at scale",
    )  # fmt: skip
    smokebox_length: float | None = size(
        "Smokebox, length", low=3, high=800, default=None, help="left empty: 0.9 of its diameter"
    )
    length: float | None = size(
        "Barrel and firebox together, length", low=10, high=4000, default=None, main=True,
        help="left empty: the prototype's at scale, up to the cab",
    )  # fmt: skip
    wall: float | None = size(
        "Barrel, wall", low=0.3, high=20, default=None,
        help="for its weight; left empty: 0.03 of its diameter. The inspector has the say",
    )  # fmt: skip
    lagging: float | None = size(
        "Lagging and clothing, thickness", low=0, high=40, default=None,
        help="left empty: 0.02 of the diameter",
    )  # fmt: skip
    material: str = size("Boiler, of", "choice", choices=MATERIALS, default="copper")

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Firebox:
    """Firebox of a locomotive-type boiler, or the flue of another."""

    title: ClassVar[str] = "Firebox, grate or flue"
    length: float | None = size(
        "Firebox, outside length", low=5, high=1000, default=None,
        help="left empty: 0.3 of barrel and firebox together",
    )  # fmt: skip
    width: float | None = size(
        "Firebox, outside width at the grate", low=5, high=800, default=None,
        help="left empty: what goes between the frames with a millimetre each side",
    )  # fmt: skip
    bottom: float | None = size(
        "Firebox bottom above the driving axle", low=-400, high=600, default=None,
        help="negative below it; left empty: 0.1 of the driving wheel above the axle",
    )  # fmt: skip
    ashpan: float | None = size(
        "Ashpan, depth under the firebox", low=0, high=200, default=None,
        help="left empty: as the room for the motion has it, else 0.15 of the driving wheel",
    )  # fmt: skip
    water_space: float | None = size(
        "Water space round the firebox", low=1, high=60, default=None,
        help="left empty: 0.07 of the boiler's diameter",
    )  # fmt: skip
    flue: float | None = size(
        "Centre flue, outside diameter", low=3, high=300, default=None,
        help="left empty: 0.45 of the boiler's diameter",
    )  # fmt: skip
    crown: float | None = size(
        "Firebox crown above the boiler's centre", low=-400, high=400, default=None,
        help="of the inner firebox; of a flue or an upright one, what fire touches at the highest; "
        "left empty: 0.05 of the diameter, or the top of the flue",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Holding:
    """Where the boiler is held, and what it does when it gets hot."""

    title: ClassVar[str] = "Held fast, and sliding when hot"
    at: str = size(
        "Boiler held fast", "choice", choices=HELD, default=HELD[0], main=True,
        help="it slides at the other end",
    )  # fmt: skip
    slide: float | None = size(
        "Slide left at the boiler's free end", low=0, high=20, default=None,
        help="slots longer than their bolts, by this; left empty: twice what it grows by",
    )  # fmt: skip
    cold: float = size("Boiler is put together at", "degC", -20, 50, default=20.0)
    frames_warm: float = size(
        "Frames get as warm as", "degC", 0, 200, default=40.0, help="beside the firebox, in steam"
    )
    side_gap: float | None = size(
        "Wanted between firebox and frames, hot", low=0, high=20, default=None,
        help="each side; left empty: 0.01 of the room between them, 0.4 mm at least",
    )  # fmt: skip
    gap: float | None = size(
        "Wanted between boiler and what turns or rises under it", low=0, high=30, default=None,
        help="left empty: 0.02 of the driving wheel, 0.5 mm at least",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Fittings:
    """What has to be reached on the boiler, and what comes out of it."""

    title: ClassVar[str] = "Water gauge, plugs, grate and ashpan"
    gauge_nut: float | None = size(
        "Gauge glass, bottom nut above the firebox crown", low=0, high=200, default=None,
        help="left empty: 3 in of the prototype at scale, 2 mm at least",
    )  # fmt: skip
    glass: float | None = size(
        "Gauge glass, seen between its nuts", low=2, high=300, default=None,
        help="left empty: a fifth of the boiler's diameter",
    )  # fmt: skip
    pan_way: str = size(
        "Grate and ashpan come out", "choice", choices=PAN_WAYS, default=PAN_WAYS[0],
        help="with a pin drawn",
    )  # fmt: skip
    reach: float = size(
        "Room for fingers at a plug", low=0, high=100, default=16.0,
        help="a finger and thumb; common practice",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class BoilerSeat:
    """The chapter's decisions."""

    kind: str = size(
        "Boiler", "choice", choices=KINDS, default="as fired", main=True,
        help="as fired: coal takes the locomotive type, gas a centre flue, spirit a pot",
    )  # fmt: skip
    water_level: float = size(
        "Water level, of the boiler's diameter", "ratio", 0.3, 0.95, default=0.7, main=True,
        help="from its underside, cold and filled to work",
    )  # fmt: skip
    shell: Shell = Shell()
    firebox: Firebox = Firebox()
    holding: Holding = Holding()
    fittings: Fittings = Fittings()

    def __post_init__(self) -> None:
        check_sizes(self)
