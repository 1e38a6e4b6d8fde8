"""How far apart straight pieces stand in the plane of the engine's side, over arrays."""

from __future__ import annotations

import numpy as np

from ..motion.frame import Array

_NOTHING = 1e-300


def point_to_segment(px: Array, py: Array, ax: Array, ay: Array, bx: Array, by: Array) -> Array:
    """Return the squared distance of points from segments a-b, which may be points too."""
    dx, dy = bx - ax, by - ay
    ex, ey = px - ax, py - ay
    along = (ex * dx + ey * dy) / (dx * dx + dy * dy + _NOTHING)
    along = np.minimum(np.maximum(along, 0.0), 1.0)
    ex, ey = ex - along * dx, ey - along * dy
    square: Array = ex * ex + ey * ey
    return square


def between_segments(a: Array, b: Array, c: Array, d: Array) -> Array:
    """Return the distance between segments a-b and c-d, (...) for ends (..., 2).

    Where they cross the figure is negative: how far one would have to be moved to part
    them, so that it runs on without a step.
    """
    ax, ay, bx, by = a[..., 0], a[..., 1], b[..., 0], b[..., 1]
    cx, cy, dx, dy = c[..., 0], c[..., 1], d[..., 0], d[..., 1]
    square = np.minimum(
        np.minimum(
            point_to_segment(ax, ay, cx, cy, dx, dy), point_to_segment(bx, by, cx, cy, dx, dy)
        ),
        np.minimum(
            point_to_segment(cx, cy, ax, ay, bx, by), point_to_segment(dx, dy, ax, ay, bx, by)
        ),
    )
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    first = ux * (cy - ay) - uy * (cx - ax)
    second = ux * (dy - ay) - uy * (dx - ax)
    third = vx * (ay - cy) - vy * (ax - cx)
    fourth = vx * (by - cy) - vy * (bx - cx)
    crossing = (first * second < 0) & (third * fourth < 0)
    distance: Array = np.sqrt(square)
    return np.where(crossing, -distance, distance)


def nearest_points(a: Array, b: Array, c: Array, d: Array) -> tuple[Array, Array]:
    """Return the points of one segment a-b and one segment c-d that are nearest, each (2,)."""
    best: tuple[float, Array, Array] | None = None
    for p, q, r, turned in ((a, c, d, False), (b, c, d, False), (c, a, b, True), (d, a, b, True)):
        way = r - q
        along = float(np.clip(np.dot(p - q, way) / (np.dot(way, way) + _NOTHING), 0.0, 1.0))
        foot = q + along * way
        far = float(np.hypot(*(p - foot)))
        if best is None or far < best[0]:
            best = (far, foot, p) if turned else (far, p, foot)
    assert best is not None
    return best[1], best[2]
