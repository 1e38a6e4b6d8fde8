"""What the builder decides about the boiler as it lies in the frames."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import check_sizes, size
from ..trade.materials import MATERIALS

KINDS = ("as fired", "pot", "centre flue", "locomotive type", "vertical")


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

    def __post_init__(self) -> None:
        check_sizes(self)
