"""What the run takes from other chapters: the engine's pull on a map, and its boiler and fire."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..sizes import SizeError

Array = NDArray[np.float64]

ANSWERS = 1.5
"""Over the evaporation at full fire, how far a fire's answers to the blast are told."""


@dataclass(frozen=True, eq=False, kw_only=True)
class EngineMap:
    """Pull and steam of the cylinders, interpolated linearly between what was worked.

    Parameters
    ----------
    speeds : (n,) km/h, rising.
    reversers : (m,) of the notches.
    pressures : (k,) in the steam chest, bar gauge, rising.
    pull : (k, m, n) mean tractive force at the rim before the engine's own resistance, N.
    steam : (k, m, n) steam drawn, kg/s.
    source : how it was come by, for the findings.
    """

    speeds: Array
    reversers: Array
    pressures: Array
    pull: Array
    steam: Array
    source: str = ""

    def __post_init__(self) -> None:
        shape = (self.pressures.size, self.reversers.size, self.speeds.size)
        if self.pull.shape != shape or self.steam.shape != shape or 0 in shape:
            raise SizeError("The map of the engine's pull is not whole.")
        for along in (self.speeds, self.pressures):
            if np.any(np.diff(along) <= 0):
                raise SizeError("The map of the engine's pull is not in order.")
        if not (np.isfinite(self.pull).all() and np.isfinite(self.steam).all()):
            raise SizeError("The map of the engine's pull has gaps.")


@dataclass(frozen=True, kw_only=True)
class Raising:
    """Boiler and fire, as far as a run wants to know them.

    Parameters
    ----------
    water_working, water_least, water_tank : in the boiler at its working level, the least with
        which it may be fired, and in the tanks besides, kg.
    metal_heat : heat that boiler and fittings take, kJ/K.
    loss : heat lost by lagging, smokebox and pipes, W/K.
    heat_full : into the water with the fire at its best, W.
    idle_share, blower_share : of that, with no draught at all and with the blower alone.
    evaporation_full : steam through the blast at which the fire is at its best, kg/s.
    fuel_per_heat : kg/J into the water.
    fuel_aboard : kg.
    working_pressure, safety_pressure : bar gauge.
    safety_capacity : that the safety valves pass a tenth above their pressure, kg/s.
    feed_per_turn : of the axle pump, kg for one turn of the driving wheels; 0 without one.
    answers : heat over `heat_full` with steam through the blast from none to ANSWERS times
        `evaporation_full`, evenly spaced; () for a fire that answers in proportion.
    hand_feed : that a hand pump feeds while it is worked, kg/s; 0 without one.
    feed_temperature : degC.
    can_be_damped : whether the driver can turn the fire down.
    assumed : whether all this is but a usual proportion.
    """

    water_working: float
    water_least: float
    water_tank: float
    metal_heat: float
    loss: float
    heat_full: float
    fuel_per_heat: float
    fuel_aboard: float
    working_pressure: float
    safety_pressure: float
    safety_capacity: float
    feed_per_turn: float
    evaporation_full: float
    idle_share: float = 1.0
    blower_share: float = 1.0
    answers: tuple[float, ...] = ()
    hand_feed: float = 0.0
    feed_temperature: float = 15.0
    can_be_damped: bool = True
    assumed: bool = False

    def heat_at(self, draught: float, evaporation: float) -> float:
        """Return the heat into the water, W.

        Parameters
        ----------
        draught : of the blower, 0 to 1.
        evaporation : steam through the blast, kg/s.

        The fire answers the blast in proportion: its draught grows as the square of the steam,
        and what burns as the root of the draught (Bourne, question 282).
        """
        blast = evaporation / self.evaporation_full if self.evaporation_full else 1.0
        if self.answers:
            place = min(blast / ANSWERS, 1.0) * (len(self.answers) - 1)
            i = min(int(place), len(self.answers) - 2)
            by_blast = self.answers[i] + (place - i) * (self.answers[i + 1] - self.answers[i])
        else:
            by_blast = self.idle_share + (1.0 - self.idle_share) * min(blast, 1.0)
        by_blower = self.idle_share + (self.blower_share - self.idle_share) * draught
        return self.heat_full * max(by_blower, by_blast)
