"""How metals take up and pass on heat."""

from __future__ import annotations

import math
from functools import cache

from .densities import density
from .tables import rows

METALS = ("gunmetal", "bronze", "brass", "cast iron", "mild steel", "aluminium", "copper")


@cache
def _rows() -> dict[str, tuple[float, float]]:
    return {
        row["name"]: (float(row["specific_heat_J_kgK"]), float(row["conductivity_W_mK"]))
        for row in rows("warmth")
    }


def specific_heat(name: str) -> float:
    """Return the specific heat of a metal, J/(kg K); KeyError when it is not in `METALS`."""
    return _rows()[name][0]


def penetration(name: str) -> float:
    """Return root of density, specific heat and conductivity, J/(m2 K sqrt(s)).

    It says how much heat a surface takes up that is suddenly the colder.
    Source: conduction into a thick wall, as in any text on heat transfer.
    """
    heat, conductivity = _rows()[name]
    return math.sqrt(density(name) * heat * conductivity)
