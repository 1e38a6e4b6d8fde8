"""Densities of what a small locomotive is made of and carries."""

from __future__ import annotations

from functools import cache

from .tables import rows

DENSITIES = (
    "mild steel", "silver steel", "stainless steel", "brass", "bronze", "gunmetal", "copper",
    "cast iron", "aluminium", "lead", "water", "lagging", "coal",
)  # fmt: skip


@cache
def _densities() -> dict[str, float]:
    return {row["name"]: float(row["density_kg_m3"]) for row in rows("densities")}


def density(name: str) -> float:
    """Return the density of a material in kg/m3; KeyError when it is not one of `DENSITIES`."""
    return _densities()[name]
