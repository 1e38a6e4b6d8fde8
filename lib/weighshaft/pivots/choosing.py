"""From the places that a search ends at to one gear: spared, rounded and proved."""

from __future__ import annotations

import math

import numpy as np

from ..motion import AnyGear, MotionLocks, events_over
from ..motion.frame import Array
from ..motion.kernel import prove
from ..sizes import SizeError, sizes_of
from .fields import FOLLOWERS, value_now
from .objective import judged
from .problem import Problem
from .results import Moved, Score, scored

SPARED = 0.03
"""Share of the gain that is given up for leaving sizes where they are (common practice)."""
_ROUNDINGS = 96


def chosen(
    problem: Problem, places: list[Array], present: Score, seed: int
) -> tuple[Score, AnyGear]:
    """Return the best gear that holds on the linkage itself, in sizes to hundredths.

    What locks or jumps between the crank angles that were tried gives way to the next; where
    nothing is better than the present gear, that is returned.

    Parameters
    ----------
    places : (n,) each, the best first.
    """
    limit = present.total if present.sound else math.inf
    rng = np.random.default_rng(seed)
    ranked = [
        (total, i, gear)
        for i, place in enumerate(places)
        for total, gear in rounded(problem, spared(problem, place, limit), rng)
    ]
    for total, _, gear in sorted(ranked, key=lambda one: one[:2]):
        if not total < limit:
            break
        if holds(problem, gear):
            return scored(problem, gear), gear
    return present, problem.gear


def spared(problem: Problem, place: Array, limit: float) -> Array:
    """Return a place with every size back where it is now whose move brings next to nothing.

    One after another that which costs least, as long as a small share of the gain pays for
    all of them.
    """
    now, best = problem.place(problem.gear), np.array(place)
    total = float(judged(problem, problem.candidates(best[None]), polished=True).total[0])
    gain = min(limit, 1e3) - total
    allowed = total + SPARED * max(gain, 0.0)
    while True:
        away = np.flatnonzero(np.abs(best - now) > 1e-9)
        if not len(away):
            return best
        tries = np.tile(best, (len(away), 1))
        tries[np.arange(len(away)), away] = now[away]
        totals = judged(problem, problem.candidates(tries), len(tries), polished=True).total
        least = int(totals.argmin())
        if totals[least] > allowed:
            return best
        best = tries[least]


def rounded(
    problem: Problem, place: Array, rng: np.random.Generator
) -> list[tuple[float, AnyGear]]:
    """Return the best gear in hundredths near a place, with its total; none where all refuse.

    Where a limit is close the nearest hundredths may break it, so others are tried as well.
    """
    width = np.array([one.high - one.low for one in problem.rooms])
    stays = np.abs(place - problem.place(problem.gear)) < 1e-9
    shift = rng.uniform(-1, 1, (_ROUNDINGS, len(place))) * np.linspace(0, 0.02, _ROUNDINGS)[:, None]
    tries = np.clip(place + np.where(stays, 0.0, shift / width), 0.0, 1.0)
    gears: dict[AnyGear, None] = {}
    for one in tries:
        try:
            gears[problem.one(one)] = None
        except SizeError:
            continue
    if not gears:
        return []
    fields = {one.field for one in problem.rooms} | (set(FOLLOWERS) if problem.follows else set())
    several = list(gears)
    many = problem.rows(
        {name: np.array([value_now(gear, name) for gear in several]) for name in fields}
    )
    totals = judged(problem, many, len(several), polished=True).total
    best = int(totals.argmin())
    return [(float(totals[best]), several[best])]


def holds(problem: Problem, gear: AnyGear) -> bool:
    """Return whether a gear turns without a jump and has its events on the linkage itself."""
    try:
        prove(problem.crank, gear, [*problem.notches, problem.setting.reverser])
        events_over(problem.crank, problem.valve, gear, problem.notches, setting=problem.setting)
    except (MotionLocks, SizeError):
        return False
    return True


def moved_sizes(problem: Problem, found: AnyGear) -> tuple[Moved, ...]:
    """Return what differs from the present gear, with what each move is worth."""
    changed = [one for one in problem.rooms if value_now(found, one.field) != one.now]
    made = []
    for one, without in zip(changed, _without_each(problem, found), strict=True):
        after = float(getattr(found, one.field))
        near = 0.002 * (one.high - one.low) + 0.005
        ends = after - one.low < near or one.high - after < near
        made.append(Moved(one.field, one.label, one.unit, one.now, after, ends, without))
    if problem.follows:
        about = sizes_of(type(found))
        for name in FOLLOWERS:
            before, after = (float(getattr(gear, name)) for gear in (problem.gear, found))
            if before != after:
                label, unit = about[name].label, about[name].unit
                made.append(Moved(name, label, unit, before, after, False, None, follows=True))
    return tuple(made)


def _without_each(problem: Problem, found: AnyGear) -> list[float]:
    """Return the score with each size that moved left as it was, the others as in `found`."""
    place, now = problem.place(found), problem.place(problem.gear)
    away = [i for i, one in enumerate(problem.rooms) if value_now(found, one.field) != one.now]
    if not away:
        return []
    tries = np.tile(place, (len(away), 1))
    tries[np.arange(len(away)), away] = now[away]
    result = judged(problem, problem.candidates(tries), len(tries), polished=True)
    return [float(one) for one in np.where(result.sound, result.score, math.inf)]
