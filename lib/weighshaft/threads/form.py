"""The form of a thread in section: flanks, crests and roots, male and female."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from ..trade.threads import Thread

Array = NDArray[np.float64]

RADIUS = {"Whitworth": 0.137329, "BA": 0.180834}
"""Radius of crest and root in pitches: BS 84, BS 93 (depth 0.6 p at 47½°)."""


def root_radius(one: Thread) -> float:
    """Return the radius (mm) of the root of a male 60° thread that runs down to its core."""
    half = math.radians(one.angle / 2)
    sharp = one.pitch / 4 / math.tan(half) - (one.effective - one.minor) / 2
    return sharp / (1 / math.sin(half) - 1)


def profile(one: Thread, along: Array, *, male: bool) -> Array:
    """Return the basic profile: radius from the axis (mm) at places along the thread.

    Parameters
    ----------
    one : thread; a crest of the male thread stands at 0.
    along : (n,) places, mm.
    male : the male form, or the female one before the hole cuts its crests.
    """
    pitch = one.pitch
    x = np.abs(np.remainder(along + pitch / 2, pitch) - pitch / 2)
    half = math.radians(one.angle / 2)
    flank = one.effective / 2 + (pitch / 4 - x) / math.tan(half)
    if one.form == "60°":
        return _flat(one, x, flank, half, male)
    r = RADIUS[one.form] * pitch
    reach = r * math.cos(half)  # where an arc meets the flank
    crest = one.effective / 2 + _above(pitch, half, r)
    root = one.effective - crest  # the form is the same upside down
    over = np.sqrt(np.maximum(r**2 - np.minimum(x, r) ** 2, 0.0))
    under = np.sqrt(np.maximum(r**2 - np.minimum(pitch / 2 - x, r) ** 2, 0.0))
    shape = np.where(x < reach, crest - r + over, flank)
    rounded: Array = np.where(x > pitch / 2 - reach, root + r - under, shape)
    return rounded


def _above(pitch: float, half: float, r: float) -> float:
    """Return how far (mm) a rounded crest stands above the pitch line."""
    return pitch / 4 / math.tan(half) - r * (1 / math.sin(half) - 1)


def _flat(one: Thread, x: Array, flank: Array, half: float, male: bool) -> Array:
    shape = np.minimum(flank, one.major / 2)
    if not male:
        below: Array = np.maximum(shape, one.minor_internal / 2)
        return below
    r = root_radius(one)
    root = one.effective / 2 - _above(one.pitch, half, r)
    from_root = one.pitch / 2 - x
    under = np.sqrt(np.maximum(r**2 - np.minimum(from_root, r) ** 2, 0.0))
    rounded: Array = np.where(from_root < r * math.cos(half), root + r - under, shape)
    return rounded


def female_profile(one: Thread, along: Array, hole: float, clearance: float) -> Array:
    """Return the female profile as tapped: its crests cut by the hole, its slack added.

    Parameters
    ----------
    one : thread.
    along : (n,) places, mm.
    hole : tapping drill, mm.
    clearance : on the effective diameter, mm.
    """
    tapped: Array = np.maximum(profile(one, along, male=False) + clearance / 2, hole / 2)
    return tapped
