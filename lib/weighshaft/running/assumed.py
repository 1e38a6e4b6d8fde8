"""Quick answers where no other chapter has worked pull or boiler: assumed cycle, usual sizes."""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

import numpy as np

from ..cylinders.steam import Events, Fill
from ..sizes import SizeError
from ..trade.saturation import ATMOSPHERE, saturation
from .given import Array, EngineMap, Raising

NO_NOTCH = "No notch of the reverser drives the engine forward."
CYCLE = "the assumed cycle of the cylinders"
FASTEST = 60.0
"""km/h; the assumed cycle does not know of speed, so that two speeds are enough."""
_PRESSURES = 9


@dataclass(frozen=True, kw_only=True)
class Notch:
    """A notch of the reverser with its events, as parts of the stroke."""

    reverser: float
    events: Events


@dataclass(frozen=True, kw_only=True)
class Assumed:
    """What the assumed cycle wants to know.

    Parameters
    ----------
    areas : of the piston, front and back, mm2; clearances: parts of the volumes swept.
    stroke, wheel : mm.
    number : of cylinders.
    pressure, back : in the boiler and of the exhaust, bar gauge.
    chest_loss : of the absolute pressure, part.
    diagram : diagram factor.
    drawn : all the steam drawn over what the diagram shows.
    lifts : whether the valve lifts.
    """

    areas: tuple[float, float]
    clearances: tuple[float, float]
    stroke: float
    wheel: float
    number: int
    pressure: float
    back: float
    chest_loss: float
    diagram: float
    drawn: float
    lifts: bool
    notches: tuple[Notch, ...]


def assumed_map(engine: Assumed) -> EngineMap:
    """Return pull and steam by the assumed cycle, the same at every speed but for the steam.

    The work of a turn, all ends together, over the round of the wheel is the pull; the steam of a
    turn is what fills the ends at cut-off less what compression kept, with the allowance for
    condensation.

    Raises
    ------
    SizeError : where there is no notch to run in.
    """
    if not engine.notches:
        raise SizeError(NO_NOTCH)
    highest = (1 - engine.chest_loss) * (engine.pressure + ATMOSPHERE) - ATMOSPHERE
    pressures = np.linspace(0.0, 1.1 * highest, _PRESSURES)
    speeds = np.array([0.0, FASTEST])
    notches = sorted(engine.notches, key=lambda one: one.reverser)
    shape = (pressures.size, len(notches), 2)
    pull, steam = np.empty(shape), np.empty(shape)
    back = engine.back + ATMOSPHERE
    kept_density = saturation(engine.back).density
    round_ = math.pi * engine.wheel / 1000
    turns = FASTEST / 3.6 / round_
    for i, chest in enumerate(pressures):
        density = saturation(float(chest)).density
        for j, notch in enumerate(notches):
            work = used = 0.0
            for area, clearance in zip(engine.areas, engine.clearances, strict=True):
                fill = Fill(float(chest) + ATMOSPHERE, back, clearance, engine.lifts)
                swept = area * engine.stroke * engine.number  # mm3
                work += fill.mean(notch.events) * swept * 1e-4  # bar mm3 into J
                filled = notch.events.cutoff + clearance
                kept = notch.events.compression + clearance
                used += swept * 1e-9 * (density * filled - kept_density * kept)
            pull[i, j, :] = engine.diagram * work / round_
            steam[i, j] = 0.0, max(used, 0.0) * engine.drawn * turns
    return EngineMap(
        speeds=speeds, reversers=np.array([one.reverser for one in notches]),
        pressures=pressures, pull=pull, steam=steam, source=CYCLE,
    )  # fmt: skip


MOST = 3.0
"""By how much a map may be brought to a point at the most; beyond, the two do not agree at all."""


