"""How good candidates are: faults in the trade's own units, for rows of candidates at once.

The score is the root of the sum of squares of ten parts; each part is the root of the mean
square of one fault over its notches, divided by how much of that fault counts as one.  So a
gear of score 2 is as bad as one whose cut-offs are 2 % apart in every forward notch and
which has no other fault.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..motion import AnyGear
from ..motion.frame import Array
from ..motion.many_events import EVENTS, ManyEvents
from .problem import Glance, Problem, glance

PARTS: tuple[tuple[str, str, str], ...] = (
    ("cutoff_forward", "Cut-offs apart, forward", "%"),
    ("cutoff_backward", "Cut-offs apart, backward", "%"),
    ("lead", "Leads apart", "mm"),
    ("lead_change", "Lead changing with the notch", "mm"),
    ("die_slip", "Slip of the die", "mm"),
    ("opening", "Opening to steam lost", "mm"),
    ("release", "Releases apart", "%"),
    ("compression", "Compressions apart", "%"),
    ("cutoff_kept", "Cut-off off the wanted one, full gear", "%"),
    ("lead_kept", "Lead off the wanted one, full gear", "mm"),
)
"""Name, what it is called, and unit."""

MISSING = 25.0
"""What an event that does not occur counts as, per cent of the stroke."""

_CUTOFF, _RELEASE, _COMPRESSION = (EVENTS.index(n) for n in ("cutoff", "release", "compression"))

MOST, _BREAKS, SEEN, _LOCKS = 1e5, 1e6, 1e7, 1e9
"""Ranks: scores end at `MOST`; behind them stands what breaks a limit, behind that what
breaks one at the first glance (`SEEN`), and behind all else what locks."""


@dataclass(frozen=True)
class Judged:
    """Candidates judged.

    Parameters
    ----------
    faults : part to (k, m) in the trade's unit with a sign; NaN in notches it has no say in.
    broken : (k, v) by how much each limit is passed, 0 where it is kept; see `LIMITS`.
    passed : (k,) how far the limit is passed that is nearest, in steps of the grading; below 0
        while all are kept.
    score : (k,) of the faults alone.
    events : that it was judged by.
    total : (k,) what the search makes small: the score, behind it what breaks or locks.
    """

    faults: dict[str, Array]
    broken: Array
    passed: Array
    score: Array
    total: Array
    events: ManyEvents
    glance: Glance

    @property
    def sound(self) -> NDArray[np.bool_]:
        """(k,) whether a candidate turns and keeps every limit."""
        keeps: NDArray[np.bool_] = self.total < _BREAKS
        return keeps


LIMITS = ("angle of transmission", "swing of the link", "die in its slot", "gap", "openings")
_SCALE = np.array([0.05, 2.0, 0.1, 0.1, 1.0])
"""How far a limit is passed by one step of the grading: sine, degrees, mm, mm, openings."""


def judged(problem: Problem, gear: AnyGear, k: int = 1, *, polished: bool = False) -> Judged:
    """Judge k candidates in rows; one gear counts as a row of one."""
    seen = glance(problem, gear, k)
    events = problem.events(gear, polished=polished)
    faults = {
        name: np.broadcast_to(found, (k, len(problem.notches)))
        for name, found in faults_of(problem, events).items()
    }
    with np.errstate(invalid="ignore"):
        score = np.sqrt((weighed(problem, faults) ** 2).sum(axis=-1))
    least = np.broadcast_to(events.margin.min(axis=-1), (k,))
    reach = None
    if events.die_reach is not None:
        reach = np.broadcast_to(events.die_reach, (k, len(problem.notches))).max(axis=-1)
    more = np.maximum(events.openings - 1, 0).sum(axis=(1, 2, 3)) - _now_twice(problem)
    gap = None
    if problem.clear is not None:
        gap = problem.limits.gap - problem.clear(gear, problem.crank)
    passed = _passed(problem, Glance(least, seen.swing, reach), gap, more)
    broken = _broken(passed)
    total = np.where(broken.any(axis=-1), _graded(_BREAKS, broken), np.minimum(score, MOST))
    margin = np.broadcast_to(events.margin, (k, len(problem.notches)))
    total = np.where(least > 0, total, _locking(margin))
    total = np.where(np.isfinite(total), total, 4 * _LOCKS)
    return Judged(faults, broken, passed.max(axis=-1), score, total, events, seen)


def evaluate(problem: Problem, x: Array) -> Array:
    """Return the totals (k,) of places (k, n) in the rooms; what an executor is given to do.

    What breaks a limit or locks at the first glance is ranked by that and looked at no more.
    """
    seen = glance(problem, problem.candidates(x), len(x))
    broken = _broken(_passed(problem, seen, None, np.zeros(len(x))))
    total = np.where(seen.margin > 0, _graded(SEEN, broken), _locking(seen.margin[:, None]))
    kept = np.flatnonzero((seen.margin > 0) & ~broken.any(axis=-1))
    if len(kept):
        total[kept] = judged(problem, problem.candidates(x[kept]), len(kept)).total
    return total


def _graded(rank: float, broken: Array) -> Array:
    """Return totals behind a rank, the worse the further limits are passed."""
    totals: Array = rank * (1 + np.minimum(broken.sum(axis=-1), 400.0) / 100)
    return totals


def _locking(margin: Array) -> Array:
    """Return totals of what locks, from margins (k, m): how often and how far it does."""
    finite = np.where(np.isfinite(margin), margin, -1.0)
    depth = np.clip(-finite, 0.0, 1.0) + (finite <= 0)
    totals: Array = _LOCKS * (1 + depth.mean(axis=-1))
    return totals


def residuals(problem: Problem, x: Array) -> Array:
    """Return what the polish makes small, (k, r): its sum of squares is the score's square.

    Limits join as springs, so that the polish may slide along them.
    """
    found = judged(problem, problem.candidates(x), len(x), polished=True)
    flat = weighed(problem, found.faults)
    return np.concatenate([np.nan_to_num(flat, nan=1e3), 3.0 * found.broken], axis=-1)


def faults_of(problem: Problem, events: ManyEvents) -> dict[str, Array]:
    """Return the faults (k, m) of events, signed, front less back."""
    notches = np.array(problem.notches)
    forward = notches >= 0
    k = len(events.travel)

    def apart(event: int) -> Array:
        ends = events.percent[..., event]
        differs: Array = ends[..., 0] - ends[..., 1]
        return np.where(np.isfinite(differs), differs, MISSING)

    cutoffs, mean_lead = apart(_CUTOFF), events.lead.mean(axis=-1)
    mean_cutoff = events.percent[..., _CUTOFF].mean(axis=-1)
    kept_cutoff, kept_lead = np.array(problem.kept_cutoff), np.array(problem.kept_lead)
    away = np.where(np.isfinite(mean_cutoff), mean_cutoff - kept_cutoff, MISSING)
    lost = np.maximum(np.array(problem.opens) - events.opening.min(axis=-1), 0.0)
    # in a guide that stands still the die has to slide: that is its work
    slip = None if hasattr(problem.gear, "guide_x") else events.die_slip
    nothing = np.full((k, len(notches)), np.nan)
    return {
        "cutoff_forward": np.where(forward, cutoffs, np.nan),
        "cutoff_backward": np.where(forward, np.nan, cutoffs),
        "lead": events.lead[..., 0] - events.lead[..., 1],
        "lead_change": mean_lead - mean_lead.mean(axis=-1, keepdims=True),
        "die_slip": nothing if slip is None else np.broadcast_to(slip, nothing.shape),
        "opening": lost,
        "release": apart(_RELEASE),
        "compression": apart(_COMPRESSION),
        "cutoff_kept": np.where(np.isfinite(kept_cutoff), away, np.nan),
        "lead_kept": mean_lead - kept_lead,
    }


def weighed(problem: Problem, faults: dict[str, Array]) -> Array:
    """Return the faults in their units in one row, (k, r); their squares add up to the score's."""
    units, rows = dict(problem.units), []
    for name, found in faults.items():
        says = has_a_say(problem, name, found)
        if says.any():
            rows.append(found[:, says] / (units[name] * np.sqrt(says.sum())))
    weighted: Array = np.concatenate(rows, axis=-1)
    return weighted


