"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..frames.whole import Whole
from ..sizes import figure
from ..working import Working
from .sweep import Shape, Way


@dataclass(frozen=True)
class Screws:
    """Hexagons chosen for cover and glands.

    Parameters
    ----------
    number, circle : of a cover's screws, and their pitch circle, mm.
    flats, gland_flats, spindle_flats : across flats of a cover screw, of the piston-rod gland
        and of the valve-spindle gland, mm; 0 where there is none.
    gland_thread, spindle_thread : outside diameters of the glands' threads, mm.
    """

    number: int
    circle: float
    flats: float
    gland_flats: float
    spindle_flats: float
    gland_thread: float = 0.0
    spindle_thread: float = 0.0


@dataclass(frozen=True)
class Removal:
    """How one part comes out.

    Parameters
    ----------
    what, kind : its name, and one of "wheelset", "piston", "valve", "gland", "crosshead", "rod",
        "ashpan", "boiler", "cylinders", "truck".
    way : the one it goes; `others` those that were tried besides.
    first : what has to come off before, by design.
    going : its shapes as they are drawn.
    theta : where the crank of the right stands best for it, degrees from front dead centre.
    """

    what: str
    kind: str
    way: Way
    others: tuple[Way, ...]
    first: tuple[str, ...]
    going: tuple[Shape, ...]
    theta: float = 0.0


@dataclass(frozen=True)
class SpannerRoom:
    """Room for a spanner on one hexagon.

    Parameters
    ----------
    what, against : the hexagon, and what is beside it.
    flats, head : across flats, and the outside of the spanner's head, mm.
    needed, room : mm.
    """

    what: str
    against: str
    flats: float
    head: float
    needed: float
    room: float

    @property
    def fits(self) -> bool:
        """Whether the head goes on and turns."""
        return self.room >= self.needed


@dataclass(frozen=True)
class Reach:
    """How a part is reached for setting the valves, with the boiler in its place.

    Parameters
    ----------
    what : eccentric or spindle.
    above, below, beside : free that way, mm; infinite where nothing is.
    over, under : what is met first there.
    by : "a hand", "a key" or "nothing".
    """

    what: str
    above: float
    below: float
    beside: float
    over: str
    under: str
    by: str


@dataclass(frozen=True)
class Step:
    """One step of erection, with what has to be done before and why it stands here."""

    number: int
    does: str
    after: tuple[int, ...]
    why: str


@dataclass(frozen=True, kw_only=True)
class ErectionResult:
    """Figures, workings and findings; see `Erection` for the decisions."""

    wheelset_drop: float | None = figure("Wheelset has to drop, or the engine to rise", main=True)
    piston_room: float | None = figure("Room ahead of the cylinder to draw the piston", main=True)
    piston_needed: float | None = figure("Needed for piston and rod together", main=True)
    boiler_lift: float | None = figure("Boiler lifts before it is clear", main=True)
    spanner_spare: float | None = figure("Least spare room round a spanner", main=True)
    blocked: int = figure("Parts with something in their way", "count", main=True)
    steps: int = figure("Steps of erection", "count")
    whole: Whole
    removals: tuple[Removal, ...]
    spanners: tuple[SpannerRoom, ...]
    reaches: tuple[Reach, ...]
    order: tuple[Step, ...]
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
