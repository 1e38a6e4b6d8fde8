"""The map: score and cut-off inequality over two sizes."""

from __future__ import annotations

from concurrent.futures import Executor

import numpy as np

from ..motion import AnyGear, Crank, SlideValve, ValveSetting, Wanted
from ..motion.frame import Array
from ..sizes import SizeError
from .blocks import BLOCK, Stop
from .decisions import Pivots
from .fields import FOLLOWERS, Room, room, value_now, with_sizes
from .objective import judged
from .problem import Clear, Problem, posed
from .results import PivotMap

POINTS = 41


def pivot_map(
    pivots: Pivots,
    x: str,
    y: str,
    *,
    gear: AnyGear,
    crank: Crank,
    valve: SlideValve,
    setting: ValveSetting,
    wanted: Wanted,
    fixed: frozenset[str] = frozenset(),
    clear: Clear | None = None,
    best: AnyGear | None = None,
    points: int = POINTS,
    tolerance: float = 0.1,
    angle_tolerance: float = 0.25,
    executor: Executor | None = None,
    stop: Stop | None = None,
) -> PivotMap | None:
    """Judge the gear on a grid of two of its sizes.

    Parameters
    ----------
    x, y : fields of the gear.
    best : where given, the other sizes stand as in this gear, and its place is marked.
    points : along either axis.
    tolerance, angle_tolerance : what the workshop may be off, mm and degrees.

    Returns
    -------
    The map, or None where it was stopped.

    Raises
    ------
    SizeError : when the gear has no such size, or both are the same.
    """
    problem = posed(
        pivots, gear=gear, crank=crank, valve=valve, setting=setting, wanted=wanted, fixed=fixed,
        clear=clear,
    )  # fmt: skip
    across, up = (_room(problem, field, best) for field in (x, y))
    if x == y:
        raise SizeError(f"A map needs two sizes; {across.label} stands on both axes.", "lengths")
    xs, ys = (np.linspace(one.low, one.high, points) for one in (across, up))
    grid = np.stack([axis.ravel() for axis in np.meshgrid(xs, ys)], axis=-1)
    base = gear if best is None else best
    blocks = [grid[i : i + BLOCK] for i in range(0, len(grid), BLOCK)]
    jobs = [(problem, base, (x, y), block) for block in blocks]
    answers = []
    if executor is None:
        for job in jobs:
            if stop is not None and stop():
                return None
            answers.append(at_places(*job))
    else:
        waiting = [executor.submit(at_places, *job) for job in jobs]
        for one in waiting:
            if stop is not None and stop():
                for other in waiting:
                    other.cancel()
                return None
            answers.append(one.result())
    score, apart, passed = (np.concatenate([a[i] for a in answers]) for i in range(3))
    shape = (points, points)
    return PivotMap(
        across, up, xs, ys, score.reshape(shape), apart.reshape(shape),
        passed.reshape(shape), (across.now, up.now),
        None if best is None else (value_now(best, x) or 0.0, value_now(best, y) or 0.0),
        (_error(across, tolerance, angle_tolerance), _error(up, tolerance, angle_tolerance)),
        best is not None,
    )  # fmt: skip


def _error(one: Room, tolerance: float, angle_tolerance: float) -> float:
    return tolerance if one.unit == "mm" else angle_tolerance


def _room(problem: Problem, field: str, best: AnyGear | None) -> Room:
    """Return the room over which a size is mapped: that of the search, or as is usual."""
    known = [one for one in problem.rooms if one.field == field]
    found = known[0] if known else room(problem.gear, field, None, None)
    if found is None:
        raise SizeError(f"{problem.gear.title} has no size “{field}” to be mapped.", "lengths")
    if found.high - found.low < 1e-9:
        found = room(problem.gear, field, None, None) or found
    return found


def at_places(
    problem: Problem, base: AnyGear, fields: tuple[str, str], grid: Array
) -> tuple[Array, Array, Array]:
    """Return score, cut-offs apart and the nearest limit at places (k, 2) of two sizes."""
    moving = {name: grid[:, i] for i, name in enumerate(fields)}
    many = with_sizes(base, moving, follows=problem.follows and not set(fields) & set(FOLLOWERS))
    found = judged(problem, many, len(grid), polished=True)
    turns = np.broadcast_to(found.events.margin.min(axis=-1) > 0, (len(grid),))
    both = [np.nan_to_num(found.faults[f"cutoff_{way}"]) for way in ("forward", "backward")]
    apart = np.abs(np.stack(both)).max(axis=(0, 2))
    return (
        np.where(turns, found.score, np.nan),
        np.where(turns, apart, np.nan),
        found.passed,
    )
