"""What the builder decides about frames, boxes, beams and platework.

Every size left empty follows from the other chapters or from usual proportions; the
chapter's suggestions say how.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size
from ..trade.materials import MATERIALS

TANKS = ("none", "side tanks", "saddle tank", "well tank")
PUMPS = ("none", "axle pump")


@dataclass(frozen=True, kw_only=True)
class Plates:
    """The frame plates as they are marked out; spacing and thickness belong to the wheels."""

    title: ClassVar[str] = "Frame plates"
    ahead: float | None = size(
        "Frame plates, ahead of the first axle", low=2, high=2000, default=None, main=True,
        help="left empty: the prototype's overhang at scale",
    )  # fmt: skip
    behind: float | None = size(
        "Frame plates, behind the last axle", low=2, high=2000, default=None, main=True,
        help="left empty: the prototype's length at scale",
    )  # fmt: skip
    top: float | None = size(
        "Frame plates, top edge above the driving axle", low=1, high=400, default=None, main=True,
        help="left empty: 0.38 of the driving wheel",
    )  # fmt: skip
    bottom: float | None = size(
        "Frame plates, bottom edge below the driving axle", low=1, high=400, default=None,
        main=True, help="between the wheels; left empty: a quarter of the driving wheel",
    )  # fmt: skip
    end_depth: float | None = size(
        "Frame plates, depth at the buffer beams", low=2, high=400, default=None,
        help="from the top edge; left empty: half of the depth amid the wheels",
    )  # fmt: skip
    material: str = size("Frame plates, of", "choice", choices=MATERIALS, default="mild steel")

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Horns:
    """Horn gaps and the axleboxes in them; lengths across belong to the wheels."""

    title: ClassVar[str] = "Axleboxes and horns"
    box_length: float | None = size(
        "Axlebox, along the engine", low=1.5, high=250, default=None,
        help="left empty: 1.9 of the journal",
    )  # fmt: skip
    box_height: float | None = size(
        "Axlebox, height", low=1.5, high=250, default=None, help="left empty: 2.1 of the journal"
    )
    clearance: float = size(
        "Axlebox clear in its horns, along", low=0, high=3, default=0.05,
        help="both sides together",
    )  # fmt: skip
    keep: float | None = size(
        "Horn stay under the gap, depth", low=0.5, high=60, default=None,
        help="left empty: 0.3 of the journal",
    )  # fmt: skip
    material: str = size("Axleboxes, of", "choice", choices=MATERIALS, default="gunmetal")

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Stay:
    """One stay between the frames."""

    title: ClassVar[str] = "Frame stay"
    name: str = size("Stay", "text", default="stay", help="what it is called on the drawing")
    ahead: float = size(
        "Stay ahead of the driving axle", low=-3000, high=3000, default=0.0,
        help="its middle; negative behind",
    )  # fmt: skip
    top: float = size("Stay, top above the driving axle", low=-400, high=400, default=0.0)
    depth: float = size("Stay, depth", low=0.5, high=400, default=5.0)
    length: float = size("Stay, along the engine", low=0.5, high=600, default=2.0)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Beams:
    """Buffer beams, buffers and couplings."""

    title: ClassVar[str] = "Buffer beams and couplings"
    thickness: float | None = size(
        "Buffer beam, thickness", low=0.5, high=40, default=None,
        help="left empty: 1.5 of the frame plate",
    )  # fmt: skip
    height: float | None = size(
        "Buffer beam, height", low=2, high=300, default=None,
        help="left empty: a third of the driving wheel",
    )  # fmt: skip
    width: float | None = size(
        "Buffer beam, width", low=10, high=900, default=None,
        help="left empty: nine tenths of the prototype's width at scale, twice the gauge without",
    )  # fmt: skip
    buffer_height: float | None = size(
        "Buffers above the rail", low=3, high=400, default=None,
        help="left empty: the prototype's at scale",
    )  # fmt: skip
    buffers_apart: float | None = size(
        "Buffers apart", low=0, high=700, default=None,
        help="0 is a buffer amid the beam; left empty: 1.2 of the gauge",
    )  # fmt: skip
    buffer_length: float | None = size(
        "Buffer, beam to its face", low=0, high=200, default=None,
        help="left empty: a sixth of the driving wheel",
    )  # fmt: skip
    buffer_head: float | None = size(
        "Buffer head, diameter", low=1, high=150, default=None,
        help="left empty: a quarter of the driving wheel",
    )  # fmt: skip
    coupling_height: float | None = size(
        "Coupling above the rail", low=2, high=400, default=None, help="left empty: as the buffers"
    )

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Platework:
    """Running boards, cab and tanks."""

    title: ClassVar[str] = "Running boards, cab and tanks"
    board_height: float | None = size(
        "Running board above the rail", low=3, high=600, default=None,
        help="its top; left empty: on the frames' top edge",
    )  # fmt: skip
    board_width: float | None = size(
        "Running boards, width over all", low=10, high=1000, default=None,
        help="left empty: as the buffer beams",
    )  # fmt: skip
    sheet: float | None = size(
        "Sheet of boards, cab and tanks, thickness", low=0.2, high=10, default=None,
        help="left empty: 0.02 of the driving wheel, 1 mm at least",
    )  # fmt: skip
    splasher_gap: float | None = size(
        "Wheel to its splasher", low=0.2, high=30, default=None,
        help="over the flange; left empty: 0.08 of the driving wheel",
    )  # fmt: skip
    tanks: str = size("Tanks", "choice", choices=TANKS, default="none")
    tank_length: float | None = size("Tank, length", low=5, high=2000, default=None)
    tank_width: float | None = size(
        "Tank, width", low=2, high=600, default=None, help="of one of a pair"
    )
    tank_height: float | None = size("Tank, height", low=2, high=600, default=None)
    tank_ahead: float | None = size(
        "Tank, its middle ahead of the driving axle", low=-2000, high=2000, default=None
    )
    cab: bool = size("Cab", "yes/no", default=True)
    cab_width: float | None = size(
        "Cab, width", low=10, high=1000, default=None,
        help="left empty: nine tenths of the prototype's width at scale",
    )  # fmt: skip
    material: str = size("Platework, of", "choice", choices=MATERIALS, default="brass")

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Pump:
    """A feed pump between the frames."""

    title: ClassVar[str] = "Feed pump"
    kind: str = size("Feed pump", "choice", choices=PUMPS, default="none")
    ahead: float | None = size(
        "Feed pump, its front ahead of the driving axle", low=-2000, high=2000, default=None,
        help="negative behind; left empty: on the side away from the cylinders",
    )  # fmt: skip
    length: float | None = size(
        "Feed pump, body length", low=2, high=300, default=None,
        help="left empty: three times its ram",
    )  # fmt: skip
    ram: float | None = size(
        "Feed pump, ram diameter", low=0.8, high=40, default=None,
        help="left empty: a quarter of the bore",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Shown:
    """How the three views show the engine; nothing else rests on it."""

    title: ClassVar[str] = "What the views show"
    reverser: float = size(
        "Views: reverser", "ratio", -1, 1, default=1.0, help="+1 full forward, -1 full backward"
    )
    axle_up: float = size(
        "Views: driving axle up, of its rise", "ratio", -1, 1, default=0.0,
        help="its neighbours go the other way; -1 is down on its horn stay",
    )  # fmt: skip
    on_curve: bool = size(
        "Views: wheelsets as on the curve wanted", "yes/no", default=False,
        help="the plan shows each where the smallest curve wanted puts it",
    )  # fmt: skip
    station: float | None = size(
        "Views: section ahead of the driving axle", low=-3000, high=3000, default=None,
        help="a cross-section of your own; negative behind; left empty: none",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Frames:
    """The chapter's decisions."""

    plates: Plates = Plates()
    horns: Horns = Horns()
    stays: tuple[Stay, ...] = ()
    beams: Beams = Beams()
    platework: Platework = Platework()
    pump: Pump = Pump()
    shown: Shown = Shown()
    wheel_metal: str = size("Wheels, of", "choice", choices=MATERIALS, default="cast iron")
    cylinder_metal: str = size("Cylinders, of", "choice", choices=MATERIALS, default="gunmetal")

    def __post_init__(self) -> None:
        check_sizes(self)
        names = [stay.name for stay in self.stays]
        double = next((name for name in names if names.count(name) > 1), None)
        if double is not None:
            raise SizeError(
                f"Frame stay: two are called “{double[:40]}”; a name for each would do.", "stays"
            )
