"""Engines built on paper: errors drawn within the workshop's limits, the events of each."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..motion import Crank, Gear, SlideValve, ValveSetting
from ..motion.many import spread
from ..motion.many_events import EVENTS, many_events
from .decisions import AFTER, EVEN, Tolerances
from .derivatives import in_rows
from .results import Array, Dimension, EventScatter, Sensitivities, Trials

ANGLES = 36
"""Crank angles at which an engine of the trial is posed; its events are good to 0.01 %."""
ENDS = ("front", "back")


def errors(tolerances: Tolerances, dimensions: Sequence[Dimension]) -> Array:
    """Return the errors of all engines (n, k), the same for the same seed."""
    rng = np.random.default_rng(tolerances.seed)
    shape = (tolerances.trials, len(dimensions))
    if tolerances.law == EVEN:
        return np.array([one.limit for one in dimensions]) * rng.uniform(-1.0, 1.0, shape)
    return np.array([one.deviation for one in dimensions]) * rng.standard_normal(shape)


def tried(
    tolerances: Tolerances,
    dimensions: Sequence[Dimension],
    crank: Crank,
    valve: SlideValve,
    gear: Gear,
    notches: Sequence[float],
    setting: ValveSetting,
    drawn: Sensitivities,
) -> Trials:
    """Return the events of engines with errors drawn at random.

    Parameters
    ----------
    notches : of `drawn`, in which the engines are tried.
    drawn : the events as drawn, and where the drawing puts the valve.
    """
    drawing = errors(tolerances, dimensions)

    def made(part: str) -> dict[str, Array]:
        return {
            one.field: one.value + drawing[:, i]
            for i, one in enumerate(dimensions)
            if one.part == part and one.limit > 0
        }

    constant = None
    if tolerances.valve != AFTER:
        constant = np.full((len(drawing), 1), drawn.constant)
    found = many_events(
        spread(crank, made("crank")), spread(in_rows(valve), made("valve")),
        spread(gear, made("gear")), notches, setting=setting, angles=ANGLES, constant=constant,
    )  # fmt: skip
    n, rows = len(drawing), [drawn.notches.index(notch) for notch in notches]
    expected = np.isfinite(drawn.percent[rows])
    percent = np.broadcast_to(found.percent, (n, *expected.shape))
    lead = np.broadcast_to(found.lead, (n, len(rows), 2))
    runs = np.broadcast_to(found.turns, n) & np.all(
        np.isfinite(percent) | ~expected, axis=(1, 2, 3)
    )
    kept = np.where(expected, percent[runs], np.nan)
    return Trials(tuple(notches), kept, lead[runs], int(n - runs.sum()))


def by_proportion(by: Array, dimensions: Sequence[Dimension]) -> Array:
    """Return the standard deviation that the derivatives (k, ...) and the limits make."""
    sigma = np.array([one.deviation for one in dimensions])
    whole: Array = np.sqrt(np.tensordot(sigma**2, np.square(by), axes=(0, 0)))
    return whole


def half_band(values: Array) -> float:
    """Return half of the way from the 5th to the 95th of a hundred."""
    low, high = np.percentile(values, (5.0, 95.0))
    return float(high - low) / 2


def scatter_of(
    trials: Trials, drawn: Sensitivities, dimensions: Sequence[Dimension]
) -> tuple[EventScatter, ...]:
    """Return the scatter of every event of both ends, and of the leads."""
    linear = by_proportion(drawn.by_percent, dimensions)
    linear_lead = by_proportion(drawn.by_lead, dimensions)
    if len(trials.percent) < 2:
        return ()
    rows = [drawn.notches.index(notch) for notch in trials.notches]
    names = (*EVENTS, "lead")

    def with_lead(events: Array, lead: Array) -> Array:
        """Return events (..., 2, 4) and leads (..., 2) in one, (..., 2, 5)."""
        return np.concatenate([events, lead[..., None]], axis=-1)

    values = with_lead(trials.percent, trials.lead)
    as_drawn = with_lead(drawn.percent[rows], drawn.lead[rows])
    sigma = with_lead(linear[rows], linear_lead[rows])
    low, high = np.percentile(values, (5.0, 95.0), axis=0)
    deviation = np.std(values, axis=0, ddof=1)
    return tuple(
        EventScatter(
            notch=trials.notches[j], end=ENDS[e], event=names[n], drawn=float(as_drawn[j, e, n]),
            deviation=float(deviation[j, e, n]), low=float(low[j, e, n]),
            high=float(high[j, e, n]), linear=float(sigma[j, e, n]),
        )
        for j, e, n in np.argwhere(np.isfinite(as_drawn))
    )  # fmt: skip
