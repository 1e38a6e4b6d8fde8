"""The crosshead on its slide bars: the force square to them around the turn."""

from __future__ import annotations

import math

import numpy as np

from ..measures import GRAVITY
from ..motion.frame import Array, Crank, radians

STEPS = 360
"""Crank positions in a turn, a degree apart."""


def acceleration(crank: Crank, theta: Array, omega: float) -> Array:
    """Return that of the crosshead along its bars, m/s2, ahead positive, at even speed.

    Parameters
    ----------
    theta : degrees.
    omega : rad/s.

    Source: the second derivative of the gudgeon pin's place, in closed form.
    """
    angle = radians(theta)
    throw, rod = crank.throw, crank.connecting_rod
    rise = crank.cylinder_offset + throw * np.sin(angle)
    first, second = throw * np.cos(angle), -throw * np.sin(angle)
    reach = np.sqrt(rod**2 - rise**2)
    bent = -(first**2 + rise * second) / reach - (rise * first) ** 2 / reach**3
    made: Array = (bent - throw * np.cos(angle)) * omega**2 / 1000
    return made


def on_the_bars(
    crank: Crank,
    thrust: float,
    mass: float,
    omega: float,
    *,
    direction: int = 1,
    slope: float = 0.0,
) -> tuple[Array, Array]:
    """Return crank angles, and the force of the crosshead on its bars, N, up positive.

    Full steam pressure drives the piston from one dead centre to the other, as in full gear
    with the regulator open; that is the most the bars bear.

    Parameters
    ----------
    thrust : of full pressure on the piston, N.
    mass : that goes to and fro with the crosshead, kg.
    omega : turning speed, rad/s.
    direction : +1 running forward, -1 backward.
    slope : of the cylinder, degrees.

    Source: equilibrium of the crosshead, the connecting rod a bar with a pin at each end.
    """
    theta = np.arange(STEPS, dtype=float)
    angle = radians(theta)
    ahead = np.sign(crank.slope(theta)) * direction
    push = thrust * ahead - mass * acceleration(crank, theta, omega)
    rise = crank.cylinder_offset + crank.throw * np.sin(angle)
    tangent = rise / np.sqrt(crank.connecting_rod**2 - rise**2)
    # along the rod acts push / cos; its part square to the bars is push times the tangent
    weight = mass * GRAVITY * math.cos(math.radians(slope))
    up: Array = -push * tangent - weight
    return theta, up
