"""Drills that can be bought or are owned: sets, single ones, and drills in print."""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Collection, Iterator
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal

from ..measures import INCH
from .tables import rows
from .threads import Thread

Set = Literal["metric", "number", "letter", "fraction"]
SETS: tuple[Set, ...] = ("metric", "number", "letter", "fraction")
_LONGEST = 20
_SLACK = 1e-9  # mm; a drill of exactly the wanted size is "at or above" it


class NoDrill(ValueError):
    """No drill of the sets will do; the text says what there is."""


@dataclass(frozen=True)
class Drill:
    """One drill.

    Parameters
    ----------
    name : as it is asked for: "1.8 mm", "No. 50", "F", "5/32 in".
    set : the set it belongs to.
    diameter : mm.
    source : keys of the README beside the tables, or "common practice".
    """

    name: str
    set: Set
    diameter: float
    source: str


def _metric() -> Iterator[Drill]:
    # the steps in which jobber drills are usually sold, with the quarter millimetres
    hundredths = {
        *range(30, 300, 5), *range(300, 1401, 10), *range(325, 1400, 50), *range(1400, 2501, 50),
    }  # fmt: skip
    for size in sorted(hundredths):
        yield Drill(f"{size / 100:g} mm", "metric", size / 100, "common practice")


@cache
def _all() -> tuple[Drill, ...]:
    made = list(_metric())
    for row in rows("drills"):
        name = row["size"]
        series: Set = next(one for one in SETS if one == row["series"])
        spelt = {"number": f"No. {name[1:]}", "letter": name, "fraction": f"{name} in"}[series]
        made.append(Drill(spelt, series, float(row["diameter_in"]) * INCH, row["sources"]))
    return tuple(sorted(made, key=_order))


@lru_cache(maxsize=16)
def _of(sets: frozenset[str]) -> tuple[tuple[Drill, ...], tuple[float, ...]]:
    if not sets:
        raise NoDrill(f"Choose at least one set of drills: {', '.join(SETS)}.")
    chosen = [one for one in _all() if one.set in sets]
    # whatever is not the name of a set names a single drill, which a set may have already
    singles = {owned(name) for name in sets - set(SETS)} - set(chosen)
    chosen = sorted((*chosen, *singles), key=_order)
    return tuple(chosen), tuple(one.diameter for one in chosen)


def _order(one: Drill) -> tuple[float, int]:
    return one.diameter, SETS.index(one.set)


def owned(name: str) -> Drill:
    """Return a single drill: one of the sets, or any of 0.1 to 60 mm.

    Raises
    ------
    NoDrill : when the name is neither.
    """
    text = name[:_LONGEST]
    known = _by_name().get(_bare(text))
    if known is not None:
        return known
    size = re.fullmatch(r"(\d{1,2}(?:[.,]\d{1,6})?)\s*(?:mm)?", text.strip())
    diameter = float(size[1].replace(",", ".")) if size else 0.0
    if not 0.1 <= diameter <= 60:
        raise NoDrill(
            f"“{text}” is not a drill; try 1.8 mm, No. 50, F or 5/32 in. 0.1 to 60 mm would do."
        )
    return Drill(f"{diameter:g} mm", "metric", diameter, "the builder's own")


def drills(sets: Collection[str] = SETS) -> tuple[Drill, ...]:
    """Return the drills of the sets by rising diameter; where two are equal metric comes first.

    Parameters
    ----------
    sets : names of sets, and of single drills as `owned` takes them; so wherever sets are asked.
    """
    return _of(frozenset(sets))[0]


def at_or_above(diameter: float, sets: Collection[str] = SETS) -> Drill:
    """Return the smallest drill not below `diameter` (mm).

    Raises
    ------
    NoDrill : when the sets hold none that large, or no set is chosen.
    """
    chosen, sizes = _of(frozenset(sets))
    place = bisect_left(sizes, diameter - _SLACK)
    if place == len(chosen):
        largest = f"{chosen[-1].name} ({sizes[-1]:.2f} mm)"
        raise NoDrill(f"No drill of the sets reaches {diameter:.2f} mm; the largest is {largest}.")
    return chosen[place]


