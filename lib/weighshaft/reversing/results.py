"""What the chapter yields."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..motion.frame import Array
from ..sizes import figure
from ..working import Working
from .layout import Layout
from .shaft import Shaft


@dataclass(frozen=True, kw_only=True)
class Notch:
    """One notch: what the valve does there, and where it stands on the metal.

    Parameters
    ----------
    name : as on the drawing, "full", "40 %" or "mid".
    direction : +1 forward, -1 backward, 0 mid gear.
    wanted : mean cut-off wanted, %; None for full and mid gear.
    reverser : None where that cut-off is not reached.
    missed : why it is not reached, else empty.
    """

    name: str
    direction: int
    wanted: float | None
    missed: str = ""
    reverser: float | None = figure("Reverser", "ratio")
    front: float | None = figure("Cut-off, front end", "%")
    back: float | None = figure("Cut-off, back end", "%")
    arm_angle: float | None = figure("Lifting arm", "deg")
    lean: float | None = figure("Lever or horn leans ahead", "deg")
    arc: float | None = figure("Along the quadrant from mid gear")
    chord: float | None = figure("Dividers from the mid-gear notch")
    nut: float | None = figure("Nut ahead of mid gear")
    turns: float | None = figure("Turns of the screw from mid gear", "count")
    torque: float | None = figure("Torque that holds the shaft", "N mm")

    @property
    def mean(self) -> float | None:
        """Mean cut-off of both ends, %."""
        if self.front is None or self.back is None:
            return None
        return (self.front + self.back) / 2


@dataclass(frozen=True, kw_only=True)
class OnSide:
    """A crank, eccentric or return-crank pin of one side, the mark crank on front dead centre.

    Parameters
    ----------
    side : "right", "left" or "middle".
    """

    side: str
    part: str
    radius: float = figure("From the axle's centre")
    leads: float = figure("Leads its own crank", "deg")
    at: float = figure("From the front, in the sense of forward running", "deg")


@dataclass(frozen=True)
class HandedPart:
    """A part, whether right and left are mirror images, and why."""

    part: str
    handed: bool
    why: str


@dataclass(frozen=True, kw_only=True)
class SpringWork:
    """A balance spring, as decided or as suggested."""

    arm: float = figure("Arm on the weighshaft")
    force: float = figure("Force in mid gear", "N")
    rate: float = figure("Rate", "N/mm")
    wire: float = figure("Wire, diameter")
    coil: float = figure("Coil, mean diameter")
    turns: float = figure("Working turns", "count")
    free_length: float = figure("Body, close-coiled and slack")
    stretch: float = figure("Stretch in mid gear")
    stress: float = figure("Greatest shear stress in the wire", "N/mm2")
    allowed: float = figure("Shear stress allowed", "N/mm2")
    left_over: float = figure("Torque of the weight left over, at the worst notch", "N mm")


@dataclass(frozen=True, kw_only=True)
class ReversingResult:
    """Reverser and both sides, worked.

    Parameters
    ----------
    shaft : what the reverser turns; None where there is nothing to turn.
    layout : sizes of the linkage with every empty one filled in.
    arm_pin, stand_pin : (notches reached, 2) pins of the reach rod, mm.
    curve : (n, 3) reverser, place of the lever, mean cut-off; NaN where there is none.
    """

    notches_cut: int = figure("Notches to cut", "count", main=True)
    throw: float | None = figure("Lever or horn swings in all", "deg", main=True)
    handle_travel: float | None = figure("Grip travels in all")
    quadrant_span: float | None = figure("Quadrant, between the end notches")
    least_pitch: float | None = figure("Least distance of two notches", main=True)
    turns: float | None = figure("Screw turns in all", "count", main=True)
    nut_travel: float | None = figure("Nut travels in all")
    reach_rod: float | None = figure("Reach rod, between centres", main=True)
    pin_travel: float | None = figure("Reach rod's pin at the arm travels in all")
    least_margin: float | None = figure("Least sine of an angle at the reach rod", "ratio")
    hung: float | None = figure("Hangs on the lifting arms", "g")
    weight_torque: float | None = figure("Weight turns the shaft, in mid gear", "N mm")
    holding_torque: float | None = figure("Greatest torque that holds the shaft", "N mm", main=True)
    rod_force: float | None = figure("Greatest force in the reach rod", "N")
    stand_torque: float | None = figure("Greatest torque on lever, horn or screw", "N mm")
    servo_needed: float | None = figure("Greatest torque on the servo", "kg cm")
    grip_force: float | None = figure("Greatest force at the grip", "N")
    return_crank_length: float | None = figure("Return crank, between its pins' centres")
    shaft: Shaft | None
    layout: Layout | None
    notches: tuple[Notch, ...]
    arm_pin: Array
    stand_pin: Array
    curve: Array
    sides: tuple[OnSide, ...]
    handed: tuple[HandedPart, ...]
    spring: SpringWork | None
    spring_fitted: bool
    forward_full: float | None
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
