"""What the chapter finds."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..sizes import figure
from ..working import Working
from .beside import Beside
from .cones import Layout
from .rules import Rule


@dataclass(frozen=True, kw_only=True)
class NozzleResult:
    """Nozzle and chimney."""

    steam_flow: float = figure("Steam through the nozzle, running", "g/s", main=True)
    back_pressure: float | None = figure("Back pressure, running", "bar", main=True)
    back_pressure_full: float | None = figure("Back pressure, full gear at this speed", "bar")
    allowed: float = figure("Back pressure allowed", "bar")
    choked: bool = figure("Blast at the speed of sound", "yes/no")
    jet_speed: float | None = figure("Speed of the jet", "m/s")
    diameter_by_steam: float = figure("Nozzle for the allowed back pressure", main=True)
    drill: str = figure("Nearest drill to that", "text", main=True)
    drill_diameter: float = figure("Its diameter")
    own_drill: str = figure("Nearest drill to the nozzle decided", "text")
    choke: float | None = figure("Choke as taken", main=True)
    choke_above_nozzle: float | None = figure("Choke above the nozzle tip")
    wanted_choke: float | None = figure("Choke by the cones", main=True)
    wanted_height: float | None = figure("Choke above the tip by the cones")
    nozzle_below_by_cone: float | None = figure("Tip below the boiler centre by the lower cone")
    chimney_length: float | None = figure("Chimney above the smokebox")
    revolutions: float = figure("Turns of the wheels at running speed", "rev/min")
    speed: float = figure("Running speed reckoned with", "km/h")
    rules: tuple[Rule, ...]
    beside: tuple[Beside, ...]
    layout: Layout | None
    effective_area: float
    dryness: float
    flow_per_speed: tuple[float, float]
    """kg/s for each km/h, at the running and at the full-gear cut-off."""
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
