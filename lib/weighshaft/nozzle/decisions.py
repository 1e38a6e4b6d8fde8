"""Decisions of the chapter: the nozzle, the smokebox, how the cones are drawn, the steam."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import check_sizes, size

FIRINGS = ("coal", "spirit", "gas")


@dataclass(frozen=True, kw_only=True)
class Smokebox:
    """Smokebox, chimney and blast pipe; heights count from the boiler centre."""

    title: ClassVar[str] = "Smokebox and chimney"

    inside_diameter: float | None = size(
        "Smokebox, inside diameter", low=10, high=800, default=None
    )
    chimney_top: float | None = size(
        "Chimney top above the boiler centre", low=5, high=1500, default=None, main=True
    )
    nozzle_below: float | None = size(
        "Nozzle tip below the boiler centre", low=-200, high=300, default=None, main=True,
        help="negative where the tip stands above the centre",
    )  # fmt: skip
    choke: float | None = size(
        "Chimney bore at the choke", low=2, high=400, default=None, main=True,
        help="empty takes the suggestion",
    )  # fmt: skip
    choke_above_nozzle: float | None = size(
        "Choke above the nozzle tip", low=1, high=1000, default=None,
        help="empty takes the suggestion",
    )  # fmt: skip
    taper: float = size(
        "Chimney widens above the choke, each side", "deg", 0, 10, default=0.0,
        help="0 is a parallel chimney; about 2 degrees a side is in use",
    )  # fmt: skip
    petticoat_mouth: float | None = size(
        "Petticoat mouth", low=3, high=500, default=None, help="empty takes 1.5 chokes"
    )
    petticoat_length: float | None = size(
        "Petticoat, mouth to choke", low=1, high=400, default=None, help="empty takes 0.6 chokes"
    )
    chimney_outside: float | None = size(
        "Chimney of the model, outside diameter", low=3, high=450, default=None
    )
    pipe_bore: float | None = size("Blast pipe bore", low=0.5, high=150, default=None)
    tube_area: float | None = size(
        "Area through the tubes", "mm2", 1, 100_000, default=None, help="clear bores of all tubes"
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Cones:
    """How the two cones of the blast are drawn; authors differ, so each says."""

    title: ClassVar[str] = "Cones of the blast"

    upper: float = size("Cone to the chimney top: 1 in", "ratio", 3, 12, default=6.0)
    lower: float = size("Cone to the choke: 1 in", "ratio", 1.5, 8, default=3.0)
    start: str = size(
        "Cones start from", "choice", choices=("rim", "point"), default="rim",
        help="the rim of the nozzle, or a point on its axis at the tip",
    )  # fmt: skip
    measured_on: str = size(
        "Slope is measured on", "choice", choices=("diameter", "side"), default="diameter",
        help="1 in 6 on the diameter is 1 in 12 on each side",
    )  # fmt: skip
    touch_below_top: float | None = size(
        "Upper cone touches below the chimney top", low=0, high=300, default=None,
        help="empty takes 1 1/2 in of the prototype at scale",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class ExhaustSteam:
    """What is assumed of the steam; common practice unless the builder knows better."""

    title: ClassVar[str] = "Exhaust steam"

    back_pressure: float | None = size(
        "Back pressure allowed to the blast at running speed", "bar", 0.002, 3, default=None,
        help="empty takes what suits the firing",
    )  # fmt: skip
    at_cutoff: float = size(
        "Pressure at cut-off over the boiler's", "ratio", 0.2, 1, default=0.75,
        help="what regulator, pipes and ports leave of it when running",
    )  # fmt: skip
    dryness: float = size("Dryness at the nozzle", "ratio", 0.5, 1, default=0.92)
    discharge: float = size(
        "Discharge coefficient", "ratio", 0.5, 1, default=0.93,
        help="0.93 a short pipe, 0.63 a hole in thin plate",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Nozzle:
    """The chapter's decisions."""

    diameter: float = size("Nozzle diameter", low=0.3, high=60, main=True)
    firing: str = size("Fired with", "choice", choices=FIRINGS, default="coal", main=True)
    grate_area: float | None = size("Grate area", "cm2", 0.5, 20_000, default=None, main=True)
    smokebox: Smokebox = Smokebox()
    cones: Cones = Cones()
    steam: ExhaustSteam = ExhaustSteam()

    def __post_init__(self) -> None:
        check_sizes(self)
