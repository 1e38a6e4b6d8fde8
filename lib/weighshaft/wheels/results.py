"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from ..findings import Finding, Suggestion
from ..fits import Fit
from ..sizes import figure
from ..working import Working

Kind = Literal[
    "wheel", "boss", "rod", "pin", "crosshead", "cylinder", "frame", "axlebox", "sheave", "web",
    "big end", "collar", "play", "gap", "axle",
]  # fmt: skip


@dataclass(frozen=True)
class Part:
    """A part across the engine, mm: from `start` to `end` outwards from the centre line.

    In the stack-up along the axle `start` counts from the back of the left wheel; a part
    that does not fit has its end before its start.
    """

    name: str
    start: float
    end: float
    kind: Kind

    @property
    def width(self) -> float:
        """Width in mm; negative where the part does not fit."""
        return self.end - self.start


@dataclass(frozen=True)
class Line:
    """One line of the standard against ours, mm; `standard` as printed, with its qualifier."""

    word: str
    ours: float
    standard: float | None
    qualifier: str
    low: float | None
    high: float | None
    fits: bool
    sources: str


@dataclass(frozen=True)
class CurveAxle:
    """A wheelset on the curve, mm in the frame's axes: `shift` is its slide in the frames."""

    ahead: float
    shift: float
    coupled: bool


@dataclass(frozen=True)
class CurveLayout:
    """The engine on a curve; the frames lie along x, x = 0 at the driven axle, y to the left.

    Parameters
    ----------
    radius, gauge : of the track, mm, the gauge with its widening.
    centre : of the curve, mm.
    axles : the wheelsets, from the front.
    passes : whether every wheelset finds its place.
    """

    radius: float
    gauge: float
    centre: tuple[float, float]
    axles: tuple[CurveAxle, ...]
    passes: bool


@dataclass(frozen=True, kw_only=True)
class WheelsResult:
    """Figures, workings, findings and what the pictures need; see `Wheels` for the decisions."""

    # the track
    back_to_back: float = figure("Back to back")
    over_flanges: float = figure("Over the flange faces")
    check_gauge: float = figure("Back to back and one flange")
    flange_play: float = figure("The wheels leave of the gauge", main=True)
    tyre_width: float = figure("Tyre, width")
    flange_thickness: float = figure("Flange, thickness")
    flange_depth: float = figure("Flange, depth")
    lines: tuple[Line, ...]
    # across the engine
    wheel_face: float = figure("Engine centre to the face of the tyre")
    rod_outside: float = figure("Engine centre to the outside of the coupling rod")
    pin_outside: float = figure("Engine centre to the end of a coupled crankpin")
    pin_clearance: float | None = figure("Crankpin clear of the crosshead", main=True)
    pin_clearance_wanted: float = figure("Clearance wanted there")
    rod_washer: float | None = figure("Distance washer between the rods")
    width: float = figure("Greatest width over cylinders and pins", main=True)
    width_limit: float | None = figure("Width that the line allows")
    across: tuple[Part, ...]
    # between the wheels
    washers: tuple[float, ...] = figure("Washer behind each wheel, by axle")
    collar: float | None = figure("Distance collar that closes the row", main=True)
    side_collar: float | None = figure("Collar between crank web and axlebox")
    clearance_left: float | None = figure("Clearance left beside what turns, each end")
    big_end_float: float | None = figure("End float of the inside big ends")
    least_sheave: float | None = figure("Least sheave")
    sheave: float | None = figure("Sheave taken")
    bore_wall: float | None = figure("Left outside the bores of inside cylinders")
    stack: tuple[Part, ...]
    # the curve
    smallest_radius: float = figure("Smallest curve", main=True)
    radius_rule: str = figure("What sets it", "text")
    attack_angle: float = figure("End wheels askew to the rail on it", "deg")
    total_wheelbase: float = figure("Total wheelbase")
    leading_swing: float | None = figure("Leading truck swings, each way, on the curve drawn")
    trailing_swing: float | None = figure("Trailing truck swings, each way, on the curve drawn")
    curve: CurveLayout
    # loads
    journal_pressure: float = figure("Journal pressure", "N/mm2")
    driving_pin_pressure: float = figure("Driving crankpin pressure", "N/mm2")
    coupled_pin_pressure: float = figure("Coupled crankpin pressure", "N/mm2")
    bending: float = figure("Bending stress in the axle", "N/mm2")
    twist: float = figure("Twisting stress in the axle", "N/mm2")
    axle_stress: float = figure("Bending and twist together", "N/mm2")
    seat_torque: float = figure("Torque that the wheel seat must carry", "N mm")
    grip_torque: float = figure("Torque at which one side's wheels slip", "N mm")
    seat_carries: float = figure("Torque that the wheel seat carries", "N mm")
    seat_ratio: float = figure("Wheel seat, carries over must carry", "ratio", main=True)
    seat_fit: Fit
    # quartering
    bush_needed: float = figure("Clearance that the rod bushes need")
    # what the pictures place
    positions: tuple[float, ...]
    crank_throw: float
    connecting_rod: float | None
    crosshead: tuple[float, float]
    cylinder_back: float | None
    bore: float
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
