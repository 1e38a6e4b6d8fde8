"""The engine on a curve to the right, by construction on a plan.

The frames lie along x; y is to the left, outside the curve.  The track's middle is a circle
whose crown stands `crown` ahead of the driving axle and whose nearest line is `line` from
the frames' middle.  Every wheelset, and every truck with stops, lets the track pass within
some room to either side; where all these rooms have something in common the engine stands.
As the radius shrinks that common room closes, and what closes it sets the smallest curve.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

import numpy as np

from ..motion.frame import Array

STRAIGHT = 1.0e6
"""Radius in mm from which on a curve is called straight: a kilometre."""
_GRID = 33
_ROUNDS = 7
_HALVINGS = 44
_HAIR = 1e-6
"""Want of room in mm that counts for nothing."""


@dataclass(frozen=True)
class Stand:
    """Where the track has to pass the frames.

    Parameters
    ----------
    ahead : of the driving axle, mm.
    low, high : between which the track's middle may lie there, mm from the frames' middle.
    within : what the square of the circle's radius that the point keeps to has over that of
        the track, mm2; a bogie's pivot stands inside the track.
    wheel, flange : radius of the wheel, mm, and slope of its flange, degrees, of wheels that
        stand askew with the frames and so lose some play; else 0.
    """

    name: str
    ahead: float
    low: float
    high: float
    within: float = 0.0
    wheel: float = 0.0
    flange: float = 20.0


@dataclass(frozen=True)
class Pose:
    """The curve as the frames see it, mm; `passes` whether every wheelset finds its place."""

    radius: float
    crown: float
    line: float
    passes: bool

    @property
    def centre(self) -> tuple[float, float]:
        """Centre of the curve in the frames' axes, mm."""
        return self.crown, -self.radius - self.line

    def track(self, ahead: float, within: float = 0.0) -> float:
        """Return the track's middle, left of the frames' middle, mm."""
        inside = self.radius**2 + within - (ahead - self.crown) ** 2
        return math.sqrt(max(inside, 0.0)) - self.radius - self.line


def rooms(stands: tuple[Stand, ...], radius: float, crowns: Array) -> tuple[Array, Array]:
    """Return for every crown (n,) the least and the greatest line that all stands allow, mm."""
    lows, highs = [], []
    for one in stands:
        from_crown = one.ahead - crowns
        square = radius**2 + one.within - from_crown**2
        offset = np.sqrt(np.clip(square, 0.0, None)) - radius
        lost = np.where(square < 0, np.inf, 0.0)
        if one.wheel > 0:  # a flange ahead of its axle reaches the rail first
            askew = np.clip((from_crown / radius) ** 2, 0.0, 1.0)
            lost = lost + one.wheel * askew / (2 * math.tan(math.radians(one.flange)))
        lows.append(offset - one.high + lost)
        highs.append(offset - one.low - lost)
    return np.max(lows, axis=0), np.min(highs, axis=0)


def easiest(stands: tuple[Stand, ...], radius: float) -> tuple[float, float]:
    """Return the crown with the most room, and that room, negative where there is none, mm.

    Room less what the flanges lose is the least of straight lines and caps over the crown, so
    that it has one top.
    """
    ends = [one.ahead for one in stands]
    half = max(max(ends) - min(ends), 1.0)
    middle = (max(ends) + min(ends)) / 2
    best = -math.inf
    for _ in range(_ROUNDS):
        crowns = np.linspace(middle - half, middle + half, _GRID)
        low, high = rooms(stands, radius, crowns)
        room = np.where(np.isfinite(low) & np.isfinite(high), high - low, -np.inf)
        best = float(np.max(room))
        tops = crowns[room >= best - _HAIR / 2]  # several where the top is flat
        middle = float(tops[0] + tops[-1]) / 2
        half = 2 * half / (_GRID - 1)
    return middle, best


def smallest(stands: tuple[Stand, ...], least: float = 1.0) -> tuple[float, tuple[str, ...]]:
    """Return the smallest radius on which all stands find room, mm, and those that set it.

    Parameters
    ----------
    least : radius to look from.
    """
    ends = [one.ahead for one in stands]
    below, above = max((max(ends) - min(ends)) / 2, least), STRAIGHT
    if below >= above or easiest(stands, above)[1] < -_HAIR:
        return math.inf, _closing(stands, above)
    if easiest(stands, below)[1] >= -_HAIR:
        return below, ()
    for _ in range(_HALVINGS):
        half = math.sqrt(below * above)
        if easiest(stands, half)[1] >= -_HAIR:
            above = half
        else:
            below = half
    return above, _closing(stands, above)


def _closing(stands: tuple[Stand, ...], radius: float) -> tuple[str, ...]:
    """Return the stands whose rooms just touch, from the front."""
    crown, _ = easiest(stands, radius)
    low, high = rooms(stands, radius, np.array([crown]))
    near = 1e-3 + 1e-6 * radius
    names = []
    for one in sorted(stands, key=lambda each: -each.ahead):
        own_low, own_high = rooms((one,), radius, np.array([crown]))
        if own_low[0] > low[0] - near or own_high[0] < high[0] + near:
            names.append(one.name)
    return tuple(names)


def settled(stands: tuple[Stand, ...], radius: float, middle: float) -> Pose:
    """Return the engine with its plays shared out evenly: crown at `middle` if it passes so."""
    low, high = rooms(stands, radius, np.array([middle]))
    crown = middle
    if high[0] < low[0] or not math.isfinite(high[0] - low[0]):
        crown, _ = easiest(stands, radius)
        low, high = rooms(stands, radius, np.array([crown]))
    line = float(low[0] + high[0]) / 2
    passes = bool(high[0] - low[0] >= -2 * _HAIR)
    return Pose(radius, crown, line if math.isfinite(line) else 0.0, passes)


def spare(stand: Stand, pose: Pose) -> float:
    """Return the play left to one stand, negative where it has not enough, mm."""
    low, high = rooms((stand,), pose.radius, np.array([pose.crown]))
    return float(min(pose.line - low[0], high[0] - pose.line))


def loose(
    stands: tuple[Stand, ...], radius: float, around: float, bound: float
) -> tuple[Array, Array, Array]:
    """Return crowns (n,) on which the engine stands, and the lines it may have there, mm.

    Parameters
    ----------
    around : a crown on which it does.
    bound : how far from there to look, mm.
    """

    def end(way: int) -> float:
        near, far = 0.0, bound
        for _ in range(_HALVINGS):
            half = (near + far) / 2
            low, high = rooms(stands, radius, np.array([around + way * half]))
            near, far = (half, far) if high[0] >= low[0] else (near, half)
        return around + way * near

    crowns = np.linspace(end(-1), end(1), 129)
    low, high = rooms(stands, radius, crowns)
    return crowns, np.minimum(low, high), np.maximum(low, high)
