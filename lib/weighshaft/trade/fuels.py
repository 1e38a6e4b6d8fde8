"""What small boilers burn: calorific values, and gases with the pressure of their vapour."""

from __future__ import annotations

import math
from bisect import bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache

from .tables import rows

KELVIN = 273.15
GASES: Mapping[str, Mapping[str, float]] = {
    "butane": {"n-butane": 1.0},
    "isobutane": {"isobutane": 1.0},
    "butane and propane, 70 to 30": {"n-butane": 0.7, "propane": 0.3},
    "propane": {"propane": 1.0},
}
"""What is bought, and its parts by weight."""
SPIRIT, COAL = "methylated spirit", "steam coal"


class FuelTableError(ValueError):
    """A temperature that the table does not reach; the text names its ends."""


@dataclass(frozen=True)
class Fuel:
    """A fuel; what its state has not got is None.

    Parameters
    ----------
    net : calorific value with the water of burning gone off as steam, MJ/kg.
    density : of the liquid at 20 degC, kg/l.
    molar : kg/kmol.
    isentropic : exponent of expansion of the thin gas.
    latent : heat to turn the liquid into vapour, kJ/kg; `heat` of the liquid, kJ/(kg K).
    air : to burn it without excess, kg/kg.
    """

    name: str
    net: float
    density: float | None
    molar: float | None
    isentropic: float | None
    latent: float | None
    heat: float | None
    air: float


@cache
def _fuels() -> dict[str, Fuel]:
    def known(text: str) -> float | None:
        return float(text) if text else None

    return {
        row["name"]: Fuel(
            row["name"], float(row["net_MJ_kg"]), known(row["density_kg_l"]),
            known(row["molar_kg_kmol"]), known(row["isentropic"]), known(row["latent_kJ_kg"]),
            known(row["heat_kJ_kgK"]), float(row["air_kg_kg"]),
        )
        for row in rows("fuels")
    }  # fmt: skip


def fuel(name: str) -> Fuel:
    """Return a fuel of the table; KeyError when it has none of that name."""
    return _fuels()[name]


@cache
def _vapour(name: str) -> tuple[tuple[float, ...], tuple[float, ...]]:
    table = rows("gas_vapour")
    return (
        tuple(float(row["temperature_degC"]) for row in table),
        tuple(math.log(float(row[f"{name}_bar"])) for row in table),
    )


def vapour_pressure(name: str, temperature: float) -> float:
    """Return the pressure of the vapour over a pure liquid gas, bar absolute.

    Parameters
    ----------
    name : "n-butane", "isobutane" or "propane".
    temperature : degC.

    Raises
    ------
    FuelTableError : naming the ends of the table.

    Source: `data/gas_vapour.csv`; between its rows the logarithm against the inverse of the
    absolute temperature, within 0.03 per cent of the equations of state.
    """
    temperatures, logs = _vapour(name)
    if not temperatures[0] <= temperature <= temperatures[-1]:
        raise FuelTableError(
            f"The table of gases runs from {temperatures[0]:g} to {temperatures[-1]:g} °C; "
            f"{temperature:g} °C is outside it."
        )
    i = min(bisect_right(temperatures, temperature) - 1, len(temperatures) - 2)
    low, high = (1 / (temperatures[n] + KELVIN) for n in (i, i + 1))
    part = (1 / (temperature + KELVIN) - low) / (high - low)
    return math.exp(logs[i] + part * (logs[i + 1] - logs[i]))
