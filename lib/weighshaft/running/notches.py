"""The engine's map looked up many times a second: one notch, one speed, one pressure."""

from __future__ import annotations

from bisect import bisect_right

import numpy as np

from ..trade.saturation import ATMOSPHERE
from .given import Array, EngineMap


class Notches:
    """The forward notches of an engine, longest cut-off first.

    Parameters
    ----------
    engine : its map.
    chest_share : absolute pressure in the chest over the boiler's, regulator wide open.
    """

    def __init__(self, engine: EngineMap, chest_share: float) -> None:
        ahead = [j for j in np.argsort(-engine.reversers) if engine.reversers[j] > 0.04]
        self.reversers = [float(engine.reversers[j]) for j in ahead]
        self.map, self.rows = engine, ahead
        self._share = chest_share
        self._speeds: list[float] = engine.speeds.tolist()
        self._pressures: list[float] = engine.pressures.tolist()
        self._pull: list[list[list[float]]] = [engine.pull[:, j, :].tolist() for j in ahead]
        self._steam: list[list[list[float]]] = [engine.steam[:, j, :].tolist() for j in ahead]

    def __len__(self) -> int:
        return len(self.reversers)

    def full_chest(self, boiler: float) -> float:
        """Return the pressure in the chest with the regulator wide open, bar gauge."""
        return max(self._share * (boiler + ATMOSPHERE) - ATMOSPHERE, 0.0)

    def pull(self, notch: int, chest: float, speed: float) -> float:
        """Return the pull at the rim, N, at `speed` km/h; none with the regulator shut."""
        return self._at(self._pull[notch], chest, speed) if chest > 0 else 0.0

    def steam(self, notch: int, chest: float, speed: float) -> float:
        """Return the steam drawn, kg/s; none with the regulator shut."""
        return max(self._at(self._steam[notch], chest, speed), 0.0) if chest > 0 else 0.0

    def chest_for(self, notch: int, pull: float, most: float, speed: float) -> float:
        """Return the pressure in the chest, bar gauge, that gives a pull; at most `most`."""
        return self._least(self._pull[notch], pull, most, speed)

    def chest_of_steam(self, notch: int, steam: float, most: float, speed: float) -> float:
        """Return the pressure in the chest, bar gauge, that draws so much steam, kg/s."""
        return self._least(self._steam[notch], steam, most, speed)

    def chart(self, row: int, chest: float, speeds: Array) -> tuple[Array, Array]:
        """Return pull, N, and steam, kg/s, over speeds, km/h."""
        return (
            np.array([self.pull(row, chest, float(v)) for v in speeds]),
            np.array([self.steam(row, chest, float(v)) for v in speeds]),
        )

    def _least(self, table: list[list[float]], wanted: float, most: float, speed: float) -> float:
        """Return the least pressure at which a table reaches a value; at most `most`."""
        j, along = _between(self._speeds, speed)
        k = min(j + 1, len(self._speeds) - 1)
        last_pressure, last = 0.0, 0.0
        for pressure, row in zip(self._pressures, table, strict=True):
            value = row[j] + along * (row[k] - row[j])
            if value >= wanted and pressure > 0:
                part = (wanted - last) / (value - last) if value > last else 1.0
                return min(last_pressure + max(part, 0.0) * (pressure - last_pressure), most)
            last_pressure, last = pressure, value
        return most

    def _at(self, table: list[list[float]], chest: float, speed: float) -> float:
        i, part = _between(self._pressures, chest)
        j, along = _between(self._speeds, speed)
        low, high = table[i], table[min(i + 1, len(table) - 1)]
        k = min(j + 1, len(low) - 1)
        below = low[j] + along * (low[k] - low[j])
        above = high[j] + along * (high[k] - high[j])
        return below + part * (above - below)


def _between(along: list[float], value: float) -> tuple[int, float]:
    """Return the place before a value and the part of the way to the next; ends are held."""
    if value <= along[0]:
        return 0, 0.0
    if value >= along[-1]:
        return len(along) - 1, 0.0
    i = bisect_right(along, value) - 1
    return i, (value - along[i]) / (along[i + 1] - along[i])
