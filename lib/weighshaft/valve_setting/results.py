"""What the chapter yields."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..motion import Crank, SlideValve
from ..motion.frame import Array
from ..motion.many_events import ManyEvents
from ..sizes import figure
from ..working import Working
from .advise import Advice
from .mend import Mending

DESIGNED, FOUND, MENDED = range(3)
"""The three engines that are compared: as designed, as found, and after mending."""


@dataclass(frozen=True, kw_only=True)
class FaultFound:
    """One size as it was found to be; figures in `unit`.

    Parameters
    ----------
    sort : what kind of fault; "together" for what several amount to.
    determined : whether the readings tell it to within half of what it may be out by.
    says : "3.4° late", "right" within the doubt, or "not determined".
    """

    name: str
    sort: str
    unit: str
    determined: bool
    says: str
    value: float = figure("Out by")
    within: float = figure("Good to within")
    possible: float = figure("May well be out by")

    @property
    def is_out(self) -> bool:
        """Whether it is known to be out at all."""
        return self.determined and abs(self.value) > self.within


@dataclass(frozen=True, kw_only=True)
class Taken:
    """One reading, where it falls and how it goes with the others.

    Parameters
    ----------
    number : as the builder counts them, from 1.
    used : whether the fit rests on it; where not, `why`.
    """

    number: int
    what: str
    reverser: float
    end: str
    used: bool
    why: str
    theta: float = figure("Crank angle", "deg")
    place: float = figure("Valve ahead of its middle")
    departs: float = figure("Departs from the others, in parts of its doubt", "ratio")


@dataclass(frozen=True, kw_only=True)
class SideSet:
    """What was found on one side of the engine.

    Parameters
    ----------
    rows : notches of `events` and `curves`; the first ones full forward, mid, full backward.
    events : of the engine as designed, as found and after mending.
    curves : (3, rows, angles) valve ahead of its middle, mm, over `theta`.
    """

    side: str
    readings: tuple[Taken, ...]
    faults: tuple[FaultFound, ...]
    mendings: tuple[Mending, ...]
    advice: tuple[Advice, ...]
    rows: tuple[float, ...]
    events: ManyEvents
    theta: Array
    curves: Array
    scatter: float = figure("Readings scatter, of what their doubt lets expect", "ratio")
    spared: float | None = figure("Movement of the valve that is too little to be made")
    departure_found: float = figure("Valve departs from its place, as found")
    departure_mended: float = figure("Valve departs from its place, after mending")


@dataclass(frozen=True, kw_only=True)
class ValveSettingResult:
    """What the readings tell, and what to do about it.

    Parameters
    ----------
    shown : the cylinder looked at; None for an engine whose valves cannot be set.
    sides : every cylinder that was measured, and the one looked at.
    """

    readings_used: int = figure("Readings that go together", "count", main=True)
    determined: int = figure("Sizes and settings that they determine", "count", main=True)
    move_valve: float | None = figure("Valve to be moved, ahead positive", main=True)
    departure_found: float | None = figure("Valve departs from its place, as found", main=True)
    departure_mended: float | None = figure("Valve departs, after mending", main=True)
    uneven_found: float | None = figure("Cut-offs differ, full forward, as found", "%")
    uneven_mended: float | None = figure("Cut-offs differ, full forward, after mending", "%")
    shown: SideSet | None
    sides: tuple[SideSet, ...]
    cautions: tuple[str, ...]
    crank: Crank
    valve: SlideValve
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
