"""The smallest curve that a rigid wheelbase goes round.

Convention.  The frames are straight.  Every coupled axle may slide its side play each way in
them, and every wheelset half of what the gauge leaves each way between the rails; all of
both is used.  Three axles then need a curve on which the middle one stands off the chord of
the outer two by no more than these plays allow: the end wheels press against the outer
rail, the middle ones against the inner.  So the track's centre line is, at the limit, the
circle through three known points.  A wheel that stands askew uses up some of its play,
because its flange reaches the rail ahead of the axle.  Two axles alone always lie on some
circle; for them that reach and the greatest angle of NEM 111 decide.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from itertools import combinations

from . import relations
from .results import CurveAxle, CurveLayout

_HALVINGS = 60
STRAIGHT = 1.0e6
"""Radius in mm from which on a curve is called straight: a kilometre."""


@dataclass(frozen=True)
class Limit:
    """A limit of the radius: which rule sets it, and the axles (indices) that meet it."""

    radius: float
    rule: str
    axles: tuple[int, ...]


def circle_through(
    p: tuple[float, float], q: tuple[float, float], r: tuple[float, float]
) -> tuple[float, tuple[float, float]]:
    """Return radius and centre of the circle through three points, infinite if in line."""
    (ax, ay), (bx, by), (cx, cy) = p, q, r
    twice = 2 * (ax * (by - cy) + bx * (cy - ay) + cx * (ay - by))
    if abs(twice) < 1e-12:
        return math.inf, (math.nan, math.inf)
    a2, b2, c2 = ax * ax + ay * ay, bx * bx + by * by, cx * cx + cy * cy
    ux = (a2 * (by - cy) + b2 * (cy - ay) + c2 * (ay - by)) / twice
    uy = (a2 * (cx - bx) + b2 * (ax - cx) + c2 * (bx - ax)) / twice
    return math.hypot(ax - ux, ay - uy), (ux, uy)


def reach(ahead: float, radius: float, wheel_radius: float, flange_angle: float) -> float:
    """Return the play that a wheel uses up by standing askew, mm.

    Parameters
    ----------
    ahead : distance of the axle from the point where the frames lie along the curve, mm.
    radius, wheel_radius : mm.
    flange_angle : slope of the flange's face from the plane of the wheel, degrees.
    """
    askew = math.asin(min(abs(ahead) / radius, 1.0))
    return relations.flange_reach(wheel_radius, askew, math.radians(flange_angle))


def _three(
    xs: tuple[float, ...], freedoms: tuple[float, ...], wheel_radius: float, flange_angle: float
) -> float:
    """Return the smallest radius for three axles, the middle one in between."""
    middle = (xs[0] + xs[2]) / 2
    low = abs(xs[0] - xs[2]) / 2

    def needed(radius: float) -> float:
        left = [
            f - reach(x - middle, radius, wheel_radius, flange_angle)
            for x, f in zip(xs, freedoms, strict=True)
        ]
        if min(left[0] + left[1], left[2] + left[1]) <= 0:
            return math.inf
        a, m, c = (xs[0], -left[0]), (xs[1], left[1]), (xs[2], -left[2])
        if (a[0] - m[0]) * (c[0] - m[0]) + (a[1] - m[1]) * (c[1] - m[1]) >= 0:
            return low  # more play than a half circle needs
        return circle_through(a, m, c)[0]

    # `needed` falls as the radius grows, since the wheels stand less askew
    below, above = low, STRAIGHT
    if needed(above) >= above:
        return math.inf
    for _ in range(_HALVINGS):
        half = math.sqrt(below * above)
        below, above = (below, half) if needed(half) <= half else (half, above)
    return above


def smallest(
    positions: tuple[float, ...],
    plays: tuple[float, ...],
    rail_play: float,
    wheel_radius: float,
    flange_angle: float,
    greatest_angle: float,
) -> Limit:
    """Return the smallest radius (mm) of the track's centre line, and what sets it.

    Parameters
    ----------
    positions : coupled axles along the engine, mm, in order.
    plays : side play of each in the frames, each way, mm.
    rail_play : what the gauge leaves, both sides together, mm.
    wheel_radius : over the tread, mm.
    flange_angle : degrees.
    greatest_angle : of a wheel to the rail, degrees (NEM 111).
    """
    base = abs(positions[0] - positions[-1])
    ends = (0, len(positions) - 1)
    limits = [Limit(0.0, "a single axle", ends)]
    if base > 0:
        angle = math.radians(greatest_angle)
        by_angle = relations.radius_of_attack(base, angle)
        limits.append(Limit(by_angle, "the greatest angle of a wheel to the rail", ends))
        sine = math.sqrt(max(rail_play, 0.0) * math.tan(math.radians(flange_angle)) / wheel_radius)
        by_flange = base / (2 * min(sine, 1.0)) if sine > 0 else math.inf
        limits.append(Limit(by_flange, "both flanges of an end axle touching", ends))
    freedoms = tuple(play + rail_play / 2 for play in plays)
    for trio in combinations(range(len(positions)), 3):
        xs = tuple(positions[i] for i in trio)
        radius = _three(xs, tuple(freedoms[i] for i in trio), wheel_radius, flange_angle)
        limits.append(Limit(radius, "the side play of the middle axle against the ends", trio))
    return max(limits, key=lambda limit: limit.radius)


def layout(
    positions: tuple[float, ...],
    plays: tuple[float, ...],
    rail_play: float,
    gauge: float,
    radius: float,
    trucks: tuple[float, ...],
) -> CurveLayout:
    """Return the engine on a curve to the right, the plays shared out as evenly as they go.

    Parameters
    ----------
    positions, plays, rail_play : as in `smallest`, mm.
    gauge : of the track, with its widening, mm.
    radius : of the curve's centre line, mm.
    trucks : axles of the trucks along the engine, mm; they follow the track.
    """
    freedoms = tuple(play + rail_play / 2 for play in plays)
    middle = _crown(positions, freedoms, radius)
    low, high = _room(positions, freedoms, radius, middle)
    line = (low + high) / 2
    axles = []
    for x, play in zip(positions, plays, strict=True):
        wanted = _track(x, radius, middle) - line
        axles.append(CurveAxle(x, max(-play, min(play, wanted)), True))
    for x in trucks:
        axles.append(CurveAxle(x, _track(x, radius, middle) - line, False))
    return CurveLayout(
        radius=radius,
        gauge=gauge,
        centre=(middle, -radius - line),
        axles=tuple(axles),
        passes=low <= high + 1e-6,
    )


def _track(x: float, radius: float, crown: float) -> float:
    """Return the track's centre line at x, 0 at the curve's crown and falling from it, mm."""
    return math.sqrt(max(radius**2 - (x - crown) ** 2, 0.0)) - radius


def _room(
    positions: tuple[float, ...], freedoms: tuple[float, ...], radius: float, crown: float
) -> tuple[float, float]:
    """Return the two heights between which the frames may lie; crossed where they cannot."""
    places = [_track(x, radius, crown) for x in positions]
    low = max(place - f for place, f in zip(places, freedoms, strict=True))
    high = min(place + f for place, f in zip(places, freedoms, strict=True))
    return low, high


def _crown(positions: tuple[float, ...], freedoms: tuple[float, ...], radius: float) -> float:
    """Return where along the engine the frames lie parallel to the curve, for the most room."""

    def room(crown: float) -> float:
        low, high = _room(positions, freedoms, radius, crown)
        return high - low

    left, right = min(positions), max(positions)
    if room((left + right) / 2) > 0:
        return (left + right) / 2
    for _ in range(_HALVINGS):
        third = (right - left) / 3
        if room(left + third) < room(right - third):
            left += third
        else:
            right -= third
    return (left + right) / 2
