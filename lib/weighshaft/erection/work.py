"""The chapter worked."""

from __future__ import annotations

import math

from ..cylinders.axis import Axis
from ..findings import by_level, unlocked
from ..frames.whole import Whole
from ..working import Working
from . import relations
from .decisions import Erection
from .judgement import judge
from .order import ordered, tasks
from .results import ErectionResult, Removal, Screws
from .setting import reaches
from .spanners import rooms
from .ways import removals


def work(
    erection: Erection, *, whole: Whole, axis: Axis, inclination: float,
    screws: Screws | None = None, inside: bool = True, fixed: frozenset[str] = frozenset(),
) -> ErectionResult:  # fmt: skip
    """Work the chapter.

    Parameters
    ----------
    erection : the decisions.
    whole : the engine in its frames.
    axis : the parts along the cylinder.
    inclination : of the cylinder, degrees.
    screws : hexagons of covers and glands, None while the threads do not work.
    inside : whether the axleboxes stand between the wheels.
    fixed : paths of sizes that a bought part has settled; no button changes them.
    """
    ways = removals(whole, axis, inclination)
    spanners = () if screws is None else rooms(whole, erection, screws)
    reached = reaches(whole, erection)
    order = ordered(tasks(whole, inside))
    pistons = [one for one in ways if one.kind == "piston"]
    drops = [one.way.needed for one in ways if one.kind == "wheelset"]
    workings: list[Working] = []
    if screws is not None and spanners:
        workings.append(relations.screw_pitch.work(
            "Cover screws, from one to the next", "mm", c=screws.circle,
            n=float(screws.number)))  # fmt: skip
    if pistons:
        workings.append(relations.drawn.work(
            "Piston and rod, to be drawn", "mm", l=axis.rod_length, t=axis.piston,
            g=pistons[0].way.needed - axis.rod_length - axis.piston))  # fmt: skip
    return ErectionResult(
        wheelset_drop=max(drops, default=None),
        piston_room=_room(pistons[0]) if pistons else None,
        piston_needed=pistons[0].way.needed if pistons else None,
        boiler_lift=next((one.way.needed for one in ways if one.kind == "boiler"), None),
        spanner_spare=min((one.room - one.needed for one in spanners), default=None),
        blocked=sum(not one.way.open for one in ways),
        steps=len(order),
        whole=whole, removals=ways, spanners=spanners, reaches=reached, order=order,
        workings=tuple(workings),
        suggestions=(),
        findings=by_level(unlocked(judge(erection, whole, ways, spanners, reached), fixed)),
    )  # fmt: skip


def _room(one: Removal) -> float:
    """Return what is free ahead, as far as it is needed, mm."""
    return one.way.free if math.isfinite(one.way.free) else one.way.needed
