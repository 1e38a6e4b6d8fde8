"""Hexagons and nuts: across flats and thickness for a thread, and full-size bolts."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from ..measures import INCH, to_step
from .tables import rows
from .threads import Thread, thread

_BAR = INCH / 32  # hexagon bar is sold in steps of 1/32 in up to half an inch


@dataclass(frozen=True)
class Hexagon:
    """A hexagon for a thread.

    Parameters
    ----------
    across_flats : mm.
    what : the bolt or nut it belongs to, or the rule it comes from.
    source : standard, or "common practice".
    """

    across_flats: float
    what: str
    source: str


@cache
def _table() -> dict[tuple[str, str], list[dict[str, str]]]:
    table: dict[tuple[str, str], list[dict[str, str]]] = {}
    for row in rows("hexagons"):
        table.setdefault((row["series"], row["size"]), []).append(row)
    return table


@cache
def _practice() -> dict[str, Hexagon]:
    return {
        row["thread"].replace(" x ", " × "): Hexagon(
            float(row["across_flats_in"]) * INCH, "as builders use", row["sources"]
        )
        for row in rows("hexagons_practice")
    }


def _keys(one: Thread) -> tuple[tuple[str, str], ...]:
    """Return the rows that may hold the hexagon of a thread, the likeliest first."""
    if one.series == "BA":
        return (("BA", one.designation),)
    if one.series.startswith("ISO"):
        return (("ISO", one.size),)
    if one.series in ("UNC", "UNF", "UNEF"):
        return (("UN", one.size),)
    if one.series == "G":
        return ()
    return ((one.series, one.designation), ("BSW/BSF", one.size))


def _millimetres(row: dict[str, str]) -> float:
    return float(row["value_in"]) * INCH if row["value_in"] else float(row["value_mm"])


@cache
def hexagon(one: Thread) -> Hexagon:
    """Return the usual hexagon for a thread.

    Practice of builders comes first where it is known, then the standard of the series. Where
    neither says, the hexagon is the major diameter and an eighth of an inch, to the nearest
    1/32 in, which is what the known ones come to (for metric and BA 1¾ times the diameter).
    """
    if one.designation in _practice():
        return _practice()[one.designation]
    if one.series in ("BSW", "BSF", "BA", "ISO", "ISO fine", "UNC", "UNF", "UNEF"):
        for key in _keys(one):
            for row in _table().get(key, ()):
                if "smaller" not in row["item"] and not row["dimension"].endswith("min"):
                    standard = row["item"].replace("bolt and nut ", "")
                    return Hexagon(_millimetres(row), f"{key[1]}, {standard}", row["sources"])
    if one.series == "BA" or one.series.startswith("ISO"):
        return Hexagon(1.75 * one.major, "1¾ times the diameter", "common practice")
    flats = to_step(one.major + INCH / 8, _BAR)
    return Hexagon(flats, "diameter and 1/8 in, to 1/32 in", "common practice")


@cache
def smaller_hexagon(one: Thread) -> Hexagon | None:
    """Return the hexagon one size smaller, as used for looks at scale; None if not known."""
    for key in _keys(one):
        for row in _table().get(key, ()):
            if "smaller" in row["item"]:
                return Hexagon(_millimetres(row), "one size smaller", row["sources"])
    if one.series == "BA" and int(one.size) < 16:
        flats = hexagon(thread(f"{int(one.size) + 1}BA"))
        return Hexagon(flats.across_flats, "one size smaller", flats.source)
    return None


@cache
def nut_thickness(one: Thread) -> tuple[float, str]:
    """Return the thickness of a full nut (mm) and the standard, or the rule, it comes from."""
    if one.series in ("ISO", "ISO fine", "BSW", "BSF"):
        wanted = "ISO" if one.series.startswith("ISO") else "BSW/BSF"
        for row in rows("nuts"):
            if row["series"] == wanted and row["size"] == one.size:
                standard = "ISO 4032" if wanted == "ISO" else "BS 1083"
                return float(row["thickness_mm"]), standard
    return 0.8 * one.major, "0.8 of the diameter, common practice"


@dataclass(frozen=True)
class PrototypeNut:
    """The hexagon of a full-size bolt: its name, across flats in mm, source."""

    bolt: str
    across_flats: float
    source: str


@cache
def prototype_nuts() -> tuple[PrototypeNut, ...]:
    """Return hexagons of full-size bolts, in the order of the table."""
    return tuple(
        PrototypeNut(row["bolt"], float(row["across_flats_mm"]), row["sources"])
        for row in rows("prototype_nuts")
    )
