"""Events of many gears at once, for searches, scatter and fitting.

Every candidate is posed at evenly spaced crank angles; where an edge opens and shuts is
found between these by a cubic through four neighbours, and on wish once more on the
linkage itself.  The definitions are those of `events`.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import ArrayLike, NDArray

from .events import piston_of, valve_as_seen
from .frame import Array, Crank
from .kernel import Gear, Pose
from .valves import SlideValve, ValveSetting

EVENTS = ("admission", "cutoff", "release", "compression")
ANGLES = 72
"""Crank angles at which a candidate is posed unless more are asked for."""


@dataclass(frozen=True)
class ManyEvents:
    """Events of k candidates in m notches, NaN where one does not occur.

    Parameters
    ----------
    angle, percent : (k, m, 2, 4) of both ends (front, back), in the order of `EVENTS`: crank
        angle in degrees, and distance of the piston from that end, per cent of the stroke.
    lead, opening : (k, m, 2) port opening at the dead centre, and the greatest, mm.
    travel : (k, m) of the valve, mm.
    openings : (k, m, 2, 2) how often an end opens to steam and to exhaust in a turn.
    die_slip : (k, m) how far the die slips in its slot in that notch, mm, or None.
    die_reach : (k, m) how far it goes from the middle of the slot, mm, or None.
    margin : (k, m) least margin against locking; 0 or less where the gear does not turn.
    setting : (k, 1) what was added to the valve's displacement to set it, mm.
    """

    angle: Array
    percent: Array
    lead: Array
    opening: Array
    travel: Array
    openings: NDArray[np.int_]
    die_slip: Array | None
    die_reach: Array | None
    margin: Array
    setting: Array

    @property
    def turns(self) -> NDArray[np.bool_]:
        """(k,) whether the candidate turns right round in every notch."""
        turning: NDArray[np.bool_] = np.all(self.margin > 0, axis=1)
        return turning


def many_events(
    crank: Crank,
    valve: SlideValve,
    gear: Gear,
    reversers: ArrayLike,
    *,
    setting: ValveSetting | None = None,
    angles: int = ANGLES,
    polished: bool = False,
    constant: Array | None = None,
) -> ManyEvents:
    """Return the events of rows of candidates; see `events.events_over` for one gear.

    Parameters
    ----------
    crank, valve, gear : each as it is, or with sizes in rows (k,) by `many.spread`.
    reversers : (m,) notches.
    setting : how each candidate's valve is set; equal leads in full forward gear unless given.
    angles : crank angles at which each is posed.
    polished : whether the crossings are closed in upon on the linkage itself.
    constant : (k, 1) displacement that sets the valve, instead of a rule, mm.
    """
    setting = setting or ValveSetting()
    notches = np.asarray(reversers, dtype=float)
    rows = np.append(notches, setting.reverser)[:, None]
    grid = np.linspace(0.0, 360.0, angles, endpoint=False)
    piston = piston_of(gear, crank)
    centres = piston.centres  # (1, 2) or (k, 1, 2)
    theta = np.broadcast_to(grid, (*centres.shape[:-1], angles))
    with np.errstate(all="ignore"):
        pose = gear.pose(crank, np.concatenate([theta, centres], axis=-1), rows)
    xi = np.broadcast_to(pose.valve, _shape(pose, len(rows), angles + 2))
    xi, at_centres = xi[..., :angles], xi[..., angles:]
    signs, levels, offsets = _edges(valve, gear, rows)
    if constant is None:
        constant = -at_centres[:, -1].mean(axis=-1, keepdims=True)  # (k, 1)
        if setting.rule == "equal cut-offs":
            constant = constant + _levelled(
                piston, grid, xi[:, -1:] + constant[:, None], signs[-1:],
                levels[:, -1:], setting.reverser,
            )  # fmt: skip
    m = len(notches)
    shift = constant[:, None] + offsets[:, :m]
    xi, at_centres = xi[:, :m] + shift, at_centres[:, :m] + shift
    signs, levels = signs[:m], levels[:, :m]
    starts, stops, counts = _crossings(grid, xi, signs, levels, piston, notches)
    where = np.stack([starts, stops], axis=-1)  # (k, m, edges, 2)
    if polished:
        where = _polished(crank, gear, rows[:m], where, signs, levels, shift)
    angle = np.stack(
        [np.stack([where[..., end, :], where[..., end + 2, :]], axis=-2) for end in (0, 1)], axis=2
    ).reshape(*where.shape[:2], 2, 4)
    high, low = _vertex(xi), -_vertex(-xi)
    steam = signs[None, :, :2, None] * np.stack([high, low], axis=-1)[:, :, None, :]
    return ManyEvents(
        angle=np.mod(angle, 360.0),
        percent=_percent(piston, angle, notches),
        lead=signs[None, :, :2] * at_centres - levels[..., :2],
        opening=steam.max(axis=-1) - levels[..., :2],
        travel=high - low,
        openings=np.stack([counts[..., :2], counts[..., 2:]], axis=-1),
        die_slip=_of_die(pose, m, angles, np.ptp),
        die_reach=_of_die(pose, m, angles, lambda die, axis: np.abs(die).max(axis=axis)),
        margin=_least(pose, xi.shape, m, angles),
        setting=constant,
    )


def _shape(pose: Pose, m: int, n: int) -> tuple[int, int, int]:
    k = max(a.shape[0] if a.ndim == 3 else 1 for a in (pose.valve, *pose.margins.values()))
    return k, m, n


def _edges(valve: SlideValve, gear: Gear, rows: Array) -> tuple[Array, Array, Array]:
    """Return signs (m, 4), levels (k, m, 4) and offsets (k, m, 1) of the working edges."""
    seen = [valve_as_seen(gear, valve, float(row)) for row in rows[:, 0]]
    signs = np.array([one.sense * np.array([-1.0, 1.0, 1.0, -1.0]) for one in seen])

    def wide(name: str) -> Array:
        sizes = [np.ravel(getattr(one, name)) for one in seen]
        return np.stack(np.broadcast_arrays(*sizes), axis=-1)  # (k, m)

    lap, exhaust = wide("steam_lap"), wide("exhaust_lap")
    levels = np.stack(np.broadcast_arrays(lap, lap, exhaust, exhaust), axis=-1)
    return signs, levels, wide("valve_offset")[..., None]


def _crossings(
    grid: Array, xi: Array, signs: Array, levels: Array, piston: Crank, notches: Array
) -> tuple[Array, Array, NDArray[np.int_]]:
    """Return where each edge opens and shuts in the sense of running, and how often it opens.

    Of several openings the one that holds the dead centre is taken, or else the next one
    behind it.
    """
    count, step = len(grid), grid[1] - grid[0]
    # edges: steam front, steam back, exhaust front (about the back centre), exhaust back
    f = signs[None, :, :, None] * xi[:, :, None, :] - levels[..., None]
    # a candidate whose rod does not pass the crank over has no dead centres
    dead = [np.ravel(np.real(c)) for c in piston.dead_centres]
    known = [one[np.isfinite(one)] for one in dead]
    first = [round(float(known[i][0]) / step) % count if len(known[i]) else 0 for i in (0, 1, 1, 0)]
    f = np.stack([np.roll(f[..., e, :], -first[e], axis=-1) for e in range(4)], axis=-2)
    open_ = f > 0
    after = np.roll(open_, -1, axis=-1)
    up, down = ~open_ & after, open_ & ~after
    counts = up.sum(axis=-1)
    last = count - 1 - up[..., ::-1].argmax(axis=-1)
    rising = np.where(open_[..., 0], last, up.argmax(axis=-1))
    falling = down.argmax(axis=-1)
    missing = counts == 0
    at = np.array(first)
    opens = (_closer(f, rising) + at) * step
    shuts = (_closer(f, falling) + at) * step
    forward = (notches >= 0)[None, :, None]
    starts, stops = np.where(forward, opens, shuts), np.where(forward, shuts, opens)
    counts = np.where(missing & open_[..., 0], 1, counts)
    return np.where(missing, np.nan, starts), np.where(missing, np.nan, stops), counts


def _closer(f: Array, index: NDArray[np.int_]) -> Array:
    """Return where f passes zero behind `index`, by the cubic through the four neighbours."""
    count = f.shape[-1]
    a, b, c, d = (
        np.take_along_axis(f, ((index + by) % count)[..., None], axis=-1)[..., 0]
        for by in (-1, 0, 1, 2)
    )
    # b + t (p + t (q + t r)) for t from 0 at the second to 1 at the third
    r = (d - a) / 6 + (b - c) / 2
    q = (a + c) / 2 - b
    p = c - b - q - r
    with np.errstate(divide="ignore", invalid="ignore"):
        t = b / (b - c)
        for _ in range(4):
            miss, slope = b + t * (p + t * (q + t * r)), p + t * (2 * q + 3 * t * r)
            t = np.clip(t - miss / slope, 0.0, 1.0)
    return index + t


def _polished(
    crank: Crank, gear: Gear, rows: Array, where: Array, signs: Array, levels: Array, shift: Array
) -> Array:
    """Return the crossings after two steps of the secant rule on the linkage itself."""
    k, m = where.shape[:2]
    sign, level = signs[None, :, :, None], levels[..., None]

    def missed(angle: Array) -> Array:
        flat = np.where(np.isfinite(angle), angle, 0.0).reshape(k, m, -1)
        pose = gear.pose(crank, flat, rows)
        value = np.broadcast_to(pose.valve, flat.shape) + shift
        f: Array = sign * value.reshape(angle.shape) - level
        return f

    before, now = where, where + 1e-3
    f0, f1 = missed(before), missed(now)
    for _ in range(2):
        with np.errstate(divide="ignore", invalid="ignore"):
            move = f1 * (now - before) / (f1 - f0)
        move = np.where(np.isfinite(move) & (np.abs(move) < 1.0), move, 0.0)
        before, now, f0 = now, now - move, f1
        f1 = missed(now)
    return np.where(np.isfinite(where), now, np.nan)


def _percent(piston: Crank, angle: Array, notches: Array) -> Array:
    """Return the piston's distance from each end, an admission behind the centre negative."""
    k, m = angle.shape[:2]
    from_front = np.real(piston.from_front(angle.reshape(k, m, 8))).reshape(angle.shape)
    share = np.stack([from_front[:, :, 0], 1 - from_front[:, :, 1]], axis=2)
    running = np.where(notches >= 0, 1.0, -1.0)[None, :, None]
    dead = np.stack([np.ravel(np.real(c)) for c in piston.dead_centres], axis=-1)[:, None, :]
    with np.errstate(invalid="ignore"):
        late = np.mod(running * (angle[..., 0] - dead), 360.0) < 180
    share[..., 0] = np.where(late, -share[..., 0], share[..., 0])
    percent: Array = 100 * share
    return percent


