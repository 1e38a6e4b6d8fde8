"""The whole map of the engine: pull and steam over speed, notch and pressure, marched."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ..sizes import SizeError
from .cycle import Array
from .decisions import SteamSide
from .engine import WALKING, Engine, Running
from .many import Condition, Marching, first_refused

PACES = (0.2, 0.5, 1.0, 1.5, 2.2, 3.2, 4.5)
"""Speeds of the map over the running speed."""
FASTEST = 60.0
"""km/h."""
SHARES = (0.35, 0.7, 1.0)
"""Pressures of the map over the working pressure."""
AHEAD = 0.04
"""Reverser from which a notch drives the engine forward."""


@dataclass(frozen=True, eq=False, kw_only=True)
class CycleMap:
    """Pull and steam with the regulator wide open.

    Parameters
    ----------
    speeds : (n,) km/h, rising.
    notches : (m,) of the reverser, longest cut-off first.
    pressures : (k,) in the boiler, bar gauge, rising to the working pressure.
    pull : (k, m, n) indicated, at the rim, before any friction of the engine, N.
    steam : (k, m, n) kg/s.
    refused : conditions that cannot run; they stand with no pull and no steam.
    why : what the first of these says.
    unsettled : conditions whose cycle did not come to repeat.
    steam_side, engine : what it was worked of, and belongs to.
    """

    speeds: Array
    notches: Array
    pressures: Array
    pull: Array
    steam: Array
    refused: int
    why: str
    unsettled: int
    steam_side: SteamSide
    engine: Engine

    @property
    def conditions(self) -> int:
        """How many were marched."""
        return self.pull.size

    def belongs_to(self, steam_side: SteamSide, engine: Engine) -> bool:
        """Whether it is the map of this engine; the running looked at does not matter."""
        own = self.steam_side
        return self.engine == engine and (own.way, own.assumed) == (
            steam_side.way, steam_side.assumed
        )  # fmt: skip


def map_of(
    steam_side: SteamSide, engine: Engine, *, notches: Sequence[float], pace: float | None,
    marching: Marching | None = None,
) -> CycleMap:  # fmt: skip
    """March the whole map.

    Parameters
    ----------
    notches : of the reverser; those that do not drive ahead are left out.
    pace : running speed, km/h; None takes a walking pace.
    marching : how; one condition after the other unless given.

    Raises
    ------
    Stopped : when that says so.
    SizeError : where no notch drives ahead, or none of the conditions can run.
    """
    ahead = sorted({float(one) for one in notches if one > AHEAD}, reverse=True)
    if not ahead:
        raise SizeError("No notch of the reverser drives the engine forward.")
    usual = pace or WALKING
    speeds = np.array([one * usual for one in PACES if one * usual <= FASTEST] or [FASTEST])
    pressures = np.array(SHARES) * engine.pressure
    conditions = [
        Condition(
            steam=steam_side, engine=engine,
            running=Running(
                speed=float(speed), notch=notch, regulator=1.0, pressure=float(pressure)
            ),
        )
        for pressure in pressures
        for notch in ahead
        for speed in speeds
    ]  # fmt: skip
    outcomes = (marching or Marching()).all(conditions)
    refused = sum(bool(one.refused) for one in outcomes)
    if refused == len(outcomes):
        raise SizeError(first_refused(outcomes))
    shape = (len(pressures), len(ahead), len(speeds))
    return CycleMap(
        speeds=speeds, notches=np.array(ahead), pressures=pressures,
        pull=np.array([one.pull for one in outcomes]).reshape(shape),
        steam=np.array([one.steam for one in outcomes]).reshape(shape),
        refused=refused, why=first_refused(outcomes),
        unsettled=sum(not one.repeats for one in outcomes),
        steam_side=steam_side, engine=engine,
    )  # fmt: skip
