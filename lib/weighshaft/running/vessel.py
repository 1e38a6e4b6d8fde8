"""The boiler as a store of heat: water and steam at saturation, with the metal round them."""

from __future__ import annotations

from functools import lru_cache
from itertools import pairwise

from ..trade.saturation import saturation_at
from .given import Raising

COLD = 15.0
"""The air, degC."""
WATER_HEAT = 4.19
"""Of cold water, kJ/(kg K): within 1 in 100 from 5 degC up (IAPWS R7-97)."""
_FROM, _TO, _PER = 60, 206, 4


@lru_cache(maxsize=1)
def _table() -> tuple[list[float], list[float], list[float], list[float]]:
    """Return pressure (bar gauge), heat of water, of steam, kJ/kg, and of 1 kg and 1 K more."""
    rows = [saturation_at(_FROM + i / _PER) for i in range((_TO - _FROM) * _PER + 1)]
    water = [one.water_heat for one in rows]
    more = [_PER * (b - a) for a, b in pairwise(water)]
    return (
        [one.pressure for one in rows], water, [one.steam_heat for one in rows], [*more, more[-1]],
    )  # fmt: skip


class Vessel:
    """Water at saturation in a boiler; what steam, feed, fire and losses do to it.

    The heat of the steam above the water is left out: at these pressures a litre of it holds
    less than a hundredth of the heat of a litre of water.

    Parameters
    ----------
    raising : boiler and fire.
    temperature : at the beginning, degC.
    """

    def __init__(self, raising: Raising, temperature: float) -> None:
        self.water = raising.water_working
        self.temperature = temperature
        self._metal, self._loss = raising.metal_heat, raising.loss
        self._feed_heat = WATER_HEAT * raising.feed_temperature
        self._pressures, self._waters, self._steams, self._more = _table()
        self._look()

    def _look(self) -> None:
        place = (self.temperature - _FROM) * _PER
        place = min(max(place, 0.0), len(self._pressures) - 1.0001)
        i = int(place)
        part = place - i
        pressures, waters, steams = self._pressures, self._waters, self._steams
        self.pressure = pressures[i] + part * (pressures[i + 1] - pressures[i])
        self.water_heat = waters[i] + part * (waters[i + 1] - waters[i])
        self.steam_heat = steams[i] + part * (steams[i + 1] - steams[i])
        self._per_degree = self.water * self._more[i] + self._metal

    @property
    def lost(self) -> float:
        """Heat lost to the air, W."""
        return self._loss * (self.temperature - COLD)

    def to_spare(self, pressure_temperature: float) -> float:
        """Return the steam, kg, that brings it down to a temperature, degC; 0 where it is below."""
        over = self.temperature - pressure_temperature
        return max(over, 0.0) * self._per_degree / (self.steam_heat - self.water_heat)

    def step(self, seconds: float, heat: float, steam: float, feed: float) -> None:
        """Go on by a step.

        Parameters
        ----------
        heat : from the fire, W.
        steam, feed : out and in, kg/s.

        The balance of an open vessel at saturation: what steam carries off beyond the water that it
        was, and what feed lacks, is taken from water and metal.
        """
        gain = (heat - self.lost) / 1000
        gain -= steam * (self.steam_heat - self.water_heat)
        gain -= feed * (self.water_heat - self._feed_heat)
        self.temperature += gain * seconds / self._per_degree
        self.temperature = min(max(self.temperature, COLD), _TO - 0.001)
        self.water += (feed - steam) * seconds
        self._look()
