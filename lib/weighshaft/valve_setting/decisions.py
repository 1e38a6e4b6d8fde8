"""What the builder measures with air on the stand, and what he can move to mend the valves."""

from __future__ import annotations

from dataclasses import dataclass
from typing import ClassVar

from ..sizes import SizeError, check_sizes, size

SIDES = ("right", "left")
FORWARD, MIDDLE, BACKWARD, OTHER = "full forward", "mid gear", "full backward", "another notch"
ADMISSION, CUTOFF, RELEASE, COMPRESSION = (
    "air first heard", "air stops", "exhaust opens", "exhaust shuts",
)  # fmt: skip
LEAD, WIDEST = "opening at dead centre", "greatest opening"
EVENTS = (ADMISSION, CUTOFF, RELEASE, COMPRESSION)
BY_ANGLE, BY_PERCENT, BY_PISTON, BY_GAUGE = (
    "crank angle", "piston, % of stroke", "piston, distance", "crosshead, distance",
)  # fmt: skip


@dataclass(frozen=True, kw_only=True)
class Reading:
    """One thing measured; a reading without its figure is not yet taken."""

    title: ClassVar[str] = "Reading"
    afresh: ClassVar[tuple[str, ...]] = ("number", "length", "within")
    """What another reading does not take over from the one before it."""
    side: str = size("Cylinder", "choice", choices=SIDES, default="right")
    gear: str = size(
        "Gear stands in", "choice", choices=(FORWARD, MIDDLE, BACKWARD, OTHER), default=FORWARD
    )
    notch: float | None = size(
        "Notch", "ratio", -1, 1, default=None,
        help="for another notch only: 1 full forward, 0 mid, -1 full backward",
    )  # fmt: skip
    end: str = size("End of the cylinder", "choice", choices=("front", "back"), default="front")
    what: str = size("What was found", "choice", choices=(*EVENTS, LEAD, WIDEST), default=ADMISSION)
    measured: str = size(
        "Measured by", "choice", choices=(BY_ANGLE, BY_PERCENT, BY_PISTON, BY_GAUGE),
        default=BY_ANGLE,
        help="piston from the end named, crosshead from its front dead centre; an opening is a "
        "length in any case",
    )  # fmt: skip
    number: float | None = size(
        "Degrees or per cent", "ratio", -360, 360, default=None,
        help="degrees from front dead centre in the sense of forward running",
    )  # fmt: skip
    length: float | None = size(
        "Length", low=-100, high=2000, default=None,
        help="of piston or crosshead, or of the opening, negative while the port is covered",
    )  # fmt: skip
    within: float | None = size(
        "Good to within", "ratio", 0.001, 90, default=None,
        help="degrees, per cent or mm, as the reading; left empty: as the instrument",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)
        if self.number is not None and self.length is not None:
            raise SizeError(
                f"Reading: {self.number:g} and {self.length:g} mm are two figures for one thing; "
                "empty the other box first.",
                "number",
            )

    @property
    def reverser(self) -> float | None:
        """Where the reverser stands, None where another notch is not said."""
        return {FORWARD: 1.0, MIDDLE: 0.0, BACKWARD: -1.0}.get(self.gear, self.notch)

    @property
    def told(self) -> str:
        """The reading in a few words, as a builder notes it down."""
        gear = f"notch {self.notch:+.2f}" if self.gear == OTHER and self.notch else self.gear
        where = f"{self.side} {self.end}, {gear}, {self.what}"
        if self.figure is None:
            return f"{where}, not taken yet"
        if not self.is_event or self.measured in (BY_PISTON, BY_GAUGE):
            return f"{where} {self.figure:g} mm"
        return f"{where} {self.figure:g}{'°' if self.measured == BY_ANGLE else ' %'}"

    @property
    def is_event(self) -> bool:
        """Whether a moment of the turn is measured, not an opening."""
        return self.what in EVENTS

    @property
    def figure(self) -> float | None:
        """The figure read, in the unit that belongs to it."""
        in_numbers = self.is_event and self.measured in (BY_ANGLE, BY_PERCENT)
        return self.number if in_numbers else self.length


@dataclass(frozen=True, kw_only=True)
class Instruments:
    """How good a reading is whose accuracy is not given; the truth lies anywhere within."""

    title: ClassVar[str] = "How well it can be read"
    angle: float = size("Crank angles good to within", "deg", 0.01, 10, default=0.5)
    length: float = size("Piston and crosshead good to within", low=0.005, high=5, default=0.1)
    feeler: float = size("Openings good to within", low=0.001, high=2, default=0.03)
    widest: float = size("Greatest openings good to within", low=0.001, high=2, default=0.08)
    dead_centre: float = size(
        "Dead centres found to within", "deg", 0.01, 5, default=0.3,
        help="the error of the disc's zero, shared by all crank angles",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Believed:
    """How far out the work may be; left empty: from the sizes of the gear."""

    title: ClassVar[str] = "How far out the work may be"
    valve: float | None = size("Valve on its spindle", low=0.01, high=50, default=None)
    angle: float | None = size("Eccentric or return crank", "deg", 0.1, 20, default=None)
    throw: float | None = size("Throw", low=0.005, high=20, default=None)
    rod: float | None = size("Rods between centres", low=0.005, high=20, default=None)
    lap: float | None = size("Laps", low=0.005, high=10, default=None)

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class Mends:
    """What can be moved on the engine, and in which steps."""

    title: ClassVar[str] = "What can be moved"
    held: str = size(
        "Valve held on its spindle", "choice",
        choices=("by nuts, any part of a turn", "half turns only", "whole turns only", "clamped"),
        default="by nuts, any part of a turn",
    )  # fmt: skip
    threads_per_inch: float = size("Spindle's thread, turns an inch", "count", 8, 120, default=40.0)
    pitch: float | None = size(
        "Spindle's thread, pitch", low=0.1, high=3, default=None, help="for a metric thread"
    )
    eccentrics: str = size(
        "Eccentrics, stops or return crank", "choice", choices=("can be turned", "fixed"),
        default="can be turned",
    )  # fmt: skip
    rods: str = size(
        "Length of the eccentric rods", "choice", choices=("can be altered", "fixed"),
        default="can be altered",
    )  # fmt: skip
    guide: str = size(
        "Guide of Joy's or Hackworth's gear", "choice", choices=("can be moved", "fixed"),
        default="can be moved", help="turned by its reach rod, its bracket up or down",
    )  # fmt: skip
    reach_arm: float | None = size(
        "Guide's arm, shaft to reach rod", low=1, high=1000, default=None,
        help="for a guide that tilts; left empty: not known, and the turn is told in degrees",
    )  # fmt: skip

    def __post_init__(self) -> None:
        check_sizes(self)


@dataclass(frozen=True, kw_only=True)
class AirTest:
    """The chapter's decisions: the readings, and with what they were taken."""

    readings: tuple[Reading, ...] = ()
    side: str = size("Cylinder looked at", "choice", choices=SIDES, default="right", main=True)
    air_pressure: float = size("Air on the engine", "bar", 0.05, 20, default=0.7, main=True)
    instruments: Instruments = Instruments()
    believed: Believed = Believed()
    mends: Mends = Mends()

    def __post_init__(self) -> None:
        check_sizes(self)