def has_a_say(problem: Problem, name: str, found: Array) -> NDArray[np.bool_]:
    """Return in which notches (m,) a fault is counted; the same for every candidate."""
    forward = np.array(problem.notches) >= 0
    if name == "cutoff_forward":
        return forward
    if name == "cutoff_backward":
        return ~forward
    if name in ("cutoff_kept", "lead_kept"):
        kept = np.array(problem.kept_cutoff if name == "cutoff_kept" else problem.kept_lead)
        return np.array(np.isfinite(kept))
    if name == "die_slip" and np.isnan(found).all():
        return np.zeros(len(forward), dtype=bool)
    return np.ones(len(forward), dtype=bool)


def _passed(problem: Problem, seen: Glance, gap: Array | None, more: Array) -> Array:
    """Return how far limits are passed, (k, 5), in steps of the grading; below 0 if kept.

    Parameters
    ----------
    gap : by how much the least gap falls short, mm; None where it is not looked at.
    more : openings of ports above one in a turn.
    """
    limits = problem.limits
    free = np.full(len(seen.margin), -np.inf)
    over = free if seen.swing is None else seen.swing - limits.swing
    out = free if seen.reach is None else seen.reach - limits.reach
    short = free if gap is None else gap
    twice = np.where(more > 0, more, -np.inf)
    rows = np.stack(
        np.broadcast_arrays(limits.margin - seen.margin, over, out, short, twice), axis=-1
    )
    passed: Array = np.where(np.isnan(rows), 10.0, rows / _SCALE)
    return passed


def _broken(passed: Array) -> Array:
    """Return by how much limits are passed, 0 where they are kept."""
    # rounding of what the gear itself has just now is no fault
    broken: Array = np.where(passed > 1e-8, passed, 0.0)
    return broken


def _now_twice(problem: Problem) -> int:
    """Return how many second openings are put up with: in mid gear a port may open twice."""
    return 4 * sum(abs(one) < 0.2 for one in problem.notches)
