"""The engine as a stiff body on its springs: how it bounces, and what uneven track does to it."""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..motion.frame import Array

Groups = tuple[tuple[int, ...], ...]
"""Indices of the axles that beams along each side join to one; alone, an axle is a group too."""


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


@dataclass(frozen=True)
class _Joined:
    """The groups: of each its rate and place, of each axle its group and its share in it.

    A beam hands its load on in fixed shares, taken as the springs' stiffness: then the group
    is one spring, as stiff as all of them, under the middle of the shares.
    """

    rate: Array
    ahead: Array
    group: list[int]
    share: Array


def _joined(supports: tuple[Support, ...], groups: Groups) -> _Joined:
    k = np.array([one.rate for one in supports])
    x = np.array([one.ahead for one in supports])
    groups = groups or tuple((n,) for n in range(len(supports)))
    rates = np.array([k[list(one)].sum() for one in groups])
    places = np.array([(k * x)[list(one)].sum() for one in groups]) / rates
    group = [next(g for g, one in enumerate(groups) if n in one) for n in range(len(supports))]
    return _Joined(rates, places, group, k / rates[group])


def modes(
    supports: tuple[Support, ...],
    mass: float,
    centre: float,
    gyration: float,
    groups: Groups = (),
) -> tuple[float, float | None]:
    """Return the frequencies at which the engine bounces and pitches, Hz.

    The two come together where the springs are not balanced about the centre of gravity;
    the one that bounces is that which moves the centre of gravity more.  With a single
    support nothing brings the pitch back, and None stands for it.

    Parameters
    ----------
    mass : on the springs, kg.
    centre, gyration : of it, ahead of the driving axle and radius, mm.
    groups : of axles that beams join.
    """
    joined = _joined(supports, groups)
    k, x = 2000 * joined.rate, (joined.ahead - centre) / 1000
    if len(k) < 2:
        return math.sqrt(float(k[0]) / mass) / (2 * math.pi), None
    inertia = np.sqrt([mass, mass * (gyration / 1000) ** 2])
    stiff = np.array([[k.sum(), (k * x).sum()], [(k * x).sum(), (k * x**2).sum()]])
    values, shapes = np.linalg.eigh(stiff / np.outer(inertia, inertia))
    found = [math.sqrt(max(float(one), 0.0)) / (2 * math.pi) for one in values]
    first = 0 if abs(shapes[0, 0]) >= abs(shapes[0, 1]) else 1
    return found[first], found[1 - first]


def twisted(
    supports: tuple[Support, ...], across: Across, twist: float, groups: Groups = ()
) -> tuple[tuple[float, float], ...]:
    """Return for each axle what its lighter wheel loses, N, and how far its boxes move, mm.

    On a track twisted 1 in `twist` every axle is tilted by its distance along; the frames,
    stiff, lie between them as the springs' moments balance.  A beam takes the mean of the
    axles that it joins.
    """
    tilt = np.array([one.ahead / twist / (2 * across.tread) for one in supports])
    k = np.array([one.rate for one in supports])
    joined = _joined(supports, groups)
    # each axle's moment about the centre line is 2 k b² times its tilt against the frames
    frames = (k * tilt).sum() / k.sum()
    means = np.bincount(joined.group, joined.share * tilt)
    moved = np.abs(tilt - frames) * across.box
    felt = np.abs(means[joined.group] - frames) * across.box
    lost = 2 * k * across.box * felt / (2 * across.tread)
    return tuple((float(a), float(b)) for a, b in zip(lost, moved, strict=True))


def dipping(
    supports: tuple[Support, ...], across: Across, groups: Groups = ()
) -> tuple[tuple[float, float], ...]:
    """Return for each axle what a wheel loses for a millimetre that it dips alone, N/mm.

    And how far its box then falls in the frames, over the dip: the frames follow with heave,
    pitch and roll as far as the other springs let them.
    """
    joined = _joined(supports, groups)
    k, places = joined.rate, joined.ahead
    x = np.array([one.ahead for one in supports])
    theirs, share = joined.group, joined.share
    half, roll = 1 / (2 * across.tread), k / k.sum()
    at = places[theirs]
    lost = (
        share**2
        * k[theirs]
        * (
            (1 - _followed(k, places, at, theirs)) / 2
            + 2 * (across.box * half) ** 2 * (1 - roll[theirs])
        )
    )
    falls = (1 - share * _followed(k, places, x, theirs)) / 2 + across.box * half * (
        1 - share * roll[theirs]
    )
    return tuple((float(a), float(b)) for a, b in zip(lost, falls, strict=True))


def _followed(k: Array, places: Array, at: Array, group: list[int]) -> Array:
    """Return how far the frames follow at places when a group alone is lowered, as a share."""
    if len(k) < 2:
        return np.ones(len(group))
    centre = (k * places).sum() / k.sum()
    spread = (k * (places - centre) ** 2).sum()
    own = places[group]
    followed: Array = k[group] * (1 / k.sum() + (at - centre) * (own - centre) / spread)
    return followed
