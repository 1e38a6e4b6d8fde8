"""The engine as a stiff body on its springs: how it bounces, and what uneven track does to it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..motion.frame import Array


@dataclass(frozen=True)
class Support:
    """One axle as the frames feel it.

    Parameters
    ----------
    ahead : mm.
    rate : of all springs of one box, N/mm.
    wheel : load of one wheel on the rail, N.
    """

    ahead: float
    rate: float
    wheel: float


@dataclass(frozen=True)
class Across:
    """Half the distance of the boxes' middles and of the wheels' treads, mm."""

    box: float
    tread: float


def modes(
    supports: tuple[Support, ...], mass: float, centre: float, gyration: float
) -> tuple[float, float | None]:
    """Return the frequencies at which the engine bounces and pitches, Hz.

    The two come together where the springs are not balanced about the centre of gravity;
    the one that bounces is that which moves the centre of gravity more.

    Parameters
    ----------
    mass : on the springs, kg.
    centre, gyration : of it, ahead of the driving axle and radius, mm.
    """
    k = np.array([2000 * one.rate for one in supports])
    x = np.array([(one.ahead - centre) / 1000 for one in supports])
    if len(supports) < 2:
        return math.sqrt(float(k[0]) / mass) / (2 * math.pi), None
    inertia = np.sqrt([mass, mass * (gyration / 1000) ** 2])
    stiff = np.array([[k.sum(), (k * x).sum()], [(k * x).sum(), (k * x**2).sum()]])
    values, shapes = np.linalg.eigh(stiff / np.outer(inertia, inertia))
    found = [math.sqrt(max(float(one), 0.0)) / (2 * math.pi) for one in values]
    first = 0 if abs(shapes[0, 0]) >= abs(shapes[0, 1]) else 1
    return found[first], found[1 - first]


def twisted(
    supports: tuple[Support, ...], across: Across, twist: float
) -> tuple[tuple[float, float], ...]:
    """Return for each axle what its lighter wheel loses, N, and how far its boxes move, mm.

    On a track twisted 1 in `twist` every axle is tilted by its distance along; the frames,
    stiff, lie between them as the springs' moments balance.
    """
    tilt = np.array([one.ahead / twist / (2 * across.tread) for one in supports])
    k = np.array([one.rate for one in supports])
    # each axle's moment about the centre line is 2 k b² times its tilt against the frames
    against = tilt - (k * tilt).sum() / k.sum()
    moved = np.abs(against) * across.box
    lost = 2 * k * across.box * moved / (2 * across.tread)
    return tuple((float(a), float(b)) for a, b in zip(lost, moved, strict=True))


def dipping(
    supports: tuple[Support, ...], across: Across
) -> tuple[tuple[float, float], ...]:
    """Return for each axle what a wheel loses for a millimetre that it dips alone, N/mm.

    And how far its box then falls in the frames, over the dip: the frames follow with heave,
    pitch and roll as far as the other springs let them.
    """
    k = np.array([one.rate for one in supports])
    held = _followed(supports)
    half, roll = 1 / (2 * across.tread), k / k.sum()
    heaves = (1 - held) / 2
    rolls = across.box * half * (1 - roll)
    lost = k * heaves + 2 * k * across.box * rolls * half
    return tuple((float(a), float(b)) for a, b in zip(lost, heaves + rolls, strict=True))


def _followed(supports: tuple[Support, ...]) -> Array:
    """Return for each axle how far the frames follow when it alone is lowered, as a share."""
    k = np.array([one.rate for one in supports])
    x = np.array([one.ahead for one in supports])
    if len(supports) < 3:
        return np.ones(len(supports))
    centre = (k * x).sum() / k.sum()
    spread = (k * (x - centre) ** 2).sum()
    followed: Array = k * (1 / k.sum() + (x - centre) ** 2 / spread)
    return followed
