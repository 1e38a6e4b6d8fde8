"""The chapter worked: derivatives, engines built on paper, and what decides the beat."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

import numpy as np

from ..findings import Finding, by_level, unlocked
from ..motion import Crank, Gear, SlideValve, ValveSetting
from ..working import Working
from . import relations
from .decisions import AFTER, EVEN, Tolerances
from .derivatives import sensitivities
from .dimensions import dimensions_of
from .judgement import of_beat, of_lost, of_operations, of_slack
from .results import Array, Dimension, Ranked, Sensitivities, TolerancesResult
from .trials import by_proportion, half_band, scatter_of, tried

CUTOFF = 1
SLACK = 0.01
"""Share of the variance of the beat that counts as nothing."""


def work(
    tolerances: Tolerances,
    *,
    gear: Gear,
    crank: Crank,
    valve: SlideValve,
    setting: ValveSetting,
    reversers: tuple[float, ...],
    running_notch: float,
    fixed: frozenset[str] = frozenset(),
) -> TolerancesResult:
    """Work the chapter.

    Parameters
    ----------
    tolerances : the decisions.
    gear, crank, valve, setting : as in the chapter on valves and motion.
    reversers : notches in which the derivatives are worked; full gear both ways and the
        running notch both ways are added.
    running_notch : the usual running notch.
    fixed : paths of sizes that a bought part has settled; no button changes them.

    Raises
    ------
    MotionLocks : when the gear as drawn does not turn right round.
    SizeError : when the valve cannot be set for equal cut-offs.
    """
    running = running_notch if gear.notched else (1.0 if running_notch >= 0 else -1.0)
    asked = reversers if gear.notched else tuple(1.0 if one >= 0 else -1.0 for one in reversers)
    key = tuple(sorted({1.0, running, -running, -1.0}, reverse=True))
    notches = sorted({*asked, *key}, reverse=True)
    everything = dimensions_of(tolerances, crank, valve, gear)
    both = sensitivities(everything, crank, valve, gear, notches, setting)
    here, there = both if tolerances.valve == AFTER else both[::-1]
    acts = [i for i in range(len(everything)) if _acts(here, i) or _acts(there, i)]
    dimensions = tuple(everything[i] for i in acts)
    here, there = _only(here, acts), _only(there, acts)
    trials = tried(tolerances, dimensions, crank, valve, gear, key, setting, here)
    beat, other = _beat(here.by_percent), _beat(there.by_percent)  # (k, m)
    at_running, at_full = here.notches.index(running), here.notches.index(1.0)
    ranked = _ranked(dimensions, beat[:, at_running], beat[:, at_full])
    slack = _slack(ranked)
    engines = len(trials.percent) > 1
    in_running, in_full = (
        _beat(trials.percent[:, key.index(notch)]) if engines else np.full(1, np.nan)
        for notch in (running, 1.0)
    )
    drawn = _beat(here.percent)
    mean = trials.percent[:, key.index(running), :, CUTOFF].mean(axis=1)
    leads = np.diff(trials.lead[:, key.index(running)], axis=1)
    sigma = by_proportion(beat, dimensions)
    found: list[Finding] = []
    judged = {at_running: ("in the notch looked at", in_running)}
    judged[at_full] = ("in full forward gear", in_full)
    for row, (where, values) in judged.items():
        if np.isfinite(values).all():
            share, rest = _three(ranked, dimensions, beat[:, row])
            half, apart = half_band(values), float(drawn[row])
            found.append(of_beat(tolerances, where, half, apart, ranked, share, rest))
    found += [
        *of_slack(slack, ranked), *of_lost(tolerances, trials.lost),
        *of_operations(tolerances, dimensions),
    ]  # fmt: skip
    return TolerancesResult(
        scatter_running=_known(half_band(in_running)),
        scatter_full=_known(half_band(in_full)),
        three_share=100 * sum(one.share for one in ranked[:3]),
        mean_running=_known(half_band(mean)) if engines else None,
        lead_running=half_band(leads) if engines else 0.0,
        drawn_running=_known(drawn[at_running]),
        drawn_full=_known(drawn[at_full]),
        linear_running=_known(sigma[at_running]),
        trial_running=_known(float(np.std(in_running, ddof=1))) if engines else None,
        other_setting=_known(by_proportion(other, dimensions)[at_running]),
        slack_count=len(slack),
        lost=trials.lost,
        running=running,
        dimensions=dimensions,
        ranked=ranked,
        slack=slack,
        sensitivities=here,
        trials=trials,
        scatter=scatter_of(trials, here, dimensions),
        workings=_workings(tolerances, ranked, dimensions, here, at_running),
        suggestions=(),
        findings=by_level(unlocked(found, fixed)),
    )


def _beat(percent: Array) -> Array:
    """Return the difference between the cut-offs of the ends, front less back, of (..., 2, 4)."""
    difference: Array = percent[..., 0, CUTOFF] - percent[..., 1, CUTOFF]
    return difference


def _known(value: float) -> float | None:
    return float(value) if np.isfinite(value) else None


def _acts(moved: Sensitivities, i: int) -> bool:
    """Return whether a dimension moves any event or lead at all."""
    moves = np.nan_to_num(moved.by_percent[i])
    return bool(np.any(np.abs(moves) > 1e-9) or np.any(np.abs(moved.by_lead[i]) > 1e-9))


def _only(moved: Sensitivities, places: Sequence[int]) -> Sensitivities:
    kept = list(places)
    return replace(
        moved, by_angle=moved.by_angle[kept], by_percent=moved.by_percent[kept],
        by_lead=moved.by_lead[kept], opening=moved.opening[kept],
    )  # fmt: skip


def _ranked(dimensions: Sequence[Dimension], running: Array, full: Array) -> tuple[Ranked, ...]:
    """Return the dimensions by their share of the beat's variance, both notches together."""
    sigma = np.array([one.deviation for one in dimensions])
    made = (sigma * np.nan_to_num(running)) ** 2 + (sigma * np.nan_to_num(full)) ** 2
    shares = made / made.sum() if made.sum() > 0 else np.zeros(len(dimensions))
    order = np.argsort(-shares, kind="stable")
    return tuple(
        Ranked(
            dimension=dimensions[i], running=float(np.nan_to_num(running[i])) * dimensions[i].limit,
            full=float(np.nan_to_num(full[i])) * dimensions[i].limit, share=float(shares[i]),
        )
        for i in order
    )  # fmt: skip


