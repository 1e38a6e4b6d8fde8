"""Screws whose hexagon suits the scale: the prototype's hexagon brought down to size."""

from __future__ import annotations

from dataclasses import dataclass
from functools import lru_cache

from ..trade.hexagons import PrototypeNut, hexagon, prototype_nuts, smaller_hexagon
from ..trade.threads import Thread
from .proposals import for_screws


@dataclass(frozen=True)
class ScaleScrew:
    """What stands for a bolt of the prototype.

    Parameters
    ----------
    bolt : of the prototype; `prototype` its hexagon and `wanted` that at scale, mm.
    full, small : nearest screw with its own hexagon, and with the hexagon one size smaller.
    full_hexagon, small_hexagon : their hexagons, mm.
    """

    bolt: str
    prototype: float
    wanted: float
    full: Thread
    full_hexagon: float
    small: Thread | None
    small_hexagon: float | None


@lru_cache(maxsize=64)
def screws_to_scale(
    ratio: float, preferred: str, own: float | None = None
) -> tuple[ScaleScrew, ...]:
    """Return the screws that suit a scale, for the usual bolts or for one hexagon.

    Parameters
    ----------
    ratio : prototype over model.
    preferred : threads that the builder prefers.
    own : across flats of the prototype's hexagon, full size in mm; None for the usual ones.
    """
    nuts = prototype_nuts()
    if own is not None:
        nuts = (PrototypeNut("the prototype's", own, "given"), *nuts)
    return tuple(_screw(nut, ratio, preferred) for nut in nuts)


def _screw(nut: PrototypeNut, ratio: float, preferred: str) -> ScaleScrew:
    wanted = nut.across_flats / ratio
    screws = for_screws(preferred)
    full = min(screws, key=lambda one: abs(hexagon(one).across_flats - wanted))
    smaller = [(one, found.across_flats) for one in screws if (found := smaller_hexagon(one))]
    small, flats = min(smaller, key=lambda pair: abs(pair[1] - wanted), default=(None, None))
    return ScaleScrew(
        nut.bolt, nut.across_flats, wanted, full, hexagon(full).across_flats, small, flats
    )