def at_or_below(diameter: float, sets: Collection[str] = SETS) -> Drill:
    """Return the largest drill not above `diameter` (mm).

    Raises
    ------
    NoDrill : when the sets hold none that small, or no set is chosen.
    """
    chosen, sizes = _of(frozenset(sets))
    place = bisect_right(sizes, diameter + _SLACK) - 1
    if place < 0:
        smallest = f"{chosen[0].name} ({sizes[0]:.2f} mm)"
        raise NoDrill(
            f"No drill of the sets is as small as {diameter:.2f} mm; the smallest is {smallest}."
        )
    return chosen[bisect_left(sizes, sizes[place])]


def nearest(diameter: float, sets: Collection[str] = SETS) -> Drill:
    """Return the drill nearest to `diameter` (mm); of two equally near the smaller.

    Raises
    ------
    NoDrill : when no set is chosen.
    """
    chosen, sizes = _of(frozenset(sets))
    if diameter <= sizes[0]:
        return chosen[0]
    if diameter >= sizes[-1]:
        return chosen[bisect_left(sizes, sizes[-1])]
    below, above = at_or_below(diameter, sets), at_or_above(diameter, sets)
    return below if diameter - below.diameter <= above.diameter - diameter else above


def drill(name: str) -> Drill:
    """Return the drill of a name such as "No. 50", "#50", "F", "5/32", "1.8 mm".

    Raises
    ------
    NoDrill : when there is none of that name.
    """
    found = _by_name().get(_bare(name))
    if found is None:
        raise NoDrill(f"“{name[:20]}” is not a drill; try 1.8 mm, No. 50, F or 5/32.")
    return found


def _bare(name: str) -> str:
    text = name.lower().replace("no.", "#").replace("number", "#").replace('"', "in")
    return "".join(text.split()).removesuffix("in")


@cache
def _by_name() -> dict[str, Drill]:
    return {_bare(one.name): one for one in _all()}


@dataclass(frozen=True)
class Printed:
    """A drill that a source prints for a thread.

    Parameters
    ----------
    purpose : "tap" or "clearance".
    name, diameter : of the drill, mm.
    fit : what the source says of the depth of thread or the fit.
    source, note : keys of the README; doubts about the figure.
    """

    purpose: str
    name: str
    diameter: float
    fit: str
    source: str
    note: str

    @property
    def suspect(self) -> bool:
        """Whether the table marks the figure as suspect."""
        return "suspect" in self.note


@cache
def _printed() -> dict[tuple[str, str], tuple[Printed, ...]]:
    made: dict[tuple[str, str], list[Printed]] = {}
    for row in rows("tapping_drills"):
        one = Printed(
            row["purpose"], row["drill"], float(row["drill_mm"]),
            row["stated_fit_or_engagement"], row["sources"], row["note"],
        )  # fmt: skip
        made.setdefault((row["series"], row["designation"]), []).append(one)
    return {key: tuple(value) for key, value in made.items()}


_TABLE_SERIES = {
    "ME40": ("ME", "BSB26"), "ME32": ("ME", "BSB26"), "BSB26": ("BSB26", "ME"),
    "UNC": ("UN",), "UNF": ("UN",), "UNEF": ("UN",), "ISO": ("M",), "ISO fine": ("M",),
}  # fmt: skip


def printed(one: Thread, purpose: Literal["tap", "clearance"]) -> tuple[Printed, ...]:
    """Return the drills that sources print for a thread, in the order of the table."""
    names = [one.designation.replace(" × ", "x" if one.series.startswith("ISO") else " x ")]
    names += [names[0].removesuffix(f" {one.series}")]
    if purpose == "clearance":
        names += [one.size]  # a clearance hole is the same whatever the pitch
    found: list[Printed] = []
    for series in _TABLE_SERIES.get(one.series, (one.series,)):
        for name in dict.fromkeys(names):
            found += [p for p in _printed().get((series, name), ()) if p.purpose == purpose]
    return tuple(found)