@dataclass(frozen=True, kw_only=True)
class Point:
    """Pull and steam as another chapter has marched them, for one way of running.

    Parameters
    ----------
    reverser : notch; speed: km/h; chest: mean pressure in the steam chest, bar gauge.
    pull : at the rim before the engine's own resistance, N; steam: kg/s.
    """

    reverser: float
    speed: float
    chest: float
    pull: float
    steam: float


def held_to(made: EngineMap, point: Point) -> EngineMap:
    """Return a map brought to one point that is known better: pull and steam each by one factor.

    A point in back gear, or one with which the map does not agree at all, changes nothing.
    """
    if point.reverser <= 0 or point.pull <= 0 or point.steam <= 0 or point.speed <= 0:
        return made
    row = int(np.argmin(np.abs(made.reversers - point.reverser)))

    def read(table: Array) -> float:
        along = np.array([np.interp(point.speed, made.speeds, one) for one in table[:, row, :]])
        return float(np.interp(point.chest, made.pressures, along))

    pull, steam = read(made.pull), read(made.steam)
    if pull <= 0 or steam <= 0:
        return made
    by, drawn = point.pull / pull, point.steam / steam
    if not (1 / MOST <= by <= MOST and 1 / MOST <= drawn <= MOST):
        return made
    return replace(
        made, pull=by * made.pull, steam=drawn * made.steam,
        source=f"{made.source}, held to what the steam in the cylinder gives in notch "
        f"{point.reverser:g} at {point.speed:.1f} km/h (pull times {by:.2f}, steam times "
        f"{drawn:.2f})",
    )  # fmt: skip


FUELS = {"coal": (30e6, 0.5), "gas": (45.7e6, 0.55), "spirit": (26.8e6, 0.45)}
"""Heat of a kilogram, J, net: house coal, butane, methylated spirit; and the share that reaches the
water.  From memory and common practice, both."""
RATE = 25.0
"""Evaporation, kg/h on a m2 of heating surface: small engines at full load measured 17 to 28
(Vienna 1884, Dingler's Polytechnisches Journal 255, p. 393)."""


def assumed_raising(
    *, firing: str, pressure: float, water: float, tank: float, metal: float, surface: float,
    engine_mass: float, feed_per_turn: float,
) -> Raising:  # fmt: skip
    """Return boiler and fire by usual proportions, until the chapter on firing has worked them.

    Parameters
    ----------
    firing : "coal", "gas" or "spirit".
    pressure : bar gauge.
    water, tank : in boiler and tanks, kg.
    metal : boiler, of copper or the like, kg.
    surface : outside of the barrel, m2; the heating surface is taken as half as much again.
    engine_mass : kg.
    feed_per_turn : of the axle pump, kg.
    """
    steam = saturation(pressure)
    evaporation = RATE * 1.5 * surface / 3600
    heat = 1000 * evaporation * (steam.steam_heat - 63.0)
    fuel, reaches = FUELS.get(firing, FUELS["coal"])
    coal = firing == "coal"
    # 10 W/(m2 K) off bare metal; lagged a good third of that
    loss = 4.0 * 1.3 * surface
    aboard = {"coal": 0.05 * engine_mass, "gas": 0.02, "spirit": 0.08}.get(firing, 0.1)
    return Raising(
        water_working=water, water_least=0.4 * water, water_tank=tank, metal_heat=0.385 * metal,
        loss=loss, heat_full=heat + loss * (steam.temperature - 15), fuel_per_heat=1 /
        (fuel * reaches), fuel_aboard=aboard, working_pressure=pressure,
        safety_pressure=1.03 * pressure, safety_capacity=1.5 * evaporation,
        feed_per_turn=feed_per_turn, evaporation_full=evaporation,
        idle_share=0.25 if coal else 1.0, blower_share=0.6 if coal else 1.0,
        can_be_damped=firing != "spirit", assumed=True,
    )  # fmt: skip


def with_feed(raising: Raising, feed_per_turn: float) -> Raising:
    """Return boiler and fire with an axle pump of so much, kg a turn."""
    return replace(raising, feed_per_turn=feed_per_turn)
