"""What the builder decides about threads to be cut, dividing and speeds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ...sizes import check_sizes, size
from ...threads.decisions import check_threads
from ...trade.cutting import TOOLS
from ...trade.materials import MATERIALS

OUTSIDE, INSIDE = "outside, on a bar", "inside, in a bore"
STRAIGHT, SET_OVER = "straight in with the cross-slide", "with the top slide set over"
FORMED, SHARP = "ground to the form", "ground sharp"
AS_ON_BENCH = "as tapped on the bench"


@dataclass(frozen=True, kw_only=True)
class ChangeWheels:
    """The train between spindle and leadscrew."""

    title: ClassVar[str] = "Change wheels"
    pairs: int = size("Pairs of change wheels in a train, at most", "count", 1, 3, default=2)
    starts: int = size(
        "Starts of the thread", "count", 1, 12, default=1,
        help="with several the wheels are set for the lead: starts times pitch",
    )  # fmt: skip
    left_hand: bool = size("Thread to be cut is left-hand", "yes/no", default=False)
    engagement: float | None = size(
        "Length over which the pitch has to hold", low=0.5, high=500, default=None,
        help="the length engaged in the nut; left empty: one diameter of the thread",
    )  # fmt: skip
    lost: float = size(
        "Effective diameter that the pitch error may cost", low=0.0005, high=1, default=0.03
    )
    listed: int = size("Trains listed", "count", 1, 40, default=8)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class InFeed:
    """How the thread is brought to depth."""

    title: ClassVar[str] = "In-feed"
    where: str = size("Thread to be cut is", "choice", choices=(OUTSIDE, INSIDE), default=OUTSIDE)
    fed: str = size(
        "Threading tool is fed", "choice", choices=(STRAIGHT, SET_OVER), default=SET_OVER
    )
    point: str = size(
        "Point of the threading tool", "choice", choices=(FORMED, SHARP), default=FORMED,
        help="ground sharp it has to go deeper for the same flanks",
    )  # fmt: skip
    short: float = size(
        "Top slide set over short of the half angle by", "deg", 0, 5, default=0.5,
        help="so that the trailing edge shaves its flank clean",
    )  # fmt: skip
    first_cut: float = size("First cut of the thread, depth", low=0.01, high=1, default=0.1)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Dividing:
    """Dividing besides the number of divisions."""

    title: ClassVar[str] = "Angles and gear wheels"
    angle: float | None = size(
        "Angle to be turned through", "deg", 0.01, 360, default=None,
        help="left empty: one division",
    )  # fmt: skip
    module: float | None = size(
        "Gear wheel to be cut, module", low=0.2, high=5, default=None,
        help="left empty: that of the change wheels",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Screwcutting:
    """The chapter's decisions."""

    thread: str | None = size(
        "Thread to be cut on the lathe", "text", default=None, main=True,
        help="such as 1/4 × 40, 2BA, M6; left empty: the thread on the bench, in Threads",
    )  # fmt: skip
    pitch: float | None = size(
        "Pitch to be cut, if not the thread's", low=0.1, high=25, default=None, main=True,
        help="for a worm, a screw or a feed; left empty: the thread's",
    )  # fmt: skip
    divisions: int | None = size(
        "Divisions to be cut", "count", 2, 400, default=None, main=True,
        help="left empty: the screws of a cylinder cover",
    )  # fmt: skip
    material: str = size(
        "Metal that is cut", "choice", choices=(AS_ON_BENCH, *MATERIALS), default=AS_ON_BENCH,
        main=True,
    )  # fmt: skip
    tool: str = size("Turning tool", "choice", choices=TOOLS, default=TOOLS[0])
    diameter: float | None = size(
        "Diameter of work or drill, for the speeds", low=0.2, high=400, default=None, main=True,
        help="left empty: the thread's",
    )  # fmt: skip
    wheels: ChangeWheels = ChangeWheels()
    infeed: InFeed = InFeed()
    dividing: Dividing = Dividing()

    def __post_init__(self) -> None:
        check_sizes(self)
        check_threads(self)
