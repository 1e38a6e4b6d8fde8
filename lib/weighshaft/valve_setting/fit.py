"""The faults that readings tell of: robust least squares, and the readings that do not fit.

What is known beforehand is that no fault is likely to exceed what the workshop may be out
by; it counts as one more reading of "nothing" of each fault, good to that amount.  Readings
are weighed at first so that a gross one pulls no harder than a doubtful one (Huber's rule);
then the reading that departs most from what all the others tell of it is set aside, as long
as it departs by more than `LIMIT` standard deviations.

Many engines are fitted side by side.

Source: P. J. Huber, Robust Statistics, 1981; deletion residuals after R. D. Cook and
S. Weisberg, Residuals and Influence in Regression, 1982 (both from memory).
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..motion.frame import Array
from .model import Bench, Opened
from .readings import Points

LIMIT = 4.0
"""A reading further from what the others say than so many standard deviations is set aside."""
COVER = 2.2
"""Standard deviations on either side that are stated: 97 in 100 of normal errors, so that
not fewer than 95 remain for what robust weights and curvature take."""
_HUBER = 1.5
_STEPS = 8


@dataclass(frozen=True)
class Fit:
    """What was found of T engines.

    Parameters
    ----------
    faults : (T, n) mm and degrees.
    covariance : (T, n, n) of these.
    used : (T, m) whether the reading was not set aside.
    departs : (T, m) by how many standard deviations each departs from what the others say.
    scatter : (T,) of the readings, in parts of what their accuracy lets expect; at least 1.
    opened : at the faults found.
    rivals : of one engine: reading set aside and the one that would as well have been.
    """

    faults: Array
    covariance: Array
    used: NDArray[np.bool_]
    departs: Array
    scatter: Array
    opened: Opened
    rivals: tuple[tuple[int, int], ...] = ()

    @property
    def within(self) -> Array:
        """(T, n) what is stated as plus or minus."""
        spread: Array = COVER * np.sqrt(np.diagonal(self.covariance, axis1=1, axis2=2))
        return spread


def variance(points: Points, opened: Opened) -> Array:
    """Return the variance of each reading as an opening, mm squared, (T, m)."""
    told: Array = points.error**2 + (opened.slope * points.angle_error) ** 2
    return told


def beforehand(bench: Bench, points: Points, theta: Array) -> tuple[Array, Opened]:
    """Return by how many deviations readings depart from anything to be believed, (T, m)."""
    nothing = np.zeros((len(theta), len(bench.faults)))
    opened = bench.opened(points, nothing, theta, bench.bend(points, nothing, theta))
    reach = np.einsum("tmn,n->tm", opened.by_fault**2, bench.possible**2)
    missed = points.target - opened.opening
    return missed / np.sqrt(variance(points, opened) + reach), opened


def fit(
    bench: Bench, points: Points, theta: Array | None = None, target: Array | None = None
) -> Fit:
    """Fit the faults to readings.

    Parameters
    ----------
    theta, target : (T, m) of T engines measured alike; those of the points unless given, and
        not a number where a reading was not to be had.
    """
    theta = points.theta[None] if theta is None else theta
    goal = points.target[None] if target is None else target
    used = np.isfinite(theta) & np.isfinite(goal)
    theta, goal = np.where(used, theta, points.theta), np.where(used, goal, points.target)
    faults = np.zeros((len(theta), len(bench.faults)))
    bend = bench.bend(points, faults, theta)
    opened = bench.opened(points, faults, theta, bend)
    faults, opened = _settle(bench, points, opened, goal, faults, used, bend, robust=True)
    bend = bench.bend(points, faults, opened.theta)
    rivals: list[tuple[int, int]] = []
    departs = np.zeros(used.shape)
    for dropped in range(1 + len(points) // 3):
        faults, opened = _settle(bench, points, opened, goal, faults, used, bend, robust=False)
        departs = _departs(bench, points, opened, goal - opened.opening, used)
        size = np.where(used, np.abs(departs), 0.0)
        scale = np.maximum(1.0, 1.4826 * _median(size, used))
        worst = size.argmax(axis=1)
        drop = size.max(axis=1) > LIMIT * scale
        if dropped == len(points) // 3 or not drop.any():
            break
        if len(theta) == 1:
            order = size[0].argsort()
            if len(order) > 1 and size[0, order[-2]] > max(0.85 * size[0, order[-1]], LIMIT):
                rivals.append((int(order[-1]), int(order[-2])))
        used[drop, worst[drop]] = False
    covariance, scatter = _covariance(bench, points, opened, goal, faults, used)
    return Fit(faults, covariance, used, departs, scatter, opened, tuple(rivals))


def _settle(
    bench: Bench, points: Points, opened: Opened, goal: Array, faults: Array,
    used: NDArray[np.bool_], bend: Array, *, robust: bool,
) -> tuple[Array, Opened]:  # fmt: skip
    """Return the faults at which weighted squares are least, by Gauss' and Newton's rule."""
    prior = 1 / bench.possible**2
    for _ in range(_STEPS):
        missed = goal - opened.opening
        weight = used / variance(points, opened)
        if robust:
            far = np.abs(missed) * np.sqrt(weight)
            weight = weight * np.minimum(1.0, _HUBER / np.maximum(far, 1e-12))
        by = opened.by_fault
        normal = np.einsum("tmi,tm,tmj->tij", by, weight, by) + np.diag(prior)
        pull = np.einsum("tmi,tm->ti", by, weight * missed) - prior * faults
        step = np.linalg.solve(normal, pull[..., None])[..., 0]
        # no step further than the workshop could be out
        step = np.clip(step, -bench.possible, bench.possible)
        aim = bench.opened(points, faults + step, opened.theta, bend)
        for _ in range(4):
            if aim.sound.all():
                break
            step = np.where(aim.sound[:, None], step, step / 2)
            aim = bench.opened(points, faults + step, opened.theta, bend)
        if not aim.sound.all():  # on the way there an engine locks: they stay where they are
            break
        faults, opened = faults + step, aim
        if np.all(np.abs(step) < 3e-3 * bench.possible):
            break
    return faults, opened


def _normal(bench: Bench, points: Points, opened: Opened, used: NDArray[np.bool_]) -> Array:
    weight = used / variance(points, opened)
    by = opened.by_fault
    found: Array = np.einsum("tmi,tm,tmj->tij", by, weight, by) + np.diag(1 / bench.possible**2)
    return found


def _departs(
    bench: Bench, points: Points, opened: Opened, missed: Array, used: NDArray[np.bool_]
) -> Array:
    """Return each reading against what the others say of it, in standard deviations, (T, m)."""
    known = np.linalg.inv(_normal(bench, points, opened, used))
    own = variance(points, opened)
    reach = np.einsum("tmi,tij,tmj->tm", opened.by_fault, known, opened.by_fault)
    # a reading that took part has pulled the answer towards itself
    room = np.where(used, own - reach, own + reach)
    departs: Array = missed / np.sqrt(np.maximum(room, 1e-6 * own))
    return departs


def _median(size: Array, used: NDArray[np.bool_]) -> Array:
    """Return the middle one of the sizes in use, nothing where none is."""
    ordered = np.sort(np.where(used, size, np.inf), axis=1)
    middle = np.maximum(used.sum(axis=1) - 1, 0) // 2
    found = np.take_along_axis(ordered, middle[:, None], axis=1)[:, 0]
    return np.where(np.isfinite(found), found, 0.0)


def _covariance(
    bench: Bench, points: Points, opened: Opened, goal: Array, faults: Array,
    used: NDArray[np.bool_],
) -> tuple[Array, Array]:  # fmt: skip
    """Return the covariance of the faults, and by how much readings scatter too far."""
    normal = _normal(bench, points, opened, used)
    covariance = np.linalg.inv(normal)
    own = variance(points, opened)
    shared = np.einsum("tmi,tij,tmj->tm", opened.by_fault, covariance, opened.by_fault) / own
    free = np.sum(np.where(used, 1 - shared, 0.0), axis=1)
    squares = np.sum(np.where(used, (goal - opened.opening) ** 2 / own, 0.0), axis=1)
    scatter = np.sqrt(np.maximum(1.0, squares / np.maximum(free, 1.0)))
    return covariance * scatter[:, None, None] ** 2, scatter
