"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ...findings import Finding, Suggestion
from ...sizes import figure
from ...working import Working


@dataclass(frozen=True)
class Spot:
    """A hole: its centre, mm, the angle at which it stands, degrees, and both dials."""

    x: float
    y: float
    angle: float
    dial: tuple[str, str]


@dataclass(frozen=True)
class Cut:
    """One straight pass of a cutter: it plunges at (x, −reach) and feeds to (x, reach), mm."""

    port: str
    x: float
    reach: float
    cutter: float
    dial: tuple[str, str, str]


@dataclass(frozen=True)
class Passage:
    """One hole of a passage, drilled in a plane along the cylinder.

    Parameters
    ----------
    across : to the side of the cylinder's middle, mm.
    begins : height of the bore's edge where it begins, above the axis, mm.
    tilt : with the bore, degrees.
    length, depth : along its axis to the port's floor, and with the drill's point, mm.
    roll : round the bore to where it begins, degrees.
    dial : cross-slide from the cylinder's middle.
    """

    across: float
    begins: float
    tilt: float
    length: float
    depth: float
    roll: float
    dial: str


@dataclass(frozen=True)
class Station:
    """One increment of a ball: from its end and from the axis, mm, and the dials."""

    z: float
    x: float
    top_dial: str
    cross_dial: str


@dataclass(frozen=True, kw_only=True)
class CircleFigures:
    """Holes on a circle, and holes in a line."""

    holes: int = figure("Holes on the circle", "count")
    circle: float = figure("Circle through their centres")
    hole: float = figure("Hole")
    hole_depth: float = figure("Depth of the holes")
    start: float = figure("First hole, anticlockwise from the right", "deg", main=True)
    hole_chord: float = figure("Chord between neighbouring holes", main=True)
    metal: float | None = figure("Metal left between holes and passages", main=True)
    metal_worst: float | None = figure("The same, were the circle turned the worst way")
    short_depth: float | None = figure("Depth at which the holes too near would clear")
    line_pitch: float = figure("Pitch of the holes in the line")
    short: tuple[int, ...] = ()
    spots: tuple[Spot, ...] = ()
    line: tuple[Spot, ...] = ()


@dataclass(frozen=True, kw_only=True)
class FaceFigures:
    """Ports and chest."""

    port_cutter: float | None = figure("Cutter for the steam ports")
    exhaust_cutter: float | None = figure("Cutter for the exhaust port")
    port_depth: float | None = figure("Ports, depth")
    port_area: float | None = figure("Steam port with the corners left round", "mm2")
    corner_loss: float | None = figure("Port lost in its corners", "%")
    chest_along: float | None = figure("Studs apart along the chest")
    chest_across: float | None = figure("Studs apart across the chest")
    chest_metal: float | None = figure("Metal between studs and passages")
    chest_wall_metal: float | None = figure("Metal of the wall beside a stud")
    cuts: tuple[Cut, ...] = ()
    studs: tuple[Spot, ...] = ()
    chest: tuple[float, float, float, float] | None = None


@dataclass(frozen=True, kw_only=True)
class SlantFigures:
    """Passages at a slant; those of the middle hole."""

    passage_tilt: float | None = figure("Passage tilted to the bore", "deg", main=True)
    passage_length: float | None = figure("Passage, length to the port's floor")
    passage_depth: float | None = figure("Passage, depth with the drill's point")
    face_height: float | None = figure("Port face above the bore's axis")
    passage_begins: float | None = figure("Passage begins from the end face")
    passages: tuple[Passage, ...] = ()


@dataclass(frozen=True, kw_only=True)
class TurningFigures:
    """Tapers, treads and balls."""

    half_angle: float = figure("Taper: top slide set over by", "deg", main=True)
    one_in: float = figure("Taper: 1 in, on the diameter", "ratio")
    set_over: float = figure("Taper: tailstock set over by")
    set_over_usual: float = figure("Taper: the same by the usual rule")
    coning: float = figure("Tread: top slide set over by", "deg", main=True)
    tread_fall: float = figure("Tread: less at its outer edge, on the diameter")
    tread_width: float = figure("Tread, width")
    ball: float = figure("Ball or radius")
    ball_end: float = figure("Ball: from its end to the stem")
    ball_ridge: float = figure("Ball: highest step left to be filed")
    stations: tuple[Station, ...] = ()


@dataclass(frozen=True, kw_only=True)
class PatternsResult(CircleFigures, FaceFigures, SlantFigures, TurningFigures):
    """Figures, workings and findings; see `Patterns` for the decisions.

    Figures of what the engine has not got are None.
    """

    bore: float
    barrel: float
    port_floor: float | None
    taken_from: str = figure("Cylinder, ports and treads are", "text")
    cautions: tuple[str, ...] = ()
    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()
