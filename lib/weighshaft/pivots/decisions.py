"""What the builder decides about the search: what may move, what counts, what must hold."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size
from .fields import choices

USUAL, NONE, TELLING = "the usual ones", "none", "one that tells most"
NOTCHES = (1.0, 0.75, 0.5, -0.5, -0.75, -1.0)


@dataclass(frozen=True, kw_only=True)
class Length:
    """A length that may move, or the usual ones of the gear."""

    title: ClassVar[str] = "Length that may move"
    name: str = size(
        "Length that may move", "choice", choices=(USUAL, NONE, *choices("mm")), default=USUAL
    )
    down: float | None = size(
        "It may become less by", low=0, high=2000, default=None, help="left empty: as is usual"
    )
    up: float | None = size(
        "It may become more by", low=0, high=2000, default=None, help="left empty: as is usual"
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Angle:
    """An angle that may move, or the usual ones of the gear."""

    title: ClassVar[str] = "Angle that may move"
    name: str = size(
        "Angle that may move", "choice", choices=(USUAL, NONE, *choices("deg")), default=USUAL
    )
    down: float | None = size(
        "It may become less by", "deg", 0, 180, default=None, help="left empty: as is usual"
    )
    up: float | None = size(
        "It may become more by", "deg", 0, 180, default=None, help="left empty: as is usual"
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Counting:
    """How much of each fault counts as one; the larger the figure, the less the fault counts."""

    title: ClassVar[str] = "What counts: so much of it is one fault"
    cutoff_forward: float = size("Cut-offs apart, forward", "%", 0.01, 1000, default=1.0)
    cutoff_backward: float = size(
        "Cut-offs apart, backward", "%", 0.01, 1000, default=2.0,
        help="twice that of forward: backward counts half as much",
    )  # fmt: skip
    lead: float | None = size(
        "Leads apart", low=0.001, high=100, default=None, help="left empty: 4 % of the port"
    )
    lead_change: float | None = size(
        "Lead changing with the notch", low=0.001, high=100, default=None,
        help="left empty: 15 % of the port",
    )  # fmt: skip
    die_slip: float | None = size(
        "Slip of the die", low=0.001, high=100, default=None, help="left empty: 5 % of the stroke"
    )
    opening: float | None = size(
        "Opening to steam lost",
        low=0.001,
        high=100,
        default=None,
        help="left empty: 5 % of the port",
    )
    release: float = size("Releases apart", "%", 0.01, 1000, default=3.0)
    compression: float = size("Compressions apart", "%", 0.01, 1000, default=3.0)
    cutoff_kept: float = size("Cut-off off the wanted one, full gear", "%", 0.01, 1000, default=2.0)
    lead_kept: float | None = size(
        "Lead off the wanted one, full gear", low=0.001, high=100, default=None,
        help="left empty: 4 % of the port",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Holding:
    """What a gear has to keep to be considered at all."""

    title: ClassVar[str] = "What must hold"
    margin: float | None = size(
        "Least sine of an angle of transmission", "ratio", 0.02, 1, default=None,
        help="left empty: 0.64, 40 degrees, or what the gear has now if that is less",
    )  # fmt: skip
    swing: float | None = size(
        "Greatest swing of the link, end to end", "deg", 1, 180, default=None,
        help="left empty: 50, or what the gear has now if that is more",
    )  # fmt: skip
    die_in_slot: bool = size("The die stays in its slot", "yes/no", default=True)
    least_gap: float | None = size(
        "Least gap between moving parts", low=0, high=100, default=None,
        help="left empty: not looked at in the search",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Mapped:
    """The two sizes over which the map is drawn."""

    title: ClassVar[str] = "Map over two sizes"
    across: str = size(
        "Across the map", "choice", choices=(TELLING, *choices("mm"), *choices("deg")),
        default=TELLING,
    )  # fmt: skip
    up: str = size(
        "Up the map", "choice", choices=(TELLING, *choices("mm"), *choices("deg")),
        default=TELLING,
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Pivots:
    """The chapter's decisions."""

    lengths: tuple[Length, ...] = size("Lengths that may move", "text", default=(Length(),))
    angles: tuple[Angle, ...] = size("Angles that may move", "text", default=(Angle(),))
    notches: tuple[float, ...] = size(
        "Notches that count", "ratio", -1, 1, default=NOTCHES, main=True,
        help="1 full forward, -1 full backward",
    )  # fmt: skip
    candidates: int = size("Gears to try", "count", 200, 100_000_000, default=10_000, main=True)
    seed: int = size(
        "Number that the search starts from", "count", 0, 1_000_000_000, default=1,
        help="the same number finds the same gear again",
    )  # fmt: skip
    polish: bool = size("Polish the best by small steps", "yes/no", default=True)
    mapped: Mapped = Mapped()
    counting: Counting = Counting()
    holding: Holding = Holding()

    def __post_init__(self) -> None:
        check_sizes(self)
        if not self.notches:
            raise SizeError("Notches that count: at least one is needed, such as 0.5.", "notches")
