"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..findings import Finding, Suggestion
from ..nozzle.beside import Beside
from ..nozzle.cones import Layout
from ..nozzle.decisions import Nozzle
from ..sizes import figure
from ..working import Working

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Scan:
    """What comes of one size, all else staying; NaN where the steam needs more than 10 bar.

    Parameters
    ----------
    size : mm.
    draught : mm water.
    back_pressure : bar.
    over_steam : gases over steam, by weight.
    """

    size: Array
    draught: Array
    back_pressure: Array
    over_steam: Array


@dataclass(frozen=True)
class Way:
    """Another front end over the same steam; None where that needs more than 10 bar.

    Parameters
    ----------
    name : in words.
    draught : mm water.
    over_steam : gases over steam, by weight.
    """

    name: str
    draught: float | None
    over_steam: float | None


@dataclass(frozen=True, kw_only=True)
class DraughtResult:
    """Figures, workings and findings; see `Draughting` for the decisions.

    None where the steam needs more than 10 bar behind the nozzle.
    """

    draught: float | None = figure("Draught in the smokebox, running", "mm water", main=True)
    back_pressure: float | None = figure("Back pressure, running", "bar", main=True)
    gas: float | None = figure("Gases drawn", "g/s", main=True)
    over_steam: float | None = figure("Gases over steam, by weight", "ratio", main=True)
    air: float | None = figure("Air over what the fuel needs", "%")
    raised: float | None = figure("Steam that a fire with this draught can raise", "g/s")
    needed: float = figure("Draught that the fire needs", "mm water", main=True)
    wanted: float = figure("Draught wanted, with the margin", "mm water")
    most: float = figure("Most that the fire stands", "mm water")
    nozzle: float | None = figure("Nozzle by the ejector, for the draught wanted", main=True)
    drill: str = figure("Nearest drill to that", "text")
    nozzle_back: float | None = figure("Its back pressure", "bar")
    harmless: float | None = figure("Nozzle from which the draught does no harm")
    each: float = figure("Each nozzle")
    number: int = figure("Nozzles", "count")
    draught_full: float | None = figure("Draught, full gear at this speed", "mm water")
    back_full: float | None = figure("Back pressure, full gear at this speed", "bar")
    best_choke: float | None = figure("Choke that draws most with this nozzle")
    best_choke_draught: float | None = figure("Draught with that choke", "mm water")
    best_spacing: float | None = figure("Spacing from tip to choke that draws most")
    mixed: float | None = figure("Steam and gases in the chimney", "degC")
    speed: float | None = figure("Their speed in the choke", "m/s")
    caught: float = figure("Jet's momentum that the choke catches", "%")
    evened: float = figure("Jet evened out at the chimney's top", "%")
    fuel: float = figure("Fuel burnt", "g/s")
    steam: float = figure("Steam through the nozzle", "g/s")
    pulsating: bool = figure("Reckoned with the beats of the exhaust", "yes/no")
    gauge: float | None = figure("Draught, mean of the beats", "mm water")
    gas_lag: float | None = figure("Gases in tubes follow a beat within, of a beat", "ratio")
    layout: Layout
    shown: Nozzle
    beside: tuple[Beside, ...]
    nozzles: Scan
    chokes: Scan
    spacings: Scan
    ways: tuple[Way, ...]
    turn: tuple[float, ...]
    """Draught over a turn of the wheels, mm water, where the beats are known."""
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
