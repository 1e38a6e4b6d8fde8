"""What the engine would show in a run, reckoned from its coefficients."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ..cylinders.steam import turns_a_second
from ..firing.fires import Efficiency
from ..firing.relations import raising
from ..measures import GRAVITY
from ..sizes import SizeError
from ..steam import CycleError, Engine, Running, SteamSide, march
from ..trade.saturation import ATMOSPHERE, SteamTableError, saturation
from .decisions import FUEL, FUEL_FULL, KEPT, PULL, RAISED, STANDING, WATER, Run

Array = NDArray[np.float64]
CRAWL = 2.0
"""km/h at which an engine that is held fast is reckoned: the mean over all positions."""
STEPS = 240
"""Steps of a turn; the same for all, so that what differs is the coefficients alone."""
LEAST_PULL = 0.02
"""Part of the pull at the rim below which the drawbar is not reckoned."""
GRIPS = 1.3
"""Times what the rail holds beyond which a pull cannot have been."""


class Stopped(Exception):
    """The builder has asked a fit to stop."""


@dataclass(frozen=True, kw_only=True)
class Fire:
    """The fire as far as runs tell of it.

    Parameters
    ----------
    fuel : "gas", "spirit" or "coal".
    full : heat of the fuel burnt at full fire as decided, W; `value` J/kg.
    kind : efficiency of the type; `share` at full fire as decided.
    surface : mm2.
    loss : W for each degree above the air; `air`, `cold`, `feed` degC.
    water : kg, filled to work; `metal` kJ/K of the boiler.
    kindling : min; `raising` share of full fire while steam is raised.
    rate_now, rate_range, rate_title, rate_unit, rate_path : what the fuel burnt goes by: the
        discharge of a jet, the spirit that a wick burns, the coal of a grate.
    """

    fuel: str
    full: float
    value: float
    kind: Efficiency
    share: float
    surface: float
    loss: float
    air: float
    cold: float
    feed: float
    water: float
    metal: float
    kindling: float
    raising: float
    rate_now: float
    rate_range: tuple[float, float]
    rate_title: str
    rate_unit: str
    rate_path: str

    def loading(self, heat: float) -> float:
        """Return the heat of a fire for its surface, kW/m2."""
        return heat / 1000 / (self.surface * 1e-6)

    def share_at(self, heat: float, share: float) -> float:
        """Return the share that gets into the water from a fire of `heat` W.

        Parameters
        ----------
        share : of the full fire as decided; it falls as the fire is forced, as the type's does.
        """
        full = self.kind.at(self.loading(self.full))
        return min(share * self.kind.at(self.loading(heat)) / full, 0.97)

    def fire_for(self, heat: float, share: float) -> float:
        """Return the fire, W, that puts a heat into the water; `share` as above."""
        fire = heat / share
        for _ in range(60):
            fire = 0.5 * (fire + heat / self.share_at(fire, share))
        return fire


@dataclass(frozen=True, kw_only=True)
class Line:
    """What the line takes and lets through: engine, kg, rolling resistance, part, and grip, N.

    Parameters
    ----------
    speed, notch : where the builder does not say; `pressure` bar, likewise.
    """

    mass: float
    rolling: float
    grip: float
    speed: float
    notch: float
    pressure: float


def running_of(run: Run, line: Line) -> Running:
    """Return the running condition of a run."""
    speed = CRAWL if run.what == STANDING else run.speed or line.speed
    return Running(
        speed=speed, notch=line.notch if run.notch is None else run.notch,
        regulator=run.regulator, pressure=run.pressure or line.pressure,
    )  # fmt: skip


def why_not(run: Run, line: Line, fire: Fire | None) -> str:
    """Return in the builder's words why a run cannot be used; empty where it can."""
    if run.figure is None:
        return "has no figure yet"
    if run.what in (WATER, FUEL, FUEL_FULL) and run.minutes is None and (
        run.turns is None or run.what == FUEL_FULL
    ):  # fmt: skip
        return "says neither minutes nor turns" if run.what != FUEL_FULL else "wants its minutes"
    if run.what == RAISED and run.pressure is None:
        return "does not say which pressure was reached"
    if run.what in (FUEL, FUEL_FULL, RAISED, KEPT):
        if fire is None:
            return "is about a fire that cannot be worked; see fire, boiler and feed"
        if fire.fuel == "coal" and run.what in (FUEL_FULL, KEPT):
            return "does not tell with coal, which answers the blast; weigh coal, pressure kept"
    if run.what in (PULL, STANDING) and run.figure > GRIPS * line.grip:
        return (
            f"shows {run.figure:.3g} N, and the rail holds {line.grip:.3g} N by weight and "
            "adhesion: look at the balance, or at the weight"
        )
    if run.what == RAISED and fire is not None and run.figure <= fire.kindling:
        return f"was over before the fire burns well, {fire.kindling:g} min by the chapter on fire"
    return ""


