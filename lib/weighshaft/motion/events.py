"""Valve events: when each port opens and shuts, found on the real linkage.

Admission and cut-off bound the opening of the steam port of an end, release and
compression that to exhaust.  Each is given as a crank angle and as the distance of the
piston from that end's dead centre in per cent of the stroke.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import ArrayLike, NDArray

from ..sizes import SizeError, figure
from .frame import Array, Crank
from .kernel import Gear, prove, solve_motion
from .valves import SlideValve, ValveSetting, check_admission

ENDS = ("front", "back")
_TURN = np.linspace(0.0, 360.0, 240, endpoint=False)
_TINY = 1e-13
"""Openings below this are none, mm."""
_FINE = 1e-10
"""Crank angles are found to this, degrees."""


@dataclass(frozen=True, kw_only=True)
class Event:
    """One event: crank angle in [0, 360) and distance of the piston from the end, % of stroke."""

    angle: float = figure("Crank angle", "deg")
    percent: float = figure("Piston from that end", "%")


@dataclass(frozen=True, kw_only=True)
class EndEvents:
    """The events of one end of the cylinder; None where an event does not occur."""

    admission: Event | None
    cutoff: Event | None
    release: Event | None
    compression: Event | None
    lead: float = figure("Lead")
    port_opening: float = figure("Greatest opening to steam")
    steam_openings: int = figure("Openings to steam in a turn", "count")
    exhaust_openings: int = figure("Openings to exhaust in a turn", "count")


@dataclass(frozen=True, kw_only=True)
class ValveEvents:
    """The events of both ends in one position of the reverser.

    Parameters
    ----------
    setting : what was added to the valve's displacement to set it, mm.
    """

    reverser: float = figure("Reverser", "ratio")
    travel: float = figure("Valve travel")
    setting: float = figure("Setting")
    front: EndEvents
    back: EndEvents


def valve_events(
    crank: Crank,
    valve: SlideValve,
    gear: Gear,
    reverser: float,
    *,
    direction: int | None = None,
    setting: ValveSetting | None = None,
) -> ValveEvents:
    """Return the events of both ends at one position of the reverser.

    Parameters
    ----------
    reverser : +1 full forward to -1 full backward.
    direction : +1 or -1 to run the other way than the reverser says (drifting).
    setting : how the valve is set; for equal leads in full forward gear unless given.

    Raises
    ------
    MotionLocks : when the gear locks within the revolution.
    SizeError : when valve and gear do not agree on the edge that admits.
    """
    (events,) = events_over(crank, valve, gear, [reverser], direction=direction, setting=setting)
    return events


def events_over(
    crank: Crank,
    valve: SlideValve,
    gear: Gear,
    reversers: ArrayLike,
    *,
    direction: int | None = None,
    setting: ValveSetting | None = None,
    constant: float | None = None,
) -> tuple[ValveEvents, ...]:
    """Return the events at several positions of the reverser; see `valve_events`.

    Parameters
    ----------
    constant : displacement that sets the valve, instead of a rule: for a valve that was set
        in other circumstances, mm.
    """
    check_admission(valve, getattr(gear, "admission", valve.admission))
    if direction not in (None, 1, -1):
        raise ValueError("The direction of running is +1 (forward) or -1 (backward).")
    rows = np.atleast_1d(np.asarray(reversers, dtype=float))
    setting = setting or ValveSetting()
    prove(crank, gear, [*rows, setting.reverser])
    seen = [valve_as_seen(gear, valve, float(row)) for row in rows]
    if constant is None:
        constant = setting_constant(crank, valve, gear, setting)
    # a valve that acts as if moved the other way in backward gear was moved this way in metal
    constants = constant - valve.valve_offset + np.array([[one.valve_offset] for one in seen])
    motion = solve_motion(crank, gear, _TURN, rows)

    def displacement(theta: Array) -> Array:
        """Return xi after setting for angles (m, k), each row at its own reverser."""
        xi: Array = gear.pose(crank, theta, rows[:, None]).valve
        return np.broadcast_to(xi, theta.shape) + constants

    samples = np.broadcast_to(motion.valve, (len(rows), len(_TURN))) + constants
    running = np.where(rows >= 0, 1, -1) if direction is None else np.full(len(rows), direction)
    top_at, highest, low_at, lowest = _extremes(displacement, samples)
    # the extremes join the samples, so that the briefest opening is seen as well
    theta = np.hstack(
        [np.tile(_TURN, (len(rows), 1)), top_at[:, None] % 360, low_at[:, None] % 360]
    )
    order = theta.argsort(axis=1)
    theta = np.take_along_axis(theta, order, axis=1)
    samples = np.take_along_axis(
        np.hstack([samples, highest[:, None], lowest[:, None]]), order, axis=1
    )
    piston = piston_of(gear, crank)
    centres = np.array(piston.dead_centres)
    at_centres = displacement(np.tile(centres, (len(rows), 1)))
    signs, levels = (np.array(edges) for edges in zip(*map(_edges, seen), strict=True))
    roots, opens = _crossings(displacement, theta, samples, signs, levels)
    found = []
    for i in range(len(rows)):
        ends = []
        for number, end in enumerate(ENDS):
            steam, exhaust = number, number + 2
            edges = [
                _choose(
                    roots[i, edge],
                    opens[i, edge],
                    int(running[i]),
                    float(centre),
                    bool((signs[i, edge] * samples[i] <= levels[i, edge]).all()),
                )
                for edge, centre in ((steam, centres[number]), (exhaust, centres[1 - number]))
            ]
            angles = (*edges[0][:2], *edges[1][:2])
            admission, cutoff, release, compression = (
                _event(piston, end, angle, int(running[i]), before=n == 0)
                for n, angle in enumerate(angles)
            )
            furthest = max(signs[i, steam] * highest[i], signs[i, steam] * lowest[i])
            ends.append(
                EndEvents(
                    admission=admission,
                    cutoff=cutoff,
                    release=release,
                    compression=compression,
                    lead=float(seen[i].steam_opening(end, at_centres[i, number])),
                    port_opening=float(furthest - levels[i, steam]),
                    steam_openings=edges[0][2],
                    exhaust_openings=edges[1][2],
                )
            )
        found.append(
            ValveEvents(
                reverser=float(rows[i]),
                travel=float(highest[i] - lowest[i]),
                setting=float(constants[i, 0]),
                front=ends[0],
                back=ends[1],
            )
        )
    return tuple(found)


def valve_as_seen(gear: Gear, valve: SlideValve, reverser: float) -> SlideValve:
    """Return the valve as the ports see it there: a gear may exchange steam and exhaust."""
    seen = getattr(gear, "seen", None)
    return valve if seen is None else seen(valve, reverser)


def piston_of(gear: Gear, crank: Crank) -> Crank:
    """Return what moves the piston: the crank, unless the cylinder itself swings."""
    own = getattr(gear, "piston_of", None)
    return crank if own is None else own(crank)


def _edges(valve: SlideValve) -> tuple[Array, Array]:
    """Return sign and level of the four working edges: one is open where sign * xi > level.

    In order: steam front, steam back, exhaust front, exhaust back.
    """
    signs = valve.sense * np.array([-1.0, 1.0, 1.0, -1.0])
    levels = np.array([valve.steam_lap, valve.steam_lap, valve.exhaust_lap, valve.exhaust_lap])
    return signs, levels


def setting_constant(crank: Crank, valve: SlideValve, gear: Gear, setting: ValveSetting) -> float:
    """Return what sets the valve: added to the gear's displacement, mm.

    For equal leads it is minus the mean of the displacements at the two dead centres.  For
    equal cut-offs it is found on the linkage; `valve_offset` is added to either.
    """
    row = np.array([[setting.reverser]])
    at_centres = gear.pose(crank, np.array([piston_of(gear, crank).dead_centres]), row).valve
    level = -float(np.mean(at_centres))
    if setting.rule == "equal leads":
        return level + valve.valve_offset
    return _equal_cutoffs(crank, valve, gear, setting, level) + valve.valve_offset


def _equal_cutoffs(
    crank: Crank, valve: SlideValve, gear: Gear, setting: ValveSetting, start: float
) -> float:
    """Return the setting at which both ends cut off alike, by the secant rule."""
    bare = replace(valve, valve_offset=0.0)

    def difference(moved: float) -> float | None:
        shifted = replace(bare, valve_offset=moved)
        leads = ValveSetting(rule="equal leads", reverser=setting.reverser)
        events = valve_events(crank, shifted, gear, setting.reverser, setting=leads)
        if events.front.cutoff is None or events.back.cutoff is None:
            return None
        return events.front.cutoff.percent - events.back.cutoff.percent

    before, now = 0.0, 1e-3 * max(abs(valve.steam_lap), 0.1)
    f0, f1 = difference(before), difference(now)
    for _ in range(40):
        if f0 is None or f1 is None or f1 == f0:
            break
        before, now, f0 = now, now - f1 * (now - before) / (f1 - f0), f1
        f1 = difference(now)
        if f1 is not None and abs(f1) < 1e-9:
            return start + now
    raise SizeError(
        f"The valve cannot be set for equal cut-offs at {setting.reverser:+.2f} of the reverser: "
        "an end does not cut off there; a notch nearer full gear would do.",
        "setting.reverser",
    )


def _extremes(
    displacement: Callable[[Array], Array], samples: Array
) -> tuple[Array, Array, Array, Array]:
    """Return angle and value of the greatest and of the least displacement, each (m,)."""
    rows, sign = np.arange(len(samples))[:, None], np.array([1.0, -1.0])
    first = np.stack([samples.argmax(axis=1), samples.argmin(axis=1)], axis=1)
    angle, best, step = _TURN[first], sign * samples[rows, first], _TURN[1] - _TURN[0]
    spread = np.array([-1.0, -0.5, 0.0, 0.5, 1.0])
    for _ in range(3):
        near = angle[:, :, None] + step * spread  # (m, 2, 5)
        values = displacement(near.reshape(len(near), -1)).reshape(near.shape)
        values = values * sign[:, None]
        # the vertex of the parabola through the outer and the middle point
        left, middle, right = values[..., 0], values[..., 2], values[..., 4]
        bend = left - 2 * middle + right
        with np.errstate(divide="ignore", invalid="ignore"):
            shift = np.where(bend < 0, 0.5 * (left - right) / bend, 0.0)
        closest = values.argmax(axis=2)[..., None]
        found = np.take_along_axis(values, closest, axis=2)[..., 0]
        there = np.take_along_axis(near, closest, axis=2)[..., 0]
        angle = np.where(np.abs(shift) < 1, angle + step * shift, there)
        best, step = np.maximum(best, found), step / 8
    best = sign * np.maximum(best, sign * displacement(angle))
    return angle[:, 0], best[:, 0], angle[:, 1], best[:, 1]


def _crossings(
    displacement: Callable[[Array], Array],
    theta: Array,
    samples: Array,
    signs: Array,
    levels: Array,
) -> tuple[Array, NDArray[np.bool_]]:
    """Return where each edge opens and shuts: angles (m, 4, k), NaN where unused, and which open.

    All crossings of all edges are closed in upon together by false position; the Illinois
    rule keeps each bracketed.
    """
    signs, levels = signs[..., None], levels[..., None]  # (m, 4, 1)
    shut = signs * samples[:, None, :] <= levels  # (m, 4, n)
    change = shut != np.roll(shut, -1, axis=2)
    counts = change.sum(axis=2)
    most = max(int(counts.max()), 1)
    row, edge, column = np.nonzero(change)
    slot = np.concatenate([np.arange(n) for n in counts.ravel()] or [column])
    place = (row, edge, slot)
    a, b = np.zeros((2, *counts.shape, most))
    used, opens = np.zeros((2, *counts.shape, most), dtype=bool)
    following = (column + 1) % theta.shape[1]
    a[place], used[place], opens[place] = theta[row, column], True, shut[row, edge, column]
    b[place] = theta[row, following] + np.where(following == 0, 360.0, 0.0)

    def opening(at: Array) -> Array:
        flat = displacement(at.reshape(len(at), -1)).reshape(at.shape)
        return np.where(used, signs * flat - levels, 0.0)

    fa, fb = opening(a), opening(b)
    for _ in range(30):
        with np.errstate(divide="ignore", invalid="ignore"):
            c = b - fb * (b - a) / (fb - fa)
        c = np.where(np.isfinite(c), c, (a + b) / 2)
        fc = opening(c)
        crossed = (fc > 0) != (fb > 0)
        a, fa = np.where(crossed, b, a), np.where(crossed, fb, fa / 2)
        moved, b, fb = np.abs(c - b), c, fc
        if np.all((np.abs(fc) < _TINY) | (moved < _FINE)):
            break
    return np.where(used, b, np.nan), opens


def _choose(
    roots: Array, opens: NDArray[np.bool_], running: int, centre: float, shut: bool
) -> tuple[float | None, float | None, int]:
    """Pick the opening that holds `centre`, else the longest, in the direction of running."""
    opens, roots = opens[np.isfinite(roots)], roots[np.isfinite(roots)]
    if len(roots) == 0:
        return None, None, 0 if shut else 1
    # in forward sense a root that "opens" starts an opening; backward it ends one
    starts = roots[opens] if running > 0 else roots[~opens]
    stops = roots[~opens] if running > 0 else roots[opens]
    best: tuple[float, float, float] | None = None
    for start in starts:
        ahead = (running * (stops - start)) % 360
        length = float(ahead.min())
        stop = float(stops[ahead.argmin()])
        holds = (running * (centre - start)) % 360 <= length
        rank = length + (1000 if holds else 0)
        if best is None or rank > best[0]:
            best = (rank, float(start), stop)
    assert best is not None
    return best[1] % 360, best[2] % 360, len(starts)


def _event(
    crank: Crank, end: str, angle: float | None, running: int, *, before: bool
) -> Event | None:
    """Return the event at a crank angle; an admission behind the dead centre counts negative."""
    if angle is None:
        return None
    from_front = float(crank.from_front(angle))
    percent = 100 * (from_front if end == "front" else 1 - from_front)
    if before:
        centre = crank.dead_centres[ENDS.index(end)]
        if (running * (angle - centre)) % 360 < 180:
            percent = -percent
    return Event(angle=angle % 360, percent=percent)
