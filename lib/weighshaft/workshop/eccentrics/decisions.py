"""What the builder decides about turning eccentrics, building cranks and quartering wheels."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ...sizes import check_sizes, size

ENGINES = "left empty: the engine's"


@dataclass(frozen=True, kw_only=True)
class Chucking:
    """Turning the throw, in three jaws, in four, or on a mandrel."""

    title: ClassVar[str] = "Throw turned in the chuck"
    throw: float | None = size(
        "Throw to be turned", low=0.05, high=100, default=None, main=True,
        help="centre distance, half of the travel; left empty: the engine's",
    )  # fmt: skip
    bar: float | None = size(
        "Bar in the chuck, diameter", low=2, high=400, default=None, main=True,
        help="what the jaws hold; left empty: the sheave and a rim of a twentieth on each side",
    )  # fmt: skip
    jaw: float | None = size(
        "Chuck jaw, width of its face", low=0, high=60, default=None, main=True,
        help="measured where it bears; left empty: jaws between narrow and flat are not reckoned",
    )  # fmt: skip
    mandrel: float | None = size(
        "Mandrel with two pairs of centres, diameter", low=1, high=200, default=None,
        help="left empty: the bore of the sheave",
    )  # fmt: skip
    centre_hole: float = size("Centre hole in the mandrel, diameter", low=0.5, high=20, default=2.0)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Strap:
    """How the strap runs on its sheave."""

    title: ClassVar[str] = "Strap on the sheave"
    diameter: float | None = size(
        "Strap's bore, nominal", low=2, high=300, default=None, help=f"{ENGINES} sheave"
    )
    least: float | None = size(
        "Strap clear of the sheave, at least", low=0, high=1, default=None,
        help="on the diameter; left empty: as the running fit H8/f7 has it",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Stop:
    """Pin and dog that drive a loose sheave either way."""

    title: ClassVar[str] = "Stop of a sheave that slips"
    forward: float | None = size(
        "Stop set for an advance, forward", "deg", -20, 85, default=None, help=ENGINES
    )
    backward: float | None = size(
        "Stop set for an advance, backward", "deg", -20, 85, default=None,
        help="left empty: the engine's, or as forward",
    )  # fmt: skip
    pin: float | None = size(
        "Stop pin, diameter", low=0.3, high=30, default=None,
        help="left empty: a fifth of the axle",
    )  # fmt: skip
    radius: float | None = size(
        "Stop pin, from the axle's centre", low=0.5, high=150, default=None,
        help="left empty: 0.8 of the axle's diameter",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class BuiltUp:
    """A crank built up of webs, pin and axle; and the pin's pitch in any wheel."""

    title: ClassVar[str] = "Crank built up of webs and pins"
    pitch: float | None = size(
        "Crankpin pitch to be drilled", low=0.5, high=150, default=None, main=True,
        help="axle to pin; left empty: half of the stroke",
    )  # fmt: skip
    axle: float | None = size("Crank's axle, diameter", low=1, high=100, default=None, help=ENGINES)
    pin: float | None = size("Crank's pin, diameter", low=0.8, high=100, default=None, help=ENGINES)
    web: float | None = size(
        "Web of a built-up crank, thickness", low=0.5, high=80, default=None, help=ENGINES
    )
    breadth: float | None = size(
        "Web of a built-up crank, breadth", low=2, high=200, default=None, help=ENGINES
    )
    between: float | None = size(
        "Webs of a built-up crank, apart", low=0.5, high=150, default=None, help=ENGINES
    )
    gap: float = size(
        "Gap for the retaining compound in a web", low=0, high=0.3, default=0.04,
        help="on the diameter, as the maker's sheet has it",
    )  # fmt: skip
    dowel: float | None = size(
        "Dowel across web and axle, diameter", low=0.3, high=30, default=None,
        help="left empty: a quarter of the axle",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Jig:
    """Blocks and square on which a pair of wheels is quartered."""

    title: ClassVar[str] = "Quartering jig"
    height: float | None = size(
        "Jig, axle's centre above the plate", low=3, high=600, default=None, main=True,
        help="left empty: room for the wheel and a tenth of it",
    )  # fmt: skip
    axle: float | None = size(
        "Axle where the square touches it, diameter", low=1, high=100, default=None, help=ENGINES
    )
    pin: float | None = size(
        "Pin in the quartering jig, diameter", low=0.5, high=100, default=None,
        help="left empty: the engine's coupled crankpin",
    )  # fmt: skip
    angle: float | None = size(
        "Jig sets the cranks at", "deg", 20, 340, default=None,
        help="left empty: the engine's, 90 for two cylinders",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Eccentrics:
    """The chapter's decisions."""

    chucking: Chucking = Chucking()
    strap: Strap = Strap()
    stop: Stop = Stop()
    crank: BuiltUp = BuiltUp()
    jig: Jig = Jig()

    def __post_init__(self) -> None:
        check_sizes(self)
