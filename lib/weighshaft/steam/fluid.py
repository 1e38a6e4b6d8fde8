"""What works in the cylinder: steam, wet or superheated, or air, as tables that march quickly.

Everything in here is in SI units (Pa, m3, kg, J, K), since a cycle is marched in steps of a
degree and nothing is converted on the way; `cycle.py` turns millimetres and bar into them.

Wet steam of mass m and energy U in a volume V obeys, without any other unknown,

    U = m a(p) + V e(p),    e = (u'' - u') / (v'' - v'),    a = u' - v' e,

and superheated steam, all but exactly, the same form with

    c = (du/dv at constant pressure),    b = u'' - c v''.

Air is the second form with b = 0 and c = p / (k - 1). Each is kept as straight lines over cells
of `STEP`, so that the pressure follows from one division once the cell is known.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from ..trade.saturation import ATMOSPHERE, saturation
from ..trade.tables import rows

BAR = 1e5
STEP = 2000.0
"""Width of a cell, Pa."""
LOWEST, CELLS = 0.1 * BAR, 1095
"""The tables reach from 0.1 to 22 bar absolute: -0.91 to 20.98 on the gauge."""
ABSOLUTE_ZERO = -273.15
AIR_K, AIR_R = 1.4, 287.05
"""Air: ratio of specific heats; gas constant, J/(kg K), ISO 2533 (from memory)."""
DRY_K, WET_K = 1.3, (1.035, 0.1)
"""Exponents of flow: superheated steam (handbooks, from memory); wet steam, Zeuner's
1.035 + 0.1 x, from memory."""
SWELL = 0.1
"""Share of the volume over which the exponent goes from dry saturated to superheated."""

Wet = tuple[float, float, float, float, float, float, float, float, float]
Dry = tuple[float, float, float, float, float, float, float, float, float]


@dataclass(frozen=True, eq=False)
class Fluid:
    """Tables of one fluid.

    Parameters
    ----------
    wet : for each cell (lower pressure, a, a', e, e', v'', v''', T, T'): values at that pressure
        and slopes against it; empty for a gas.
    dry : (lower pressure, b, b', c, c', v'', v''', T at saturation, T').
    bends : (first, its slope, second) coefficient of T over the volume beyond saturation, for
        each cell.
    """

    name: str
    wet: tuple[Wet, ...]
    dry: tuple[Dry, ...]
    bends: tuple[tuple[float, float, float], ...]


def flow_constants(k: float) -> tuple[float, float]:
    """Return greatest flow over area and root of pressure times density, and the critical ratio.

    Source: Saint-Venant and Wantzel, isentropic flow of a gas that keeps p v^k.
    """
    greatest = math.sqrt(k) * (2 / (k + 1)) ** ((k + 1) / (2 * (k - 1)))
    return greatest, (2 / (k + 1)) ** (k / (k - 1))


WATER = 0.0011
"""Volume of hot water, m3/kg, 0.00104 at 100 degC to 0.00117 at 200: taken as one number where
it stands beside that of steam."""
_DRYNESS = 64
WET_FLOW = tuple(flow_constants(WET_K[0] + WET_K[1] * i / _DRYNESS) for i in range(_DRYNESS + 1))
"""Flow constants of wet steam, by dryness in sixty-fourths."""
SWOLLEN_FLOW = tuple(
    flow_constants(sum(WET_K) + (DRY_K - sum(WET_K)) * i / _DRYNESS) for i in range(_DRYNESS + 1)
)
"""Flow constants of steam by its volume beyond saturation, in sixty-fourths of `SWELL`."""
AIR_FLOW = flow_constants(AIR_K)


def _grid() -> list[float]:
    return [LOWEST + i * STEP for i in range(CELLS + 1)]


def _slopes(values: list[float]) -> list[float]:
    return [(b - a) / STEP for a, b in pairwise(values)]


def _cells(grid: list[float], *columns: list[float]) -> tuple[Wet, ...]:
    """Return cells of values and slopes of four columns."""
    one, two, three, four = columns
    made = zip(
        grid[:-1], one, _slopes(one), two, _slopes(two), three, _slopes(three), four, _slopes(four),
        strict=False,
    )  # fmt: skip
    return tuple(made)


def _log_linear(name: str, pressures: list[float]) -> list[float]:
    """Return a column of the table of superheat at pressures, straight between logarithms."""
    table = rows("superheat")
    at = [math.log(float(row["absolute_bar"])) for row in table]
    values = [math.log(float(row[name])) for row in table]
    made, i = [], 0
    for pressure in pressures:
        where = math.log(pressure / BAR)
        while i < len(at) - 2 and where > at[i + 1]:
            i += 1
        part = (where - at[i]) / (at[i + 1] - at[i])
        made.append(math.exp(values[i] + part * (values[i + 1] - values[i])))
    return made


@lru_cache(maxsize=1)
def steam() -> Fluid:
    """Return steam.

    Source: IAPWS R7-97(2012) through `trade/data/saturation.csv` and `superheat.csv`.
    """
    grid = _grid()
    states = [saturation(p / BAR - ATMOSPHERE) for p in grid]
    small = [1 / one.water_density for one in states]
    large = [1 / one.density for one in states]
    water = [1e3 * one.water_heat - p * v for one, p, v in zip(states, grid, small, strict=True)]
    vapour = [1e3 * one.steam_heat - p * v for one, p, v in zip(states, grid, large, strict=True)]
    hot = [one.temperature - ABSOLUTE_ZERO for one in states]
    e = [(u2 - u1) / (v2 - v1) for u1, u2, v1, v2 in zip(water, vapour, small, large, strict=True)]
    a = [u - v * one for u, v, one in zip(water, small, e, strict=True)]
    c = [1e3 * one for one in _log_linear("energy_slope_kPa", grid)]
    b = [u - v * one for u, v, one in zip(vapour, large, c, strict=True)]
    first = _log_linear("temperature_slope_K_kg_m3", grid)
    second = _log_linear("temperature_bend_K_kg2_m6", grid)
    return Fluid(
        "steam", _cells(grid, a, e, large, hot), _cells(grid, b, c, large, hot),
        tuple(zip(first[:-1], _slopes(first), second[:-1], strict=True)),
    )  # fmt: skip


@lru_cache(maxsize=1)
def air() -> Fluid:
    """Return air as a perfect gas: two parts of energy and volume to one of pressure."""
    grid = _grid()
    none = [0.0 for _ in grid]
    c = [p / (AIR_K - 1) for p in grid]
    return Fluid(
        "air", (), _cells(grid, none, c, none, none),
        tuple((p / AIR_R, 1 / AIR_R, 0.0) for p in grid[:-1]),
    )  # fmt: skip


def state(
    fluid: Fluid, pressure: float, *, dryness: float = 1.0, superheat: float = 0.0
) -> tuple[float, float]:
    """Return volume, m3/kg, and inner energy, J/kg.

    Parameters
    ----------
    pressure : Pa absolute, within the table.
    dryness : of steam, part by weight.
    superheat : K over saturation; of air its absolute temperature.
    """
    i = min(max(int((pressure - LOWEST) / STEP), 0), CELLS - 1)
    p0, b, db, c, dc, large, dlarge, _, _ = fluid.dry[i]
    above = pressure - p0
    dry = large + dlarge * above
    if dryness < 1:
        _, a, da, e, de, *_ = fluid.wet[i]
        volume = dryness * dry + (1 - dryness) * WATER
        return volume, a + da * above + (e + de * above) * volume
    first, slope, second = fluid.bends[i]
    first += slope * above
    if second:
        beyond = (math.sqrt(first**2 + 4 * second * superheat) - first) / (2 * second)
    else:
        beyond = superheat / first
    volume = dry + beyond
    return volume, b + db * above + (c + dc * above) * volume
