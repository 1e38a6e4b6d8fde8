"""Drills for a thread: tapping drill for a depth of thread, clearance drill."""

from __future__ import annotations

import math
from collections.abc import Collection
from dataclasses import dataclass
from functools import lru_cache
from typing import Any

from ..trade.drills import Drill, NoDrill, at_or_above, at_or_below, nearest, printed
from ..trade.materials import MATERIALS, material
from ..trade.threads import Thread
from ..working import relation

_SHARP = math.sqrt(3) / 2  # height of the sharp 60° triangle in pitches
TAP_CHART, BASIC_HEIGHT, EXTERNAL_DEPTH = 1.5 * _SHARP, 1.25 * _SHARP, 17 / 12 * _SHARP

CONVENTIONS_60: dict[str, tuple[float, str]] = {
    "tap chart": (
        TAP_CHART,
        "1.299 p on diameter: tap charts; Machinery's Handbook, 31st ed., p. 2155",
    ),
    "basic height": (BASIC_HEIGHT, "1.083 p: basic height of the thread, ISO 68-1 (from memory)"),
    "external depth": (EXTERNAL_DEPTH, "1.227 p: depth of the male thread, 17/24 of the triangle"),
}
"""What 100 per cent is in pitches on diameter for a 60° thread, by convention, and whose it is."""

FULL_FORM = "full form"


def conventions(one: Thread) -> dict[str, tuple[float, str]]:
    """Return the conventions that apply to a thread: its factor of the pitch, and whose it is.

    Rounded threads have one only, the depth of the form on both sides.
    """
    if one.form == "60°":
        return CONVENTIONS_60
    if one.form == "BA":
        return {FULL_FORM: (1.2, "1.2 p on diameter: BS 93, BA form")}
    return {FULL_FORM: (2 * 0.640327, "1.2807 p on diameter: BS 84, Whitworth form")}


@relation(r"d_0", "geometry of the thread", major="d", pitch="p", factor="k", percent=r"\Delta")
def hole_for(major: Any, percent: Any, factor: Any, pitch: Any) -> Any:
    """Return the hole (mm) that leaves `percent` of the depth `factor` × pitch on diameter."""
    return major - percent / 100 * factor * pitch


@relation(r"\Delta", "geometry of the thread", major="d", pitch="p", factor="k", hole="d_0")
def depth_reached(major: Any, hole: Any, factor: Any, pitch: Any) -> Any:
    """Return the depth of thread (%) that a hole leaves, 100 being `factor` × pitch on diameter."""
    return 100 * (major - hole) / (factor * pitch)


@dataclass(frozen=True)
class Tapping:
    """A tapping drill and what it gives.

    Parameters
    ----------
    material : metal it is meant for.
    wanted : depth of thread asked for, % by `convention`.
    convention : how that is counted.
    hole : the hole that would give it exactly, mm.
    drill : the next real drill, at or above the hole.
    reached : (convention, %) for every convention that applies.
    tighter : the next drill below, None if there is none.
    tighter_reached : depth (%) that one would give, by `convention`.
    """

    material: str
    wanted: float
    convention: str
    hole: float
    drill: Drill
    reached: tuple[tuple[str, float], ...]
    tighter: Drill | None
    tighter_reached: float | None

    @property
    def depth(self) -> float:
        """Depth reached (%) by the convention in which it was asked for."""
        return dict(self.reached)[self.convention]


def usual_depth(one: Thread, metal: str, convention: str) -> float:
    """Return the depth (%) that is usual for a metal, counted by a convention.

    Parameters
    ----------
    one : thread.
    metal : one of the materials.
    convention : name of the convention; rounded threads take the figure as it stands.
    """
    usual = material(metal).depth
    if one.form != "60°":
        return usual
    return min(100.0, usual * TAP_CHART / CONVENTIONS_60[convention][0])


@lru_cache(maxsize=4096)
def tapping_drill(
    one: Thread, metal: str, depth: float | None, convention: str, sets: tuple[str, ...]
) -> Tapping:
    """Return the tapping drill: the next real drill at or above the hole for a depth of thread.

    Parameters
    ----------
    one : thread.
    metal : metal to be tapped.
    depth : depth wanted in %, None for what is usual for the metal.
    convention : how the depth is counted for a 60° thread.
    sets : sets of drills that are there.

    Raises
    ------
    NoDrill : when no drill of the sets is left below the major diameter.
    """
    known = conventions(one)
    convention = convention if convention in known else FULL_FORM
    wanted = usual_depth(one, metal, convention) if depth is None else depth
    hole = hole_for(one.major, wanted, known[convention][0], one.pitch)
    found = at_or_above(hole, sets)
    if found.diameter >= one.major:
        raise NoDrill(f"No drill of the sets lies between {hole:.2f} mm and the {one.designation}.")
    reached = tuple(
        (name, depth_reached(one.major, found.diameter, factor, one.pitch))
        for name, (factor, _) in known.items()
    )
    try:
        tighter = at_or_below(hole - 1e-6, sets)
    except NoDrill:
        tighter = None
    tighter_reached = (
        depth_reached(one.major, tighter.diameter, known[convention][0], one.pitch)
        if tighter
        else None
    )
    return Tapping(metal, wanted, convention, hole, found, reached, tighter, tighter_reached)


@lru_cache(maxsize=1024)
def tapping_drills(
    one: Thread, depth: float | None, convention: str, sets: tuple[str, ...]
) -> tuple[Tapping, ...]:
    """Return the tapping drill of a thread in every metal for which there is one."""
    found = []
    for metal in MATERIALS:
        try:
            found.append(tapping_drill(one, metal, depth, convention, sets))
        except NoDrill:
            continue
    return tuple(found)


def clearance_drills(one: Thread, sets: Collection[str]) -> tuple[Drill, Drill, str]:
    """Return the close and the free clearance drill of a thread, and whose rule it is.

    Metric threads take ISO 273 and Unified ones the table in print. Others: close is the next
    drill that is not below the major diameter (a cut screw is a little under it, and a drill
    cuts a little over), free is the next with 3 per cent and 0.03 mm to spare.

    Raises
    ------
    NoDrill : when the sets hold no drill that large.
    """
    fits = {one.fit: one.diameter for one in printed(one, "clearance")}
    for close, free, whose in _FITS:
        if close in fits and free in fits:
            # the tables print three places, which may lie a hair above the drill itself
            return (
                at_or_above(fits[close] - 0.001, sets),
                at_or_above(fits[free] - 0.001, sets),
                whose,
            )
    return (
        at_or_above(one.major, sets),
        at_or_above(1.03 * one.major + 0.03, sets),
        "common practice",
    )


_FITS = (
    ("ISO 273 close fit", "ISO 273 medium fit", "ISO 273, close and medium"),
    ("close fit", "free fit", "table S12, close and free"),
)


def stock_hole(diameter: float, sets: Collection[str]) -> float:
    """Return the drill size (mm) nearest to a diameter."""
    return nearest(diameter, sets).diameter
