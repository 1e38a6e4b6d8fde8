"""Which reading to take next: the one that narrows down most what may be wrong."""

from __future__ import annotations

import math
from collections.abc import Collection, Sequence
from dataclasses import dataclass

import numpy as np

from ..motion import AnyGear
from ..motion.frame import Array
from ..motion.many_events import ManyEvents
from ..sizes import figure
from .decisions import (
    ADMISSION,
    BACKWARD,
    COMPRESSION,
    CUTOFF,
    EVENTS,
    FORWARD,
    LEAD,
    MIDDLE,
    RELEASE,
    WIDEST,
    Instruments,
    Reading,
)
from .faults import amount
from .fit import COVER, variance
from .model import Bench
from .readings import candidate, points_of

GEARS = {1.0: FORWARD, 0.0: MIDDLE, -1.0: BACKWARD}
ENDS = ("front", "back")
_SAID = {
    ADMISSION: "the crank angle at which air is first heard",
    CUTOFF: "the crank angle at which the air stops",
    RELEASE: "the crank angle at which the exhaust opens",
    COMPRESSION: "the crank angle at which the exhaust shuts",
    LEAD: "how far the steam port is open at the dead centre",
    WIDEST: "how far the steam port opens at the most",
}
_LITTLE = 0.01
"""Below this part of all that is in doubt a further reading is not worth the trouble."""


@dataclass(frozen=True)
class Asked:
    """Something that is to be known: a share (n,) of the faults, and how far it may be out."""

    name: str
    unit: str
    share: Array
    possible: float


@dataclass(frozen=True, kw_only=True)
class Advice:
    """A reading to take, and what it would tell.

    Parameters
    ----------
    fault : what it narrows down most; `unit` of `before` and `after`.
    """

    reading: Reading
    says: str
    fault: str
    unit: str
    before: float = figure("Known to within, now")
    after: float = figure("Known to within, with it")
    gain: float = figure("Takes away of the doubt", "%")


def what_next(
    bench: Bench, gear: AnyGear, events: ManyEvents, row: int, rows: tuple[float, ...],
    found: Array, covariance: Array, instruments: Instruments,
    taken: Collection[tuple[float, str, str]], side: str, count: int, asked: Sequence[Asked],
) -> tuple[Advice, ...]:  # fmt: skip
    """Return the readings that would tell most, one after the other.

    Each is the one that leaves the least sum of the variances of what is asked, each counted
    in parts of what it may be out by (a design optimal by the rule A).

    Parameters
    ----------
    events, row : of the engine as found: which candidate of these.
    rows : the notches of the events; full forward, mid and full backward gear are asked for.
    found, covariance : (n,), (n, n) of the faults.
    taken : notch, end and what of the readings that there are.
    count : how many are wanted.
    asked : what is to be known.

    Source: rank-one updating of a covariance; A-optimality after V. V. Fedorov, Theory of
    Optimal Experiments, 1972 (from memory).
    """
    readings = []
    made = []
    for notch, name in GEARS.items():
        if notch not in rows or (notch == 0 and not gear.notched):
            continue
        m = rows.index(notch)
        for e, end in enumerate(ENDS):
            angles = events.angle[row, m, e]
            middle = _between(angles[0], angles[1], notch >= 0)
            dead = bench.crank.dead_centres[e]
            places = (*angles, float(dead), middle)
            for what, theta in zip((*EVENTS, LEAD, WIDEST), places, strict=True):
                if not np.isfinite(theta) or (notch, end, what) in taken:
                    continue
                one = Reading(side=side, gear=name, end=end, what=what)
                readings.append(one)
                made.append(
                    candidate(0, gear, bench.crank, bench.valve, instruments, one, float(theta))
                )
    if not made:
        return ()
    points = points_of(made)
    theta = points.theta[None]
    opened = bench.opened(points, found[None], theta, bench.bend(points, found[None], theta))
    x, own = opened.by_fault[0], variance(points, opened)[0]
    return _one_by_one(asked, readings, x, own, covariance, count)


def _one_by_one(
    asked: Sequence[Asked], readings: list[Reading], x: Array, own: Array, covariance: Array,
    count: int,
) -> tuple[Advice, ...]:  # fmt: skip
    """Choose the best again and again, as if the one before had been taken."""
    wants = np.array([one.share / one.possible for one in asked])
    chosen: list[Advice] = []
    left = [bool(np.isfinite(row).all()) for row in x]
    for _ in range(count):
        reach = x @ covariance
        spare = own + np.sum(reach * x, axis=1)
        taken_away = (reach @ wants.T) ** 2 / spare[:, None]  # of the variance of each
        gain = np.where(left, taken_away.sum(axis=1), 0.0)
        doubt = np.diagonal(wants @ covariance @ wants.T)
        best = int(gain.argmax())
        if gain[best] < _LITTLE * doubt.sum():
            break
        narrowed = int(taken_away[best].argmax())
        about = asked[narrowed]
        before = COVER * about.possible * float(np.sqrt(doubt[narrowed]))
        still = max(float(doubt[narrowed] - taken_away[best, narrowed]), 0.0)
        afterwards = COVER * about.possible * math.sqrt(still)
        covariance = covariance - np.outer(reach[best], reach[best]) / spare[best]
        left[best] = False
        chosen.append(
            Advice(
                reading=readings[best],
                says=f"Measure {said(readings[best])}: it tells most of the {about.name}, then "
                f"known to within {amount(afterwards, about.unit)} instead of "
                f"{amount(before, about.unit)}.",
                fault=about.name, unit=about.unit, before=before, after=afterwards,
                gain=100 * float(gain[best] / doubt.sum()),
            )
        )  # fmt: skip
    return tuple(chosen)


def said(reading: Reading) -> str:
    """Return what a reading is of, in words."""
    return f"{_SAID[reading.what]}, {reading.end} end, {where(reading)}"


def where(reading: Reading) -> str:
    """Return the gear a reading was taken in, in words."""
    if reading.gear == MIDDLE:
        return "in mid gear"
    if reading.gear in (FORWARD, BACKWARD):
        return f"in {reading.gear} gear"
    return "in another notch" if reading.notch is None else f"in the notch {reading.notch:+.2f}"


def _between(start: float, stop: float, forward: bool) -> float:
    """Return the middle of an opening, from where it starts in the sense of running."""
    way = 1.0 if forward else -1.0
    return float((start + way * ((way * (stop - start)) % 360) / 2) % 360)