def _slack(ranked: tuple[Ranked, ...]) -> tuple[Ranked, ...]:
    """Return the foot of the ranking whose shares together count as nothing."""
    whole = 0.0
    for i in range(len(ranked) - 1, -1, -1):
        whole += ranked[i].share
        if whole >= SLACK:
            return ranked[i + 1 :]
    return ()


def _three(
    ranked: Sequence[Ranked], dimensions: Sequence[Dimension], beat: Array
) -> tuple[float, float]:
    """Return the share of one notch's variance that the first three make, and what is left."""
    first = {one.dimension.path for one in ranked[:3]}
    made = [(one.deviation * by) ** 2 for one, by in zip(dimensions, beat, strict=True)]
    of_three = sum(value for one, value in zip(dimensions, made, strict=True) if one.path in first)
    whole = sum(made)
    return (of_three / whole if whole > 0 else 0.0), float(np.sqrt(max(whole - of_three, 0.0)))


def _workings(
    tolerances: Tolerances,
    ranked: Sequence[Ranked],
    dimensions: Sequence[Dimension],
    moved: Sensitivities,
    row: int,
) -> tuple[Working, ...]:
    """Return how the first dimension moves a cut-off, and how the scatter comes together."""
    if not ranked or not ranked[0].share > 0 or not np.isfinite(moved.percent[row, 0, CUTOFF]):
        return ()
    first = ranked[0].dimension
    i = dimensions.index(first)
    deviation = relations.deviation_even if tolerances.law == EVEN else relations.deviation_middle
    worked = [deviation.work(f"{first.label}, standard deviation", first.unit, limit=first.limit)]
    if first.part == "gear" or first.part == "valve":
        worked.append(
            relations.event_moved.work(
                f"Front cut-off moved by {first.label.lower()} at its limit", "%",
                piston=float(moved.piston[row, 0, CUTOFF]),
                opening=float(moved.opening[i, row, 0, CUTOFF]),
                speed=float(moved.speed[row, 0, CUTOFF]), limit=first.limit,
            )
        )  # fmt: skip
    beat = _beat(moved.by_percent)[:, row]
    made = {one.path: abs(one.deviation * by) for one, by in zip(dimensions, beat, strict=True)}
    three = [float(made.pop(one.dimension.path)) for one in ranked[:3]]
    three += [0.0] * (3 - len(three))
    worked.append(
        relations.together.work(
            "Scatter of the beat, first three dimensions and all others", "%",
            first=three[0], second=three[1], third=three[2],
            rest=float(np.sqrt(sum(value**2 for value in made.values()))),
        )
    )  # fmt: skip
    return tuple(worked)
