"""The turn of the cranks: steam pressures and the torque they make."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..measures import BAR
from ..motion.frame import Crank
from .steam import Events, Fill, indicated

Array = NDArray[np.float64]
Yes = NDArray[np.bool_]
STEPS = 360
"""Crank positions in a turn; each is a degree, so that an index is an angle."""


@dataclass(frozen=True, eq=False)
class Turning:
    """Torque around a turn at one cut-off; angles of the first crank, one degree apart.

    Parameters
    ----------
    torque : (cylinders, 360) of each cylinder, N mm.
    total : (360,) of all together, N mm.
    mean : work of a turn over 2 pi, N mm, in closed form.
    standing : (360,) torque of a start from rest with the regulator open, N mm.
    """

    torque: Array
    total: Array
    mean: float
    standing: Array


def cranks(number: int, angle: float) -> tuple[float, ...]:
    """Return by how many degrees each crank follows the first."""
    return tuple((i * angle) % 360 for i in range(number))


def turning(
    crank: Crank,
    areas: tuple[float, float],
    following: Sequence[float],
    fills: tuple[Fill, Fill],
    events: Events,
    outside: float,
) -> Turning:
    """Return the torque that the steam makes around a turn.

    Parameters
    ----------
    crank : with its connecting rod and the line of the cylinder.
    areas : piston area at the front, and at the back less the piston rod, mm2.
    following : degrees by which each crank follows the first.
    fills : what fills the front and the back end, see `steam.Fill`.
    events : of the steam, alike at both ends.
    outside : pressure on the piston rod's end, bar absolute.

    Friction and the weight of the moving parts are left out.
    Source: the torque is the piston force times dx/dtheta (virtual work).
    """
    theta = np.arange(STEPS, dtype=float)[None, :] - np.asarray(following, dtype=float)[:, None]
    part, rate = np.clip(crank.from_front(theta), 0.0, 1.0), crank.slope(theta)
    going_back = rate < 0
    pressures = (
        indicated(part, going_back, fills[0], events),
        indicated(1 - part, ~going_back, fills[1], events),
    )
    still = (
        _at_rest(part, going_back, fills[0], events),
        _at_rest(1 - part, ~going_back, fills[1], events),
    )
    rod_end = outside * (areas[0] - areas[1])
    # ahead is positive
    force = BAR * (pressures[1] * areas[1] + rod_end - pressures[0] * areas[0])
    force_at_rest = BAR * (still[1] * areas[1] + rod_end - still[0] * areas[0])
    torque = force * rate
    means = [area * fill.mean(events) for area, fill in zip(areas, fills, strict=True)]
    work = BAR * crank.piston_stroke * sum(means)
    return Turning(
        torque=torque,
        total=torque.sum(axis=0),
        mean=len(following) * work / math.tau,
        standing=(force_at_rest * rate).sum(axis=0),
    )


def _at_rest(part: Array, leaving: Yes, fill: Fill, events: Events) -> Array:
    """Return the pressure at rest: chest pressure where the port is open to steam, else none."""
    return np.where(leaving & (part < events.cutoff), fill.chest, fill.back)
