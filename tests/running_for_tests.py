"""Trains, boilers and maps of which every figure is plain, to be reckoned by hand."""

from __future__ import annotations

import dataclasses
import math
from typing import Any

import numpy as np

from weighshaft.cylinders.steam import Events
from weighshaft.running import Assumed, EngineMap, Notch, Raising, Rolling, Running, RunningResult
from weighshaft.running.driver import Driver, Seen
from weighshaft.running.notches import Notches
from weighshaft.running.profile import Profile
from weighshaft.running.resistance import Resistance
from weighshaft.running.simulation import Outing
from weighshaft.running.work import work

LEVEL = Profile((0.0, 1000.0), (0.0, 0.0), (0.0, 0.0), closed=True)
WHEEL = 98.4
"""Driving wheel of the engine of these tests, mm."""


def raising(**changes: Any) -> Raising:
    """Return a boiler of a 3 1/2 in gauge engine; changes by name."""
    plain = Raising(
        water_working=1.1, water_least=0.4, water_tank=2.0, metal_heat=1.5, loss=0.3,
        heat_full=1900.0, fuel_per_heat=1 / 15e6, fuel_aboard=0.7, working_pressure=5.5,
        safety_pressure=5.7, safety_capacity=1e-3, feed_per_turn=2e-4, evaporation_full=7e-4,
        idle_share=0.25, blower_share=0.6,
    )  # fmt: skip
    return dataclasses.replace(plain, **changes)


def endless() -> Raising:
    """Return a boiler whose pressure nothing moves: water and metal without end."""
    return raising(water_working=1e6, metal_heat=1e6, fuel_aboard=1e6, heat_full=0.0, loss=0.0)


def resistance(**changes: Any) -> Resistance:
    """Return a train of 100 kg with 5 N of resistance and nothing else; changes by name."""
    plain = Resistance(
        mass=100.0, inertia=100.0, level=5.0, curve=0.0, air=0.0, machine=0.0, grip=1e9,
        own_mass=15.0, own_level=1.0, own_curve=0.0,
    )  # fmt: skip
    return dataclasses.replace(plain, **changes)


def engine_map(
    pull: Any, *, steam: float = 1e-5, speeds: Any = None, reversers: tuple[float, ...] = (1.0,)
) -> EngineMap:
    """Return a map with `pull`, N of km/h, in proportion to the pressure up to 5 bar in the chest.

    Steam is so many kg/s for each km/h and bar.
    """
    along = np.linspace(0.0, 40.0, 401) if speeds is None else np.asarray(speeds, dtype=float)
    pressures = np.array([0.0, 5.0])
    force = np.array([float(pull(v)) for v in along])
    shape = (2, len(reversers), along.size)
    made, drawn = np.zeros(shape), np.zeros(shape)
    for j, notch in enumerate(reversers):
        made[1, j], drawn[1, j] = force * notch, steam * 5 * along * notch
    return EngineMap(speeds=along, reversers=np.array(reversers), pressures=pressures, pull=made,
                     steam=drawn)  # fmt: skip


def chest_share(pressure: float = 5.5, chest: float = 5.0) -> float:
    return (chest + 1.01325) / (pressure + 1.01325)


class WideOpen(Driver):
    """Somebody who opens the regulator and touches nothing more."""

    def act(self, seen: Seen) -> None:
        self.regulator, self.notch, self.brake = 1.0, 0, 0.0


def wide_open(outing: Outing) -> WideOpen:
    return WideOpen(
        outing.notches, outing.raising, outing.resistance, pace=100.0, low_water=0.9, blower=False
    )


def outing(engine: EngineMap, **changes: Any) -> Outing:
    """Return an outing of ten minutes on the level; changes by name."""
    given: dict[str, Any] = {
        "notches": Notches(engine, chest_share()), "raising": endless(),
        "resistance": resistance(), "profile": LEVEL, "length": 4.0, "pace": 8 / 3.6,
        "seconds": 600.0, "round": math.pi * WHEEL / 1000,
    }  # fmt: skip
    return Outing(**(given | changes))


AREA = math.pi / 4 * 28.575**2
ASSUMED = Assumed(
    areas=(AREA, 0.96 * AREA), clearances=(0.1, 0.1), stroke=41.275, wheel=WHEEL, number=2,
    pressure=5.5, back=0.15, chest_loss=0.05, diagram=0.85, drawn=1 / 0.65, lifts=True,
    notches=tuple(
        Notch(reverser=notch, events=Events(cutoff, 0.93, 0.1))
        for notch, cutoff in ((1.0, 0.78), (0.75, 0.65), (0.5, 0.5), (0.25, 0.3))
    ),
)  # fmt: skip
ROLLING = Rolling(
    mass=14.6, coupled=14.6, wheel=WHEEL, axle=11.0, wheelbase=220.0, areas=2 * 1.96 * AREA,
    stroke=41.275, adhesion=0.2, share=0.008, gauge=89.0, length=400.0,
)  # fmt: skip


def worked(running: Running | None = None, **changes: Any) -> RunningResult:
    """Return the chapter worked for the 3 1/2 in gauge engine; changes by name."""
    given: dict[str, Any] = {
        "rolling": ROLLING, "raising": raising(), "assumed": ASSUMED, "chest_share": 0.95,
        "speed": 8.0, "evenness": 1.3,
    }  # fmt: skip
    return work(running or Running(), **(given | changes))
