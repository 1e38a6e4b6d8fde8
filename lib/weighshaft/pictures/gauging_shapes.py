"""Parts cut across where they have moved to, and outlines cut off at a window."""

from __future__ import annotations

import math
from collections.abc import Callable

import numpy as np

from ..frames import Bar, Part, Plate, Point, Solid, Whole, moved
from .scene import Array

_STEPS = 24


def clipped(points: Array, x0: float, y0: float, x1: float, y1: float) -> Array:
    """Return a closed outline cut off at a window, empty where it is outside.

    Source: I. E. Sutherland and G. W. Hodgman, Communications of the ACM 17 (1974), from memory.
    """
    made = [(float(x), float(y)) for x, y in points]
    for axis, at, sign in ((0, x0, 1), (0, x1, -1), (1, y0, 1), (1, y1, -1)):
        kept: list[tuple[float, float]] = []
        for before, one in zip(made[-1:] + made[:-1], made, strict=True):
            was, now = sign * (before[axis] - at), sign * (one[axis] - at)
            if (was >= 0) != (now >= 0):
                share = was / (was - now)
                kept.append(
                    (before[0] + share * (one[0] - before[0]),
                     before[1] + share * (one[1] - before[1]))
                )  # fmt: skip
            if now >= 0:
                kept.append(one)
        made = kept
    return np.array(made).reshape(-1, 2)


def cut(part: Part, whole: Whole, ahead: float, angle: float = 0.0) -> tuple[Array, ...]:
    """Return the outlines (n, 2) of a part cut across at a place, out to the right and up, mm.

    Parameters
    ----------
    ahead : of the driving axle, mm.
    angle : of the right-hand crank, degrees.
    """
    made = []
    for side in ("right", "left") if part.paired else ("right",):
        one = part.on("left" if side == "left" else "right")
        cos, sin, along, up = (
            float(value[0]) for value in moved(one, whole, np.array([angle]), side == "left")
        )

        def go(at: Point, cos: float = cos, sin: float = sin, along: float = along,
               up: float = up) -> Point:  # fmt: skip
            return at[0] * cos - at[1] * sin + along, at[0] * sin + at[1] * cos + up

        for solid in one.solids:
            made += _cut(solid, go, math.degrees(math.atan2(sin, cos)), ahead)
    return tuple(made)


def _cut(solid: Solid, go: Callable[[Point], Point], turned: float, x: float) -> list[Array]:
    if isinstance(solid, Plate):
        rings = [[go(at) for at in ring] for ring in (solid.outline, *solid.holes)]
        return [_slab(solid.inner, solid.outer, *span) for span in _across_rings(rings, x)]
    if isinstance(solid, Bar):
        (ax, ay), (bx, by) = go(solid.start), go(solid.end)
        span = _across_bar(ax, ay, bx, by, solid.half, x)
        return [] if span is None else [_slab(solid.inner, solid.outer, *span)]
    x0, y0 = go(solid.start[:2])
    return _across_round(x0, y0, solid.start[2], solid.length, solid.radius,
                         math.radians(solid.angle + turned), x)  # fmt: skip


def _slab(inner: float, outer: float, low: float, high: float) -> Array:
    return np.array([[inner, low], [outer, low], [outer, high], [inner, high]])


def _across_rings(rings: list[list[Point]], x: float) -> list[tuple[float, float]]:
    """Return the spans of height in which an outline with holes is cut at x."""
    heights = []
    for ring in rings:
        for (ax, ay), (bx, by) in zip(ring, ring[1:] + ring[:1], strict=True):
            if (ax > x) != (bx > x):
                heights.append(ay + (by - ay) * (x - ax) / (bx - ax))
    heights.sort()
    return list(zip(heights[::2], heights[1::2], strict=False))


def _across_bar(
    ax: float, ay: float, bx: float, by: float, half: float, x: float
) -> tuple[float, float] | None:
    heights = []
    for cx, cy in ((ax, ay), (bx, by)):
        room = half * half - (x - cx) ** 2
        if room >= 0:
            heights += [cy - math.sqrt(room), cy + math.sqrt(room)]
    length = math.hypot(bx - ax, by - ay)
    if length > 0:
        nx, ny = -(by - ay) / length * half, (bx - ax) / length * half
        for sign in (1, -1):
            one, other = ax + sign * nx, bx + sign * nx
            if min(one, other) <= x <= max(one, other) and one != other:
                share = (x - one) / (other - one)
                heights.append(ay + sign * ny + share * (by - ay))
    return (min(heights), max(heights)) if heights else None


def _across_round(
    x0: float, y0: float, z: float, length: float, radius: float, angle: float, x: float
) -> list[Array]:
    """Return the cut of a round body: a circle or ellipse, cut off at its ends, or a strip."""
    cos, sin = math.cos(angle), math.sin(angle)
    if abs(cos) < 1e-9:
        room = radius * radius - (x - x0) ** 2
        if room <= 0:
            return []
        ends = sorted((y0, y0 + length * sin))
        half = math.sqrt(room)
        return [_slab(z - half, z + half, *ends)]
    points = []
    for turn in np.linspace(-math.pi / 2, math.pi / 2, _STEPS + 1):
        v, w = radius * math.sin(turn), radius * math.cos(turn)
        u = (x - x0 + v * sin) / cos
        if -1e-9 <= u <= length + 1e-9:
            points.append((w, y0 + u * sin + v * cos))
    if len(points) < 2:
        return []
    right = np.array(points)
    return [np.concatenate([right * [1, 1] + [z, 0], (right * [-1, 1] + [z, 0])[::-1]])]
