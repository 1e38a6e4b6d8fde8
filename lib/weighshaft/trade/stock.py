"""Sizes of bar and tube usually kept by suppliers; common practice, see the data's README."""

from __future__ import annotations

import csv
from bisect import bisect_left
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, lru_cache
from importlib.resources import files
from typing import Literal

from ..measures import INCH

Kind = Literal["bar", "tube"]


@dataclass(frozen=True)
class Stock:
    """One size of bar or tube: diameter in mm, its series and how it is asked for."""

    kind: str
    series: str
    diameter: float
    name: str


@dataclass(frozen=True)
class UsualPair:
    """A scale that builders usually run on a track: its name, spelling, track gauge in mm."""

    name: str
    scale: str
    track_gauge: float


def _rows(name: str) -> list[dict[str, str]]:
    text = (files(__package__) / "data" / name).read_text(encoding="utf-8")
    return list(csv.DictReader(text.splitlines()))


@cache
def stock_sizes(kind: Kind) -> tuple[Stock, ...]:
    """Return all sizes of round bar ("bar") or of tube by its outside ("tube"), rising."""
    sizes = []
    for row in _rows("stock.csv"):
        if row["kind"] != kind:
            continue
        for text in row["sizes"].split():
            inch = row["series"] == "inch"
            value = sum((Fraction(part) for part in text.split("-")), Fraction(0))
            name = f"{text.replace('-', ' ')} in" if inch else f"{text} mm"
            size = float(value) * INCH if inch else float(value)
            sizes.append(Stock(kind, row["series"], size, name))
    return tuple(sorted(sizes, key=lambda one: one.diameter))


def nearest_stock(diameter: float, kind: Kind = "bar") -> Stock | None:
    """Return the size nearest to a diameter in mm, or None beyond what is kept."""
    sizes = stock_sizes(kind)
    if not 0.9 * sizes[0].diameter <= diameter <= 1.05 * sizes[-1].diameter:
        return None
    i = bisect_left([one.diameter for one in sizes], diameter)
    return min(sizes[max(i - 1, 0) : i + 1], key=lambda one: abs(one.diameter - diameter))


@lru_cache(maxsize=1)
def usual_pairs() -> tuple[UsualPair, ...]:
    """Return the usual pairs of scale and track, small ones first."""
    return tuple(
        UsualPair(row["name"], row["scale"], float(row["track_mm"]))
        for row in _rows("scale_pairs.csv")
    )