class Reckoner:
    """Reckons what runs show; marches are kept, so that a coefficient of the fire costs none.

    Parameters
    ----------
    runs : that can be used; see `why_not`.
    told : called after every march with how many there were.
    stop : asked before every march; true raises `Stopped`.
    """

    def __init__(
        self, runs: Sequence[Run], steam: SteamSide, engine: Engine, line: Line,
        fire: Fire | None, *, told: Callable[[int], None] | None = None,
        stop: Callable[[], bool] | None = None,
    ) -> None:  # fmt: skip
        self.runs, self.steam, self.engine = tuple(runs), steam, engine
        self.line, self.fire = line, fire
        self._told, self._stop = told, stop
        self._kept: dict[tuple[Running, tuple[float, ...]], tuple[float, float]] = {}
        self.marches = 0

    def __call__(self, logs: Array) -> Array:
        """Return the logarithms of what all runs show at logarithms of the coefficients."""
        values = np.exp(logs)
        return np.array([math.log(self._shown(run, values)) for run in self.runs])

    def turned(self, running: Running, values: Array) -> tuple[float, float]:
        """Return steam drawn, kg, and work, J, of a turn of the whole engine."""
        film, gap, ports = (float(f"{one:.9g}") for one in values[:3])
        key = (running, (film, gap, ports))
        if key not in self._kept:
            if self._stop is not None and self._stop():
                raise Stopped
            assumed = replace(
                self.steam.assumed, film=min(max(film, 1000), 100_000),
                valve_gap=min(gap, 0.2), ports=min(max(ports, 0.4), 1.0),
            )  # fmt: skip
            try:
                ran = march(replace(self.steam, assumed=assumed), self.engine, running, steps=STEPS)
            except CycleError as refused:
                raise SizeError(str(refused), "runs") from refused
            self._kept[key] = (
                max(ran.cycle.drawn, 1e-12),
                float(ran.cycle.work.sum()) * self.engine.number,
            )
            self.marches += 1
            if self._told is not None:
                self._told(self.marches)
        return self._kept[key]

    def _shown(self, run: Run, values: Array) -> float:
        if run.what == RAISED:
            return self._raised(run, values)
        fire = self.fire
        if run.what == FUEL_FULL:
            assert fire is not None
            assert run.minutes is not None
            return float(60_000 * run.minutes * fire.full / fire.value * values[5] / fire.rate_now)
        running = running_of(run, self.line)
        drawn, work = self.turned(running, values)
        turns = turns_a_second(speed=running.speed, wheel=self.engine.wheel)
        if run.what in (PULL, STANDING):
            rim = 1000 * work * values[3] / (math.pi * self.engine.wheel)
            drags = 0.0 if run.what == STANDING else self.line.rolling
            left = rim - drags * self.line.mass * GRAVITY
            return float(max(left, LEAST_PULL * abs(rim), 1e-3))
        gone = run.turns if run.turns is not None else 60 * (run.minutes or 0.0) * turns
        if run.what == WATER:
            return 1e6 * drawn * gone / 1000  # ml of cold water weigh as many grams
        assert fire is not None
        needed = drawn * turns * 1000 * self._lift(running.pressure)
        hot = saturation(running.pressure).temperature
        if run.what == FUEL:
            burnt = fire.fire_for(needed + fire.loss * (hot - fire.air), values[4]) / fire.value
            return float(1000 * burnt * gone / turns)
        full = fire.full * values[5] / fire.rate_now
        made = full * fire.share_at(full, values[4]) - fire.loss * (hot - fire.air)
        # the steam used goes all but with the absolute pressure
        return float((running.pressure + ATMOSPHERE) * max(made, 1e-3 * full) / needed)

    def _lift(self, pressure: float) -> float:
        """Return the heat that feed water takes to become steam as it is drawn, kJ/kg."""
        assert self.fire is not None
        steam = saturation(pressure)
        wet = (1 - self.steam.way.dryness) * steam.latent_heat
        return steam.steam_heat - wet - 4.19 * self.fire.feed

    def _raised(self, run: Run, values: Array) -> float:
        fire = self.fire
        assert fire is not None
        assert run.pressure is not None
        hot = saturation(run.pressure)
        full = fire.full * fire.raising * values[5] / fire.rate_now
        heat = full * fire.share_at(full, values[4])
        lost = fire.loss * (hot.temperature - fire.air) / 2
        return fire.kindling + float(
            raising(
                water=fire.water, steam=hot.water_heat, cold=4.19 * fire.cold, metal=fire.metal,
                hot=hot.temperature, begin=fire.cold, heat=max(heat - lost, 0.02 * heat),
            )
        )  # fmt: skip


def measured(run: Run) -> float:
    """Return the figure of a run as it is compared: a pressure counts from nothing at all."""
    assert run.figure is not None
    return run.figure + ATMOSPHERE if run.what == KEPT else run.figure


def as_read(run: Run, value: float) -> float:
    """Return what is compared as the builder reads it; see `measured`."""
    return max(value - ATMOSPHERE, 0.0) if run.what == KEPT else value


def deviation(run: Run, spread: float) -> float:
    """Return the standard deviation of the logarithm of a reading.

    Parameters
    ----------
    spread : part within which the reckoning itself is good, whatever the coefficients.

    Source: evenly spread within plus or minus a, it is a over the root of 3; JCGM 100:2008, 4.3.7.
    """
    return math.hypot(math.log1p(run.good), math.log1p(spread)) / math.sqrt(3)


def check_pressure(run: Run) -> str:
    """Return why the pressure of a run is outside the steam table; empty where it is not."""
    try:
        saturation(run.pressure or 1.0)
    except SteamTableError as refused:
        return str(refused)
    return ""
