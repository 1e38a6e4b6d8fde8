"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..sizes import figure
from ..working import Working
from .axis import Axis, Step
from .chest import SteamChest
from .haulage import HaulageFigures
from .loads import LoadFigures
from .steaming import SteamFigures


@dataclass(frozen=True, eq=False, kw_only=True)
class AxisFigures:
    """Figures of the stack-up along the axis; the parts themselves are in `axis`."""

    true_stroke: float = figure("True stroke of the piston")
    front_clearance: float = figure("Piston to front cover", main=True)
    back_clearance: float = figure("Piston to back cover", main=True)
    thread_engaged: float = figure("Thread in the crosshead")
    spare_thread: float = figure("Thread left behind the lock nut")
    gland_to_lock_nut: float = figure("Lock nut to gland, front dead centre")
    gland_to_thread: float = figure("End of the thread to gland, front dead centre")
    bar_at_front: float = figure("Slide bar left, front dead centre")
    bar_at_back: float = figure("Slide bar left, back dead centre")
    bar_to_big_end: float = figure("Slide bar to the big end's circle")
    rod_angle: float = figure("Greatest slope of the connecting rod", "deg")
    rod_ratio: float = figure("Connecting rod over crank throw", "ratio")
    axis: Axis
    front_stack: tuple[Step, ...]
    back_stack: tuple[Step, ...]


@dataclass(frozen=True, eq=False, kw_only=True)
class CylindersResult(LoadFigures, AxisFigures, SteamFigures, HaulageFigures):
    """Figures of the cylinders, with their workings, suggestions and findings.

    Figures that hang on the speed of the engine are None while that is not known.
    """

    chest: SteamChest | None = None
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...] = ()
    findings: tuple[Finding, ...] = ()
