"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ...findings import Finding, Suggestion
from ...sizes import figure
from ...working import Working
from ..dials import Dial


@dataclass(frozen=True)
class Place:
    """One place of the cutter.

    Parameters
    ----------
    x, y : of the cutter's centre from the chosen datum, mm.
    along : from the middle of the arc along the chord, mm, positive to the right.
    x_dial, y_dial : what the two handwheels show.
    heed : what is to be done first there; empty as a rule.
    """

    x: float
    y: float
    along: float
    x_dial: str
    y_dial: str
    heed: str = ""


@dataclass(frozen=True)
class CutterPath:
    """The way of the cutter's centre along one flank, or along the middle.

    Parameters
    ----------
    name : "centre line", "outer flank" or "inner flank".
    radius : of the way, mm.
    half_angle : to its ends, degrees from the middle of the arc.
    places : in the order in which they are cut.
    way : which way the cutter goes, in words.
    overcut : how far a corner of the way stands off the arc where the cutter goes along and
        then across, still in the work, mm.
    table_dial, table_angle : set-over of the rotary table and its handwheel from end to end.
    """

    name: str
    radius: float
    half_angle: float
    places: tuple[Place, ...]
    way: str
    overcut: float
    table_dial: str
    table_angle: str


@dataclass(frozen=True)
class Hole:
    """A hole to be drilled: centre from the datum, mm, angle from the arc's middle, degrees."""

    x: float
    y: float
    angle: float
    diameter: float
    dial: tuple[str, str]
    table: str


@dataclass(frozen=True, kw_only=True)
class SlotsResult:
    """Figures, workings and findings; see `Slots` for the decisions."""

    radius: float = figure("Radius of the slot", main=True)
    width: float = figure("Slot's width")
    arc: float = figure("End holes apart along the arc")
    die_pin: float = figure("Die's pin, diameter")
    over_all: float = figure("Slot over its round ends, along the arc")
    chord: float = figure("Chord between the end holes", main=True)
    sagitta: float = figure("Sagitta", main=True)
    angle: float = figure("Angle from end hole to end hole", "deg", main=True)
    cutter: float = figure("Slot drill")
    number: int = figure("Places of the cutter on a pass", "count")
    longest: float = figure("Longest step along the arc")
    outer_cusp: float = figure("Ridge left on the outer flank", main=True)
    inner_cusp: float = figure("Ridge left on the inner flank", main=True)
    step_allowed: float = figure("Longest step for the ridge allowed")
    overcut: float = figure("Cut into a flank, were the cutter left in between places")
    drill: float = figure("Waste: drill")
    drill_name: str = figure("Waste: the drill's name", "text")
    drills: int = figure("Waste: holes, the end holes among them", "count")
    drill_pitch: float = figure("Waste: pitch along the arc")
    drill_chord: float = figure("Waste: pitch between centres, for the dividers")
    ridge: float | None = figure("Waste: ridge left between holes on a flank")
    taken_from: str = figure("Radius and length are", "text")
    datum: str
    y_way: str
    middle: tuple[float, float]
    paths: tuple[CutterPath, ...]
    end_holes: tuple[Hole, ...]
    roughing: tuple[Hole, ...]
    dial: Dial
    rotary: Dial
    wall: float
    cautions: tuple[str, ...] = ()
    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()
