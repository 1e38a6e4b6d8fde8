"""What the chapter finds."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from ..findings import Finding, Suggestion
from ..sizes import Unit, figure
from ..working import Working

Array = NDArray[np.float64]
Part = Literal["gear", "valve", "crank"]


@dataclass(frozen=True, kw_only=True)
class Dimension:
    """One dimension: what it is, how it is made, and what that holds.

    Parameters
    ----------
    limit, deviation : error to either side, and its standard deviation, mm or degrees.
    """

    part: Part
    field: str
    label: str
    unit: Unit
    path: str
    value: float
    made: str
    limit: float
    deviation: float


@dataclass(frozen=True)
class Sensitivities:
    """Derivatives of the events in m notches by k dimensions, NaN where one does not occur.

    Parameters
    ----------
    notches : (m,)
    angle, percent : (m, 2, 4) as drawn, both ends, in the order of `many_events.EVENTS`.
    lead : (m, 2) mm.
    by_angle, by_percent : (k, m, 2, 4) for one mm or one degree of the dimension.
    by_lead : (k, m, 2)
    opening : (k, m, 2, 4) mm by which the edge in question stands further open at the event.
    speed, piston : (m, 2, 4) mm of opening, and per cent of the stroke, for a degree of crank.
    constant : what sets the valve as drawn, without the valve's own offset, mm.
    """

    notches: tuple[float, ...]
    angle: Array
    percent: Array
    lead: Array
    by_angle: Array
    by_percent: Array
    by_lead: Array
    opening: Array
    speed: Array
    piston: Array
    constant: float


@dataclass(frozen=True)
class Trials:
    """The events of n engines built on paper, each with errors drawn by the workshop's limits.

    Parameters
    ----------
    notches : (m,)
    percent : (n, m, 2, 4); lead : (n, m, 2); of the engines that run.
    lost : engines that lock, or that lack an event which the drawing has.
    """

    notches: tuple[float, ...]
    percent: Array
    lead: Array
    lost: int


@dataclass(frozen=True, kw_only=True)
class EventScatter:
    """How one event scatters in one notch; leads in mm, the others in % of the stroke."""

    notch: float
    end: str
    event: str
    drawn: float
    deviation: float
    low: float
    high: float
    linear: float


@dataclass(frozen=True, kw_only=True)
class Ranked:
    """What a dimension, at its limit, does to the beat: the difference of the cut-offs.

    Parameters
    ----------
    running, full : % of the stroke, front less back, for the dimension larger by its limit.
    share : of the scatter of the beat in both notches together, 0 to 1 (of the variance).
    """

    dimension: Dimension
    running: float
    full: float
    share: float


@dataclass(frozen=True, kw_only=True)
class TolerancesResult:
    """What must be held tight.

    Nine engines in ten: half of the way from the 5th to the 95th of a hundred.

    Parameters
    ----------
    dimensions : all that move an event, in the order of the drawing.
    ranked : the same by what they do to the beat, the greatest first.
    slack : those at the foot of the ranking that together make less than 1 % of its scatter.
    """

    scatter_running: float | None = figure(
        "Beat scatters, notch looked at, nine engines in ten, ±", "%", main=True
    )
    scatter_full: float | None = figure(
        "Beat scatters, full forward gear, nine engines in ten, ±", "%", main=True
    )
    three_share: float = figure("Made by the first three dimensions", "%", main=True)
    mean_running: float | None = figure(
        "Mean cut-off scatters, notch looked at, nine in ten, ±", "%", main=True
    )
    lead_running: float = figure("Leads differ, notch looked at, nine in ten, ±", main=True)
    drawn_running: float | None = figure(
        "Difference of the cut-offs as drawn, notch looked at, front less back", "%"
    )
    drawn_full: float | None = figure(
        "Difference of the cut-offs as drawn, full forward gear, front less back", "%"
    )
    linear_running: float | None = figure("Standard deviation by proportion, notch looked at", "%")
    trial_running: float | None = figure("Standard deviation of the trials, notch looked at", "%")
    other_setting: float | None = figure(
        "Standard deviation, notch looked at, with the valve set the other way", "%"
    )
    slack_count: int = figure(
        "Dimensions that hardly touch the beat as they are made", "count", main=True
    )
    lost: int = figure("Engines of the trial that do not run", "count")
    running: float
    dimensions: tuple[Dimension, ...]
    ranked: tuple[Ranked, ...]
    slack: tuple[Ranked, ...]
    sensitivities: Sensitivities
    trials: Trials
    scatter: tuple[EventScatter, ...]
    workings: tuple[Working, ...]
    suggestions: tuple[Suggestion, ...]
    findings: tuple[Finding, ...]
