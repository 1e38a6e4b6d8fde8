"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..sizes import figure
from ..working import Working
from .coil import CoilSpring
from .leaf import LeafSpring

AnySpring = CoilSpring | LeafSpring


@dataclass(frozen=True, kw_only=True)
class Bed:
    """The driving axlebox in its horn gap, mm from the driving axle and the centre line.

    Parameters
    ----------
    ahead : of the axle.
    box_length, box_height, box_inner, box_outer : of the box, along, up and across.
    journal : diameter.
    clearance : of the box along, both sides together.
    stay_top, stay_bottom, plate_top, plate_inner, plate_outer : of stay and frame plate.
    rise : of the box from its running height.
    rail : height of the rail's top.
    wheel, tread, back, tyre : diameter; middle of its tread, its back, out from the centre
        line; width of the tyre.
    """

    ahead: float
    box_length: float
    box_height: float
    box_inner: float
    box_outer: float
    journal: float
    clearance: float
    stay_top: float
    stay_bottom: float
    plate_top: float
    plate_inner: float
    plate_outer: float
    rise: float
    rail: float
    wheel: float
    tread: float
    back: float
    tyre: float

    @property
    def middle(self) -> float:
        """Middle of the box, out from the engine's centre line."""
        return (self.box_inner + self.box_outer) / 2

    @property
    def gap(self) -> float:
        """Between the box at its running height and the stay under it."""
        return -self.box_height / 2 - self.stay_top


@dataclass(frozen=True, kw_only=True)
class AxleSpring:
    """The springs of one axle.

    Parameters
    ----------
    name, kind, ahead : of the axle, mm ahead of the driving one.
    spring, number : and how many stand to one box.
    bound_at : the force at which a coil is closed, N, None of a leaf.
    """

    name: str
    kind: str
    ahead: float
    spring: AnySpring
    number: int
    bound_at: float | None
    load: float = figure("Load on the axle", "kg")
    unsprung: float = figure("Of it not on springs", "kg")
    force: float = figure("Load on one spring", "N")
    deflection: float = figure("Gives under the engine by")
    packing: float = figure("Packed further than the least loaded of its kind")
    stress: float = figure("Stress at rest", "N/mm2")
    stress_up: float = figure("Stress with the box at its top", "N/mm2")
    allowed: float = figure("Stress allowed", "N/mm2")
    stress_bound: float | None = figure("Stress when coil-bound", "N/mm2")
    margin: float | None = figure("Left before coil-bound, the box at its top")
    fall: float = figure("Falls below its running height by")
    moved: float = figure("Boxes move on the twisted track, each way")
    left: float | None = figure("Load left on its lighter wheel on the twisted track", "%")
    dip: float | None = figure("One of its wheels may dip by")

    @property
    def length(self) -> float:
        """Of a coil at the running height, mm; height of the arc of a leaf."""
        if isinstance(self.spring, CoilSpring):
            return self.spring.free - self.deflection
        return self.spring.camber - self.deflection


@dataclass(frozen=True, kw_only=True)
class SpringingResult:
    """Figures, workings and findings; see `Springing` for the decisions.

    Parameters
    ----------
    axles : every axle from the front.
    main : place of the driving axle among them.
    bed : the driving axlebox in its gap.
    twist : of the track, one in so many.
    """

    deflection: float = figure("Driving springs give under the engine by", main=True)
    rate: float = figure("Rate of one driving spring", "N/mm", main=True)
    stressed: float = figure("Greatest stress of an axle spring, of that allowed", "%", main=True)
    margin: float | None = figure("Least left before coil-bound, the box at its top", main=True)
    left: float | None = figure("Least load left on a wheel on the twisted track", "%", main=True)
    dip: float | None = figure("A wheel may dip before it leaves the rail", main=True)
    free_length: float | None = figure("Driving spring, free length taken")
    loaded_length: float | None = figure("Driving spring, length at the running height")
    solid_length: float | None = figure("Driving spring, closed")
    index: float | None = figure("Driving spring, coil over wire", "ratio")
    preload: float | None = figure("Pull that draws the leaves together", "N")
    stop: float = figure("Stop on the horn stay, height taken")
    fall: float = figure("Boxes fall below their running height by")
    packing: float = figure("Packing between the lightest and the heaviest coupled axle")
    bounces: float = figure("Bounces of the engine in a minute", "count")
    pitches: float | None = figure("Pitches of the engine in a minute", "count")
    surges: float | None = figure("Surges of a driving spring in a minute", "count")
    in_step: float = figure("Wheels turn as often as it bounces at", "km/h")
    tilt: float = figure("Axle tilts, one box up and the other down", "deg")
    relief: float = figure("Box flanges to be eased at top and bottom by")
    bell: float = figure("Or the box's bore to be bell-mouthed at each end by")
    askew: float = figure("Axle stands askew in its horns' clearance by", "deg")
    axles: tuple[AxleSpring, ...]
    main: int
    bed: Bed
    twist: float
    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()
