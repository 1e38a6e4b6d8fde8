"""What annealed copper may be stressed to when hot, and how much heat a metal holds."""

from __future__ import annotations

from functools import cache
from itertools import pairwise

from .tables import rows

BASES = ("US", "UK")
SOURCES = {
    "US": "Copper Tube Handbook, table 3c (ASME B31), annealed",
    "UK": "UK Copper Board, FAQ 2, R220 annealed",
}


@cache
def _stress(basis: str) -> tuple[tuple[float, float], ...]:
    return tuple(
        (float(row["temperature_degC"]), float(row["stress_N_mm2"]))
        for row in rows("copper_stress")
        if row["basis"] == basis
    )


def hot_stress(basis: str, temperature: float) -> float | None:
    """Return the allowable stress of annealed copper, N/mm2; None outside the basis's table.

    Parameters
    ----------
    basis : of `BASES`.
    temperature : degC; between two rows of the table in a straight line, never beyond them.
    """
    table = _stress(basis)
    for (low, strong), (high, weak) in pairwise(table):
        if low <= temperature <= high:
            return strong + (weak - strong) * (temperature - low) / (high - low)
    return None


@cache
def _heats() -> dict[str, float]:
    return {row["name"]: float(row["J_kgK"]) for row in rows("specific_heats")}


def specific_heat(name: str) -> float:
    """Return the heat of 1 kg of a metal of `MATERIALS`, J/(kg K); from memory."""
    return _heats()[name]
