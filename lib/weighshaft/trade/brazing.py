"""Solders and brazing alloys: melting ranges and the gaps that they run into."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from .tables import rows

ALLOYS = (
    "silver solder, 55 % silver", "silver solder, 45 % silver", "silver solder, 30 % silver",
    "copper-phosphorus, 5 % silver", "brazing brass, 60 % copper", "soft solder",
)  # fmt: skip
BRAZED = (
    "mild steel", "silver steel", "stainless steel", "brass", "bronze", "gunmetal", "copper",
    "cast iron",
)  # fmt: skip
"""Metals whose expansion to brazing heat is known."""


@dataclass(frozen=True)
class Alloy:
    """A solder.

    Parameters
    ----------
    solid, liquid : ends of its melting range, degC.
    gap : from and to between the two surfaces, mm, at the heat at which it runs.
    aim : gap that is aimed at: 1.5 to 3 thou for silver solder (source B3), else the middle.
    iron : whether it may be used on iron and steel.
    """

    name: str
    solid: float
    liquid: float
    gap: tuple[float, float]
    aim: float
    iron: bool
    source: str
    note: str


@cache
def _alloys() -> dict[str, Alloy]:
    return {
        row["name"]: Alloy(
            row["name"], float(row["solid_degC"]), float(row["liquid_degC"]),
            (float(row["gap_low_mm"]), float(row["gap_high_mm"])), float(row["aim_mm"]),
            row["iron"] == "yes",
            row["sources"], row["note"],
        )
        for row in rows("brazing")
    }  # fmt: skip


def alloy(name: str) -> Alloy:
    """Return a solder of `ALLOYS`."""
    return _alloys()[name]


@cache
def _hot() -> dict[str, float]:
    return {row["name"]: float(row["alpha_per_K"]) for row in rows("expansion_hot")}


def hot_expansion(name: str) -> float:
    """Return the mean expansion of a metal of `BRAZED` from room to brazing heat, per degree."""
    return _hot()[name]
