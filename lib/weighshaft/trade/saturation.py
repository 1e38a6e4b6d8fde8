"""Water and dry steam at saturation, from a table of the 1997 industrial formulation."""

from __future__ import annotations

import csv
import math
from bisect import bisect_right
from dataclasses import dataclass
from functools import lru_cache
from importlib.resources import files

ATMOSPHERE = 1.01325
"""Standard atmosphere, bar; what a gauge reads as nothing."""

SOURCE = "IAPWS R7-97(2012), tabulated at saturation"


class SteamTableError(ValueError):
    """A pressure or temperature that the table does not reach; the text names its ends."""


@dataclass(frozen=True)
class Saturation:
    """Water and dry saturated steam at one pressure.

    Parameters
    ----------
    pressure : bar above atmosphere (gauge).
    absolute : bar absolute.
    temperature : degC.
    density : of dry saturated steam, kg/m3.
    water_density : of saturated water, kg/m3.
    water_heat, steam_heat : heat content (enthalpy), kJ/kg, from water at its triple point.
    water_entropy, steam_entropy : kJ/(kg K).
    """

    pressure: float
    absolute: float
    temperature: float
    density: float
    water_density: float
    water_heat: float
    steam_heat: float
    water_entropy: float
    steam_entropy: float

    @property
    def latent_heat(self) -> float:
        """Heat to turn 1 kg of water at this pressure into dry steam, kJ/kg."""
        return self.steam_heat - self.water_heat


@dataclass(frozen=True)
class _Rows:
    log_absolute: tuple[float, ...]
    temperature: tuple[float, ...]
    columns: tuple[tuple[float, ...], ...]


@lru_cache(maxsize=1)
def _rows() -> _Rows:
    text = (files(__package__) / "data" / "saturation.csv").read_text(encoding="utf-8")
    rows = [tuple(map(float, row)) for row in list(csv.reader(text.splitlines()))[1:]]
    return _Rows(
        tuple(math.log(row[0]) for row in rows),
        tuple(row[1] for row in rows),
        # densities are kept as logarithms: against log pressure they are all but straight
        tuple(
            (row[1], -math.log(row[3]), -math.log(row[2]), row[4], row[5], row[6], row[7])
            for row in rows
        ),
    )


def saturation(pressure: float) -> Saturation:
    """Return water and dry steam at saturation.

    Parameters
    ----------
    pressure : bar gauge, from -0.91 to 20.98.

    Raises
    ------
    SteamTableError : naming the pressure and the ends of the table.

    Source: IAPWS R7-97(2012) through the table `data/saturation.csv`, interpolated in a
    straight line against the logarithm of the absolute pressure; error below 0.004 degC,
    0.001 % of density and 0.02 kJ/kg.
    """
    rows = _rows()
    absolute = pressure + ATMOSPHERE
    low, high = (math.exp(rows.log_absolute[i]) - ATMOSPHERE for i in (0, -1))
    if not low - 1e-9 <= pressure <= high + 1e-9:
        raise SteamTableError(
            f"The steam table runs from {low:.2f} to {high:.2f} bar on the gauge; "
            f"{pressure:g} bar is outside it."
        )
    return _between(rows, rows.log_absolute, math.log(absolute), pressure)


def saturation_at(temperature: float) -> Saturation:
    """Return water and dry steam at the pressure at which water boils at `temperature`, degC.

    Raises
    ------
    SteamTableError : naming the temperature and the ends of the table.
    """
    rows = _rows()
    low, high = rows.temperature[0], rows.temperature[-1]
    if not low <= temperature <= high:
        raise SteamTableError(
            f"The steam table runs from {low:.1f} to {high:.1f} degC; "
            f"{temperature:g} degC is outside it."
        )
    return _between(rows, rows.temperature, temperature, None)


def _between(
    rows: _Rows, along: tuple[float, ...], where: float, pressure: float | None
) -> Saturation:
    i = min(max(bisect_right(along, where) - 1, 0), len(along) - 2)
    part = (where - along[i]) / (along[i + 1] - along[i])
    mixed = [a + part * (b - a) for a, b in zip(rows.columns[i], rows.columns[i + 1], strict=True)]
    if pressure is None:
        low, high = rows.log_absolute[i], rows.log_absolute[i + 1]
        pressure = math.exp(low + part * (high - low)) - ATMOSPHERE
    return Saturation(
        pressure=pressure,
        absolute=pressure + ATMOSPHERE,
        temperature=mixed[0],
        density=math.exp(mixed[1]),
        water_density=math.exp(mixed[2]),
        water_heat=mixed[3],
        steam_heat=mixed[4],
        water_entropy=mixed[5],
        steam_entropy=mixed[6],
    )
