"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ...findings import Finding, Suggestion
from ...sizes import figure
from ...trade.threads import Thread
from ...working import Working
from ..dials import Dial
from .differential import Geared
from .indexing import AngleSetting, Indexed
from .infeed import Fed, Step
from .speeds import Speed
from .starts import Starts
from .trains import Train, Trains


@dataclass(frozen=True)
class Direct:
    """Dividing from a wheel on the mandrel: its teeth, and how many to count."""

    wheel: int
    step: int


@dataclass(frozen=True)
class GearBlank:
    """A gear wheel of as many teeth as there are divisions; lengths in mm."""

    teeth: int
    module: float
    outside: float
    depth: float
    cutter: int | None


@dataclass(frozen=True, kw_only=True)
class ScrewcuttingResult:
    """Figures, workings and findings; see `Screwcutting` for the decisions."""

    designation: str = figure("Thread taken", "text")
    pitch: float = figure("Pitch wanted")
    threads_an_inch: float = figure("Threads an inch", "ratio")
    lead: float = figure("Lead: the thread goes on in a turn by")
    helix: float = figure("Helix of the thread", "deg")
    train: str = figure("Change wheels, drivers over driven", "text", main=True)
    cut: float | None = figure("Pitch that they cut", main=True)
    error: float | None = figure("Error of the pitch", "%")
    engaged_error: float | None = figure("Error over the length engaged", main=True)
    lost: float | None = figure("Effective diameter that it costs")
    nut_every: int | None = figure("Nut may be closed every … threads of the leadscrew", "count")
    depth: float = figure("Depth of the thread that the tool goes", main=True)
    slide: float = figure("Travel of the slide that feeds, in all")
    set_over: float = figure("Top slide, from the square to the axis", "deg")
    cuts: int = figure("Cuts of the thread, one of them without in-feed", "count")
    divisions: int = figure("Divisions taken", "count")
    handle: str = figure("Dividing head, handle for a division", "text", main=True)
    indexing_error: float = figure("Greatest error of a division", "deg")
    table_error: float = figure("The same on the rotary table, by its dial", "deg")
    revolutions: float | None = figure("Spindle for turning", "rev/min", main=True)
    drill_revolutions: float | None = figure("Spindle for drilling", "rev/min")
    carriage: float | None = figure("Carriage while the thread is cut", "mm/s")
    taken_from: str = figure("Thread and metal are", "text")

    thread: Thread
    material: str
    diameter: float
    trains: Trains
    helpers: tuple[tuple[int, Train], ...]
    fed: Fed
    outside: tuple[Step, ...]
    inside: tuple[Step, ...]
    feed_dial: Dial
    indexed: Indexed
    geared: tuple[Geared, ...]
    starts: Starts
    direct: tuple[Direct, ...]
    angle: AngleSetting
    table_dial: Dial
    table_places: tuple[tuple[int, float, str], ...]
    gear: GearBlank
    speeds: tuple[Speed, ...]
    lathe_speeds: tuple[float, ...]
    wheel_module: float
    stud: float
    stud_turns: float
    left_hand: bool
    cautions: tuple[str, ...] = ()
    workings: tuple[Working, ...] = ()
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()
