"""What the chapter works out."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..findings import Finding, Suggestion
from ..sizes import figure
from ..working import Working
from .decisions import Line
from .profile import Profile

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Share:
    """One part of the resistance on straight level track, N."""

    name: str
    force: float


@dataclass(frozen=True)
class Stretch:
    """What happened at one moment of a run.

    Parameters
    ----------
    time : s; distance: m from the start.
    kind : "slip", "stall", "steam" (stands to raise steam), "water" (to be topped up), "safety"
        or "end".
    says : in the builder's words.
    """

    time: float
    distance: float
    kind: str
    says: str


@dataclass(frozen=True, eq=False, kw_only=True)
class Run:
    """One run, moment by moment.

    Parameters
    ----------
    time, distance, speed : s, m, km/h.
    pressure : in the boiler, bar gauge.
    water, tank, fuel : left, kg.
    reverser, regulator : where the driver has them; regulator: chest over boiler pressure, gauge.
    pull : that reaches the rail, N.
    slipping : whether the wheels slip.
    moments : what happened.
    work_rim, work_resistance, work_brake, work_climb, kinetic : where the work went, J.
    steam, blown : through the cylinders, and through the safety valve, kg.
    heat : into the water, J.
    ended : why it ended; "" where the time was up.
    stands, tops : how often it stood to raise steam, and to be topped up by hand.
    topped : out of a bottle, kg.
    stopped : whether somebody stopped it before its end.
    """

    time: Array
    distance: Array
    speed: Array
    pressure: Array
    water: Array
    tank: Array
    fuel: Array
    reverser: Array
    regulator: Array
    pull: Array
    slipping: NDArray[np.bool_]
    moments: tuple[Stretch, ...]
    work_rim: float
    work_resistance: float
    work_brake: float
    work_climb: float
    kinetic: float
    steam: float
    blown: float
    heat: float
    slips: int
    slipped: float
    stands: int
    tops: int
    topped: float
    ended: str = ""
    stopped: bool = False


@dataclass(frozen=True, eq=False)
class Pulling:
    """Pull at the rail against speed in one notch, the engine's own motion taken off, N."""

    reverser: float
    pull: Array


@dataclass(frozen=True, eq=False)
class Wanted:
    """What a train wants on a grade, and how fast it goes there.

    Parameters
    ----------
    mass : behind the engine, kg; grade: 1 in so many, 0 level.
    force : at the rail, N, over the speeds of the chart.
    speed : balancing speed, km/h; 0 where it does not start.
    held_by : "grip", "cylinders" or "boiler".
    """

    mass: float
    grade: float
    force: Array
    speed: float
    held_by: str


@dataclass(frozen=True, kw_only=True)
class RunningResult:
    """Figures, workings and findings; see `Running` for the decisions.

    Parameters
    ----------
    speeds : of the charts, km/h.
    notches : pull with the regulator wide open, longest cut-off first.
    boiler : pull that the boiler keeps up lastingly, N, over the speeds.
    grip : N.
    wanted : trains and grades.
    shares : of the resistance on the level.
    rules : full-size rules for the curve resistance, at scale, over weight.
    """

    train: float = figure("Train behind the engine", "kg", main=True)
    resistance: float = figure("Resistance on straight level track", "N", main=True)
    per_weight: float = figure("The same, of the weight", "%", main=True)
    train_per_weight: float = figure("Of the train alone, of its weight", "%")
    curve_per_weight: float = figure("Sharpest curve, more of the weight", "%")
    grip: float = figure("What the rail holds", "N")
    evaporation: float = figure("Steam that the boiler makes lastingly", "g/s")
    balancing: float = figure("Speed that it holds on the level", "km/h", main=True)
    uphill: float = figure("Speed that it holds on the steepest rise", "km/h")
    kept: float = figure("Pace asked of the driver", "km/h")
    distance: float = figure("Runs in the time", "m", main=True)
    laps: float = figure("That is laps", "ratio")
    mean_speed: float = figure("Mean speed", "km/h", main=True)
    least_pressure: float = figure("Least pressure on the way", "bar")
    steam_used: float = figure("Steam used", "g")
    water_left: float = figure("Water left in boiler and tanks", "kg")
    fuel_left: float = figure("Fuel left", "g")
    work_done: float = figure("Pull of the run, mean", "N")
    efficiency: float = figure("Work behind the engine, of the heat in the water", "%")
    filling: float | None = figure("Would go so far on a filling", "m")
    speeds: Array
    notches: tuple[Pulling, ...]
    boiler: Array
    wanted: tuple[Wanted, ...]
    shares: tuple[Share, ...]
    rules: tuple[tuple[str, float], ...]
    line: Line
    profile: Profile
    run: Run
    passengers: int
    source: str
    cautions: tuple[str, ...]
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]


def times(count: int) -> str:
    """Return how often, in words."""
    return {0: "never", 1: "once", 2: "twice"}.get(count, f"{count} times")
