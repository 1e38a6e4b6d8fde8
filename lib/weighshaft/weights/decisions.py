"""What the builder decides about weights: what was weighed, ballast, and how the axles bear."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size

EACH, COUPLED, GROUPS = "each axle by itself", "coupled axles together", "front and back groups"
EQUALISING = (EACH, COUPLED, GROUPS)
ALWAYS, WORKING, USED = "always", "in working order", "used up on the run"
CARRIED = (ALWAYS, WORKING, USED)


@dataclass(frozen=True, kw_only=True)
class Weighed:
    """One part as weighed, or one that the model has not."""

    title: ClassVar[str] = "Weighed part"
    name: str = size(
        "Weighed part or addition", "text", default="",
        help="as the table of parts names it; any other name is a part that the model has not",
    )  # fmt: skip
    mass: float = size(
        "Weight of the weighed part", "kg", 0, 1000, default=0.0, help="both sides of a pair"
    )
    ahead: float | None = size(
        "Weighed part ahead of the driving axle", low=-5000, high=5000, default=None,
        help="its centre; negative behind; left empty: where the model has it",
    )  # fmt: skip
    above: float | None = size(
        "Weighed part above the driving axle", low=-1000, high=2000, default=None,
        help="its centre; left empty: where the model has it, else at the axle's height",
    )  # fmt: skip
    out: float = size(
        "Weighed part out to the right", low=-1000, high=1000, default=0.0,
        help="its centre, from the engine's centre line; negative to the left",
    )  # fmt: skip
    carried: str = size(
        "Addition is carried", "choice", choices=CARRIED, default=ALWAYS,
        help="fuel is used up on the run; a driver's weight on the engine is in working order only",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Ballast:
    """One piece of ballast."""

    title: ClassVar[str] = "Ballast"
    mass: float = size("Ballast, weight", "kg", 0, 500, default=0.0)
    ahead: float = size(
        "Ballast ahead of the driving axle", low=-5000, high=5000, default=0.0,
        help="its centre; negative behind",
    )  # fmt: skip
    above: float = size("Ballast above the driving axle", low=-1000, high=2000, default=0.0)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Stiffness:
    """The springs of one coupled axle."""

    title: ClassVar[str] = "Coupled axle's springs"
    rate: float = size(
        "Coupled axle's springs, stiffness beside the others", "ratio", 0.1, 10, default=1.0,
        help="one for each coupled axle from the front; left out: all alike",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Bearing:
    """How the weight comes to the axles."""

    title: ClassVar[str] = "How the axles bear"
    equalised: str = size(
        "Equalised", "choice", choices=EQUALISING, default=EACH, main=True,
        help="by beams between the springs; front and back groups stand on three points",
    )  # fmt: skip
    front_group: int | None = size(
        "Axles in the front group", "count", 1, 10, default=None,
        help="trucks counted; left empty: the leading truck with half of the coupled axles",
    )  # fmt: skip
    leading: float = size(
        "Leading truck's springs beside a coupled axle's", "ratio", 0.02, 10, default=0.5,
        help="stiffness for each of its axles; in a group its share of load; a half is common",
    )  # fmt: skip
    trailing: float = size(
        "Trailing truck's springs beside a coupled axle's", "ratio", 0.02, 10, default=0.5,
        help="stiffness for each of its axles; in a group its share of load; a half is common",
    )  # fmt: skip
    leading_load: float | None = size(
        "Load wanted on the leading truck", "kg", 0.01, 1000, default=None,
        help="all its axles, wheels and all; left empty: none in particular",
    )  # fmt: skip
    trailing_load: float | None = size(
        "Load wanted on the trailing truck", "kg", 0.01, 1000, default=None,
        help="all its axles, wheels and all; left empty: none in particular",
    )  # fmt: skip
    springs: tuple[Stiffness, ...] = ()

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Weights:
    """The chapter's decisions."""

    allowance: float = size(
        "Allowance for rivets, screws, pipes and fittings", "%", 0, 60, default=5.0, main=True,
        help="of the parts reckoned, not of those weighed; common practice",
    )  # fmt: skip
    boiler_left: float = size(
        "Boiler water left at the bottom of the glass", "%", 10, 100, default=60.0,
        help="of the water at working level; never run the boiler lower",
    )  # fmt: skip
    coupled_share: float | None = size(
        "Share of the weight wanted on the coupled wheels", "%", 20, 100, default=None, main=True,
        help="left empty: none in particular",
    )  # fmt: skip
    pull: float | None = size(
        "Pull at the coupling looked at", "N", 0, 20_000, default=None,
        help="left empty: what cylinders or rail give in full gear on the level",
    )  # fmt: skip
    bearing: Bearing = Bearing()
    weighed: tuple[Weighed, ...] = ()
    ballast: tuple[Ballast, ...] = ()

    def __post_init__(self) -> None:
        check_sizes(self)
        names = [one.name.strip() for one in self.weighed if one.name.strip()]
        double = next((name for name in names if names.count(name) > 1), None)
        if double is not None:
            raise SizeError(
                f"Weighed part: “{double[:40]}” is there twice; once would do.", "weighed"
            )
