"""Steam through a converging nozzle, and the pressure that it takes.

The steam upstream stands still, saturated and as dry as said; it expands without loss of
heat by p v^k, with Zeuner's k = 1.035 + 0.1 x for a dryness x at the start (1.135 when dry).
Below the critical ratio of pressures the flow no longer depends on what is behind.
"""

from __future__ import annotations

import math
from functools import lru_cache
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..trade.saturation import ATMOSPHERE, saturation
from ..working import relation, sqrt

Array = NDArray[np.float64]

PASCAL = 1e5
_MOST = 10.0  # bar of back pressure to which the flow is tabulated
_STEPS = 400


@relation("k", "Zeuner; quoted from memory", dryness="x")
def exponent(dryness: float) -> float:
    """Isentropic exponent of wet steam."""
    return 1.035 + 0.1 * dryness


@relation("r_c", "isentropic flow of a gas that keeps p v^k", k="k")
def critical_ratio(k: float) -> Any:
    """Pressure at the mouth over pressure upstream, absolute, at which the flow is choked."""
    return (2 / (k + 1)) ** (k / (k - 1))


@relation("G", "Saint-Venant and Wantzel: isentropic flow through a converging nozzle",
          upstream="p_1", density="\\rho_1", ratio="r", k="k")  # fmt: skip
def flux(upstream: float, density: float, ratio: float, k: float) -> Any:
    """Flow over area, kg/(s m2), from `upstream` Pa absolute and kg/m3, at p2/p1 = `ratio`."""
    return sqrt(2 * k / (k - 1) * upstream * density * (ratio ** (2 / k) - ratio ** ((k + 1) / k)))


def wet_density(pressure: float, dryness: float) -> float:
    """Return the density of wet steam, kg/m3, at bar gauge and dryness (part by weight)."""
    at = saturation(pressure)
    return 1 / (dryness / at.density + (1 - dryness) / at.water_density)


def mass_flux(pressure: float, dryness: float = 1.0, behind: float = 0.0) -> float:
    """Return the flow of steam over the area of the mouth, kg/(s m2).

    Parameters
    ----------
    pressure : upstream, bar gauge.
    dryness : upstream, part by weight.
    behind : pressure behind the mouth, bar gauge; 0 is the open air.

    Raises
    ------
    SteamTableError : for pressures beyond the table.

    Source: Saint-Venant and Wantzel, with Zeuner's exponent.
    """
    if pressure <= behind:
        return 0.0
    k = exponent(dryness)
    ratio = max((behind + ATMOSPHERE) / (pressure + ATMOSPHERE), critical_ratio(k))
    upstream = (pressure + ATMOSPHERE) * PASCAL
    return flux(upstream, wet_density(pressure, dryness), ratio, k)


def choking_pressure(dryness: float) -> float:
    """Return the pressure upstream, bar gauge, from which a nozzle into the air is choked."""
    return ATMOSPHERE / critical_ratio(exponent(dryness)) - ATMOSPHERE


@lru_cache(maxsize=1)
def _upstream() -> tuple[Array, Array, Array]:
    # even steps in the root of the pressure, against which the flow is nearly straight
    root = np.linspace(0.0, math.sqrt(_MOST), _STEPS)
    states = [saturation(float(r) ** 2) for r in root]
    dry = np.array([[1 / one.density, one.steam_heat] for one in states]).T
    water = np.array([[1 / one.water_density, one.water_heat] for one in states]).T
    return root, dry, water


def upstream(pressure: Array, dryness: float) -> tuple[Array, Array]:
    """Return volume, m3/kg, and heat content, kJ/kg, of the wet steam behind a nozzle.

    Parameters
    ----------
    pressure : bar gauge, 0 to 10.
    dryness : part by weight.
    """
    root, dry, water = _upstream()
    mixed = dryness * dry + (1 - dryness) * water
    at = np.sqrt(np.asarray(pressure, dtype=float))
    return np.interp(at, root, mixed[0]), np.interp(at, root, mixed[1])


@lru_cache(maxsize=32)
def _fluxes(dryness: float) -> Array:
    root, dry, water = _upstream()
    k = exponent(dryness)
    pressure = root**2 + ATMOSPHERE
    ratio = np.maximum(ATMOSPHERE / pressure, critical_ratio(k))
    volume = (dryness * dry + (1 - dryness) * water)[0]
    inner = np.maximum(ratio ** (2 / k) - ratio ** ((k + 1) / k), 0.0)
    made: Array = np.sqrt(2 * k / (k - 1) * pressure * PASCAL / volume * inner)
    return made


def back_pressures(flow: Array, area: Array, dryness: float) -> Array:
    """Return the pressures (bar gauge) that drive steam into the air, NaN beyond 10 bar.

    Parameters
    ----------
    flow : kg/s.
    area : effective area of the mouth (coefficient of discharge taken in), mm2; same shape.
    dryness : at the nozzle.
    """
    wanted = np.asarray(flow, dtype=float) / (np.asarray(area, dtype=float) * 1e-6)
    root = np.interp(wanted, _fluxes(dryness), _upstream()[0], right=np.nan)
    made: Array = root**2
    return made


def back_pressure(flow: float, area: float, dryness: float) -> float | None:
    """Return the pressure (bar gauge) for one flow (kg/s) and area (mm2); None beyond 10 bar."""
    found = float(back_pressures(np.array([flow]), np.array([area]), dryness)[0])
    return None if math.isnan(found) else found


def area_for(flow: float, pressure: float, dryness: float) -> float:
    """Return the effective area (mm2) that passes `flow` kg/s at a back pressure, bar gauge."""
    return flow / mass_flux(pressure, dryness) * 1e6
