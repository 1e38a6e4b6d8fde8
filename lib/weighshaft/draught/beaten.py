"""The draught of an exhaust that comes in beats."""

from __future__ import annotations

from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ..nozzle.cones import Layout
from .ejector import WATER, Draught
from .front import FrontEnd
from .results import Scan

Array = NDArray[np.float64]

POINTS = 180
"""Of a turn; a beat of a four-beat engine then has 45."""


@dataclass(frozen=True)
class Beaten:
    """What the beats of a turn do together, as if the gases followed at once.

    Parameters
    ----------
    gas : drawn on the mean, kg/s.
    draught : mm water that would draw the same gases steadily.
    gauge : mean of the draught over the turn, mm water.
    back_pressure : its mean, bar; `dearer` that over what the mean flow would need.
    turn : draught over the turn, mm water.
    """

    gas: float
    draught: float
    gauge: float
    back_pressure: float
    dearer: float
    turn: tuple[float, ...]


def evenly(flow: tuple[float, ...]) -> Array:
    """Return a flow over a turn at no more than `POINTS` even angles, its mean kept.

    What flows back into the cylinders for a moment draws nothing and is left out.
    """
    values: Array = np.maximum(np.array(flow, dtype=float), 0.0)
    if len(values) <= POINTS:
        return values
    summed = np.concatenate([[0.0], np.cumsum(values)])
    at = np.linspace(0.0, len(values), POINTS + 1)
    made: Array = np.diff(np.interp(at, np.arange(len(summed)), summed)) * POINTS / len(values)
    return made


def beaten(front: FrontEnd, layout: Layout, flow: Array, mean: Draught) -> Beaten | None:
    """Return what a flow over a turn (kg/s, even angles) does; None where it cannot pass.

    Parameters
    ----------
    mean : what the mean flow does, (1,) or more, the first being meant.
    """
    each = front.draws(layout, flow)
    if not (np.isfinite(each.draught).all() and np.isfinite(mean.draught[0])):
        return None
    gas, back = float(each.gas.mean()), float(each.back_pressure.mean())
    return Beaten(
        gas=gas,
        draught=front.way(layout).resistance * gas**2 / WATER,
        gauge=float(each.draught.mean()),
        back_pressure=back,
        dearer=back / max(float(mean.back_pressure[0]), 1e-9),
        turn=tuple(each.draught.tolist()),
    )


def dearer(scan: Scan, by: float) -> Scan:
    """Return a scan of the mean flow with the back pressure that the beats make of it."""
    return replace(scan, back_pressure=scan.back_pressure * by)
