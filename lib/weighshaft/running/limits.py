"""Pull against speed: what rail, cylinders and boiler allow, and where the train balances it."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from .given import Array
from .notches import Notches
from .resistance import Resistance
from .results import Wanted

FASTEST = 40.0
"""km/h, up to which a balance is looked for."""
_FINE = 0.25
LIMITS = ("grip", "cylinders", "boiler")


@dataclass(frozen=True, eq=False)
class Limits:
    """The pull at the rail, N, over `speeds`, km/h, with the engine's motion taken off.

    Parameters
    ----------
    rows : of every notch, regulator wide open.
    boiler : that it keeps up lastingly; grip: N.
    """

    speeds: Array
    rows: tuple[Array, ...]
    boiler: Array
    grip: float

    @property
    def cylinders(self) -> Array:
        """The most of all notches."""
        most: Array = np.maximum.reduce(self.rows)
        return most

    @property
    def available(self) -> Array:
        """The least of the three."""
        least: Array = np.minimum(np.minimum(self.cylinders, self.boiler), self.grip)
        return least


def limits_of(
    notches: Notches, resistance: Resistance, *, pressure: float, evaporation: float,
    speeds: Array,
) -> Limits:  # fmt: skip
    """Return the limits at working pressure.

    Parameters
    ----------
    pressure : in the boiler, bar gauge.
    evaporation : kg/s, lastingly.
    speeds : km/h.
    """
    full, off = notches.full_chest(pressure), resistance.machine
    rows = tuple(notches.chart(row, full, speeds)[0] - off for row in range(len(notches)))
    lasting = np.full(speeds.size, -np.inf)
    for row in range(len(notches)):
        pull = [_lasting(notches, row, full, float(v), evaporation) for v in speeds]
        lasting = np.maximum(lasting, np.array(pull) - off)
    return Limits(speeds, rows, lasting, resistance.grip)


def _lasting(notches: Notches, row: int, full: float, speed: float, evaporation: float) -> float:
    """Return the pull in a notch with no more steam than the boiler makes, N."""
    chest = full
    if notches.steam(row, full, speed) > evaporation:
        chest = notches.chest_of_steam(row, evaporation, full, speed)
    return notches.pull(row, chest, speed)


def fine_speeds() -> Array:
    """Return the speeds among which a balance is looked for, km/h."""
    made: Array = np.arange(0.0, FASTEST + _FINE / 2, _FINE)
    return made


def balanced(
    limits: Limits, resistance: Resistance, *, mass: float, grade: float, speeds: Array
) -> Wanted:
    """Return where what is available and what the train wants balance.

    Parameters
    ----------
    limits : over fine speeds.
    mass : behind the engine, kg.
    grade : 1 in so many, 0 level.
    speeds : of the chart, km/h.
    """
    slope = 1 / grade if grade else 0.0

    def wants(at: Array) -> Array:
        made: Array = np.array([resistance.at(v / 3.6, slope) for v in at])
        return made

    spare = limits.available - wants(limits.speeds)
    below = np.flatnonzero(spare < 0)
    chart = wants(speeds)
    if below.size and below[0] == 0:
        return Wanted(mass, grade, chart, 0.0, _least(limits, 0))
    if not below.size:
        return Wanted(mass, grade, chart, float(limits.speeds[-1]), _least(limits, -1))
    n = int(below[0])
    part = spare[n - 1] / (spare[n - 1] - spare[n])
    speed = float(limits.speeds[n - 1] + part * (limits.speeds[n] - limits.speeds[n - 1]))
    return Wanted(mass, grade, chart, speed, _least(limits, n))


def _least(limits: Limits, n: int) -> str:
    three = (limits.grip, float(limits.cylinders[n]), float(limits.boiler[n]))
    return LIMITS[three.index(min(three))]
