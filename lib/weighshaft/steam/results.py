"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

from ..findings import Finding, Suggestion
from ..sizes import figure
from ..working import Working
from .beat import Beats
from .cycle import Array, Cycle


@dataclass(frozen=True)
class Mark:
    """An event on the indicator diagram.

    Parameters
    ----------
    end : "front" or "back".
    name : admission, cut-off, release or compression.
    step : index into the arrays of the cycle.
    """

    end: str
    name: str
    step: int


@dataclass(frozen=True)
class Loss:
    """What takes from the mean pressure, or from the steam.

    Parameters
    ----------
    name : in words.
    amount : bar of mean pressure, or g a turn.
    share : part of the mean pressure, or of the steam drawn.
    """

    name: str
    amount: float
    share: float


@dataclass(frozen=True)
class Coefficient:
    """An assumed coefficient, the range seen, and where it comes from."""

    name: str
    value: str
    seen: str
    source: str


@dataclass(frozen=True, eq=False, kw_only=True)
class SteamResult:
    """Figures of one running condition.

    Parameters
    ----------
    cycle : the turn that repeats.
    place : (n,) distance of the piston from the front dead centre at the end of each step, as a
        part of the stroke; theta : (n,) crank angle there, degrees.
    marks : events of the valve.
    ideal : (2, k) part of the stroke and bar on the gauge: the textbook's diagram of the front
        end, without losses.
    torque : (n,) N mm on the axle, all cylinders.
    blast : (n,) g/s through the nozzle.
    pressure_losses, steam_losses : what takes pull, and what takes steam.
    steps : of a turn.
    """

    mean_pressure: float = figure("Mean effective pressure", "bar", main=True)
    ideal_pressure: float = figure("The same without any loss", "bar")
    pull: float = figure("Pull at the rim, engine friction off", "N", main=True)
    power: float = figure("Indicated power", "W", main=True)
    steam_rate: float = figure("Steam", "g/s", main=True)
    steam_per_turn: float = figure("Steam a turn", "g")
    water_an_hour: float = figure("Water for an hour", "kg")
    specific_steam: float | None = figure("Steam for a kWh at the pistons, kg", "ratio")
    missing_percent: float | None = figure("Steam that the indicator does not see", "%", main=True)
    dryness: float | None = figure("Dryness at cut-off", "ratio")
    chest_pressure: float = figure("Pressure in the chest, mean", "bar")
    chest_least: float = figure("Pressure in the chest, least", "bar")
    back_pressure: float = figure("Back pressure on the piston, mean", "bar", main=True)
    blast_pressure: float = figure("Pressure in the blast pipe, mean", "bar")
    compression: float = figure("Pressure at the end of compression", "bar")
    wall: float = figure("Metal of the cylinder, mean", "degC")
    skin: float = figure("Depth of metal that warms and cools in a turn")
    evenness: float | None = figure("Greatest torque over mean", "ratio")
    beat_evenness: float | None = figure("Weakest beat over strongest", "ratio")
    leak_percent: float = figure("Steam past the valves", "%")
    speed: float = figure("Speed", "km/h")
    revolutions: float = figure("Turns", "rev/min")
    notch: float = figure("Reverser", "ratio")
    medium: str
    cycle: Cycle
    place: Array
    theta: Array
    marks: tuple[Mark, ...]
    ideal: Array
    torque: Array
    blast: Array
    beats: Beats
    pressure_losses: tuple[Loss, ...]
    steam_losses: tuple[Loss, ...]
    coefficients: tuple[Coefficient, ...]
    cautions: tuple[str, ...]
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