def _levelled(
    piston: Crank, grid: Array, xi: Array, signs: Array, levels: Array, notch: float
) -> Array:
    """Return how far the valve is to be moved for equal cut-offs, (k, 1), by the secant rule."""
    notches = np.array([notch])

    def apart(by: Array) -> Array:
        _, stops, _ = _crossings(grid, xi + by[:, None], signs, levels, piston, notches)
        front = np.real(piston.from_front(stops[..., :2]))
        differs: Array = front[..., 0] - 1 + front[..., 1]
        return differs

    before = np.zeros((len(xi), 1))
    now: Array = before + 1e-3 * np.ptp(xi, axis=-1)
    f0, f1 = apart(before), apart(now)
    for _ in range(8):
        with np.errstate(divide="ignore", invalid="ignore"):
            move = f1 * (now - before) / (f1 - f0)
        before, now, f0 = now, now - np.where(np.isfinite(move), move, 0.0), f1
        f1 = apart(now)
    return now


def _vertex(xi: Array) -> Array:
    """Return the greatest displacement, (k, m), by the parabola through three neighbours."""
    count = xi.shape[-1]
    top = xi.argmax(axis=-1)
    left, middle, right = (
        np.take_along_axis(xi, ((top + by) % count)[..., None], axis=-1)[..., 0]
        for by in (-1, 0, 1)
    )
    bend = left - 2 * middle + right
    with np.errstate(divide="ignore", invalid="ignore"):
        over = np.where(bend < 0, (left - right) ** 2 / (-8 * bend), 0.0)
    greatest: Array = middle + over
    return greatest


def _of_die(pose: Pose, m: int, angles: int, measure: object) -> Array | None:
    if pose.die is None:
        return None
    die = np.asarray(pose.die)
    die = die.reshape((1,) * (3 - die.ndim) + die.shape)[:, :m, :angles]
    found: Array = measure(die, axis=-1)  # type: ignore[operator]
    return found


def _least(pose: Pose, shape: tuple[int, ...], m: int, angles: int) -> Array:
    k = shape[0]
    least = np.full((k, m), np.inf)
    for margin in pose.margins.values():
        wide = np.asarray(margin)
        wide = wide.reshape((1,) * (3 - wide.ndim) + wide.shape)
        wide = np.broadcast_to(wide, (k, m + 1, wide.shape[-1]))[:, :m, :angles]
        least = np.minimum(least, np.where(np.isnan(wide), -1.0, wide).min(axis=-1))
    return least
