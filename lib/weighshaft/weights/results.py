"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..frames import Whole
from ..sizes import figure
from ..working import Working
from .ballast import Advice
from .bearing import Support
from .masses import Mass, State


@dataclass(frozen=True)
class Used:
    """The engine when so much of its water and fuel is used up.

    Parameters
    ----------
    used : of both, kg.
    tanks : whether the tanks still hold water.
    loads : on every axle from the front, kg.
    """

    used: float
    tanks: bool
    loads: tuple[float, ...]


@dataclass(frozen=True, kw_only=True)
class WeightsResult:
    """Figures, workings and findings; see `Weights` for the decisions.

    Parameters
    ----------
    masses : all that weighs, in working order.
    supports : what bears as one, from the front.
    states : bare, in working order, and with tanks empty and the boiler low.
    axle_loads : on every axle of the engine from the front, in working order, kg.
    sprung_loads : of these, what comes through springs and beams.
    bare_loads, low_loads, pulling_loads : as `axle_loads`, bare, run down and pulling.
    lifted : indices of axles from which the springs have lifted the weight wholly.
    tips, rocks : whether the engine tips off its supports, or nothing holds it level.
    run : as water and fuel are used up.
    levelling, sharing : ballast that levels the coupled axles, and that brings the share wanted.
    coupling_height : over the rail, mm.
    """

    working: float = figure("Weight in working order", "kg", main=True)
    bare: float = figure("Weight bare", "kg", main=True)
    coupled: float = figure("Weight on the coupled wheels, reckoned", "kg", main=True)
    factor: float = figure("Factor of adhesion on the reckoned weight", "ratio", main=True)
    centre_ahead: float = figure("Centre of gravity ahead of the driving axle", main=True)
    centre_height: float = figure("Centre of gravity above the rail", main=True)
    bare_ahead: float = figure("Centre of gravity bare, ahead of the driving axle")
    bare_height: float = figure("Centre of gravity bare, above the rail")
    off_centre: float = figure("Centre of gravity out to the right of the centre line")
    right: float = figure("Weight on the right-hand wheels", "kg")
    left: float = figure("Weight on the left-hand wheels", "kg")
    unsprung: float = figure("Weight not on springs", "kg")
    tilt: float = figure("Tilts over, standing, at", "deg")
    overhang_front: float = figure("Front beam ahead of the first axle")
    overhang_back: float = figure("Back beam behind the last axle")
    pull: float = figure("Pull at the coupling", "N")
    coupled_pulling: float = figure("Weight on the coupled wheels, pulling", "kg")
    coupled_low: float = figure("Weight on the coupled wheels, water used up", "kg")
    coupling_height: float
    axle_loads: tuple[float, ...]
    sprung_loads: tuple[float, ...]
    bare_loads: tuple[float, ...]
    low_loads: tuple[float, ...]
    pulling_loads: tuple[float, ...]
    lifted: tuple[int, ...]
    tips: bool
    rocks: bool
    masses: tuple[Mass, ...]
    supports: tuple[Support, ...]
    states: tuple[State, State, State]
    run: tuple[Used, ...]
    levelling: Advice | None
    sharing: Advice | None
    whole: Whole
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
