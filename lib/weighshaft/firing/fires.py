"""How much of a fire's heat gets into the water, by type and by how hard it is forced.

Ranges, since no published measurement of a small copper boiler was found: trials of small
coal-fired boilers in Vienna 1884 (1 to 13 horsepower) evaporated 4.2 to 6.4 kg of water with a
kilogram of coal, 0.36 to 0.56 of its heat at 30 MJ/kg; the Great Western's trials of 1848 show
0.60 to 0.78 at half the loading of a model.  Gas and spirit: common practice.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from . import relations
from .decisions import SMITHIES

VIENNA = "trials of small engines, Vienna 1884, Dingler's Polytechnisches Journal 255, p. 393"


@dataclass(frozen=True)
class Efficiency:
    """Share of the fire's heat that gets into the water.

    Parameters
    ----------
    low, usual, high : the range; `usual` at the loading `loading`.
    loading : heat of the fire for the heating surface, kW/m2; as usual for the type.
    fixed : whether the builder has given it, so that forcing does not change it.
    source : whence.
    """

    low: float
    usual: float
    high: float
    loading: float
    source: str
    fixed: bool = False

    def at(self, loading: float) -> float:
        """Return the efficiency at a loading, kW/m2.

        Source: it falls with the root of the loading (fit of 1848), within the range.
        """
        if self.fixed or loading <= 0:
            return self.usual
        return min(max(float(relations.forced(self.usual, self.loading, loading)), self.low),
                   self.high)  # fmt: skip

    def range_at(self, loading: float) -> tuple[float, float, float]:
        """Return lowest, usual and highest at a loading, kW/m2."""
        usual = self.at(loading)
        return usual * self.low / self.usual, usual, min(usual * self.high / self.usual, 0.95)


COMMON = "common practice; no published measurement found"
USUAL: dict[tuple[str, str], Efficiency] = {
    ("pot", ""): Efficiency(0.22, 0.32, 0.42, 70.0, COMMON),
    (SMITHIES, ""): Efficiency(0.32, 0.42, 0.55, 50.0, COMMON),
    ("centre flue", ""): Efficiency(0.38, 0.50, 0.62, 70.0, COMMON),
    ("locomotive type", "coal"): Efficiency(
        0.40, 0.55, 0.68, 100.0, f"{relations.GWR}; {VIENNA}; models common practice"
    ),
    ("locomotive type", ""): Efficiency(0.40, 0.50, 0.65, 70.0, COMMON),
    ("vertical", "coal"): Efficiency(0.33, 0.45, 0.56, 90.0, VIENNA),
    ("vertical", ""): Efficiency(0.33, 0.45, 0.56, 60.0, COMMON),
}
"""By type and fuel; an empty fuel is any other."""


def efficiency_of(pattern: str, fuel: str, given: float | None) -> Efficiency:
    """Return the range for a type, or what the builder says with a tenth to each side.

    Parameters
    ----------
    pattern : type; `fuel` "coal", "gas" or "spirit".
    given : the builder's, or None.
    """
    usual = USUAL.get((pattern, fuel)) or USUAL.get((pattern, "")) or USUAL["centre flue", ""]
    if given is None:
        return usual
    return Efficiency(0.9 * given, given, min(1.1 * given, 0.95), usual.loading, "as given", True)


def heat_into_water(fire: float, surface: float, efficiency: Efficiency) -> float:
    """Return the heat that gets into the water, W.

    Parameters
    ----------
    fire : W of the fuel burnt.
    surface : heating surface, mm2.
    """
    if fire <= 0:
        return 0.0
    return fire * efficiency.at(loading_of(fire, surface))


def loading_of(fire: float, surface: float) -> float:
    """Return the heat of the fire for its surface, kW/m2."""
    return fire / 1000 / (surface * 1e-6)


MOST_FORCED, LEAST_FORCED = 1.5, 0.4


def fire_for(heat: float, surface: float, efficiency: Efficiency) -> float:
    """Return the fire that puts a heat into the water, W, within what suits the surface.

    Parameters
    ----------
    heat : into the water, W.
    surface : mm2.

    Source: `heat_into_water` the other way; from 0.4 to 1.5 of the usual loading.
    """
    area = surface * 1e-3  # kW/m2 times it is W
    if efficiency.fixed:
        wanted = heat / efficiency.usual
    else:
        wanted = (heat / area / efficiency.usual) ** 2 / efficiency.loading * area
        low, high = heat / efficiency.low, heat / efficiency.high
        wanted = min(max(wanted, high), low)
    usual = efficiency.loading * area
    return min(max(wanted, LEAST_FORCED * usual), MOST_FORCED * usual)


def drawn(draught: float, usual: float, gas: float) -> float:
    """Return the gas that a draught draws through the fire, in the unit of `gas`.

    Parameters
    ----------
    draught, usual : mm of water; `gas` is drawn by `usual`.

    Source: flow through a given resistance goes with the root of the pressure; so does the
    evaporation in J. Bourne, A Catechism of the Steam Engine, question 282.
    """
    return gas * math.sqrt(max(draught, 0.0) / usual)
