"""Outlines of plain bodies: from the side, from above, cut across, and as they move."""

from __future__ import annotations

import math

import numpy as np

from ..frames import Bar, Part, Plate, Round, Solid, Whole, moved
from .scene import Array, box

_CAP = 9


def from_side(solid: Solid) -> Array:
    """Return the outline (n, 2) of a body seen from the side, mm."""
    if not isinstance(solid, Bar):
        return np.array(solid.outline, dtype=float)
    (ax, ay), (bx, by) = solid.start, solid.end
    way = math.atan2(by - ay, bx - ax)
    turn = np.linspace(-np.pi / 2, np.pi / 2, _CAP)
    first, last = turn + way + np.pi, turn + way
    return np.concatenate(
        [
            np.column_stack([bx + solid.half * np.cos(last), by + solid.half * np.sin(last)]),
            np.column_stack([ax + solid.half * np.cos(first), ay + solid.half * np.sin(first)]),
        ]
    )


def from_above(solid: Solid) -> Array:
    """Return the corners (4, 2) of a body seen from above: ahead and out to the right, mm."""
    low, high = solid.extent
    return box(low[0], low[2], high[0], high[2])


def cut(solid: Solid, x: float) -> tuple[float, float, float, float] | None:
    """Return the rectangle in which a plane across the engine cuts a body.

    A round along the engine is cut in its circle, whose bounds these then are.

    Returns
    -------
    inner, outer, bottom, top : mm, or None where the plane misses it.
    """
    low, high = solid.extent
    if not low[0] <= x <= high[0]:
        return None
    if isinstance(solid, Round) and abs(math.cos(math.radians(solid.angle))) > 0.5:
        return low[2], high[2], *_round_cut(solid, x)
    if isinstance(solid, Round):
        # an upright round: the chord at that place
        half = math.sqrt(max(solid.radius**2 - (x - solid.start[0]) ** 2, 0.0))
        z = solid.start[2]
        return z - half, z + half, low[1], high[1]
    if isinstance(solid, Bar) and solid.start == solid.end:
        half = math.sqrt(max(solid.half**2 - (x - solid.start[0]) ** 2, 0.0))
        return solid.inner, solid.outer, solid.start[1] - half, solid.start[1] + half
    heights = _crossings(from_side(solid), x)
    if not heights:
        return None
    return solid.inner, solid.outer, min(heights), max(heights)


def _round_cut(solid: Round, x: float) -> tuple[float, float]:
    slope = math.tan(math.radians(solid.angle))
    middle = solid.start[1] + slope * (x - solid.start[0])
    return middle - solid.radius, middle + solid.radius


def spans(plate: Plate, x: float) -> list[tuple[float, float]]:
    """Return the heights between which a plane across the engine cuts metal of a plate, mm."""
    heights = sorted(_crossings(np.array(plate.outline), x))
    return list(zip(heights[::2], heights[1::2], strict=False))


def _crossings(outline: Array, x: float) -> list[float]:
    found = []
    for (ax, ay), (bx, by) in zip(outline, np.roll(outline, -1, axis=0), strict=True):
        if (ax <= x) != (bx <= x):
            found.append(float(ay + (by - ay) * (x - ax) / (bx - ax)))
    return found


def turned(
    points: Array, part: Part, whole: Whole, theta: Array, left: bool = False, up: float = 0.0
) -> Array:
    """Return points (n, 2) of a part as it moves, (frames, n, 2), mm.

    Parameters
    ----------
    theta : (frames,) degrees of the right-hand crank.
    up : by how much its axle stands above its place, mm.
    """
    cos, sin, ahead, rise = (one[:, None] for one in moved(part, whole, theta, left))
    x, y = points[None, :, 0], points[None, :, 1]
    made: Array = np.stack([x * cos - y * sin + ahead, x * sin + y * cos + rise + up], axis=-1)
    return np.round(made, 3)


def lifted(part: Part, whole: Whole, axle_up: float) -> float:
    """Return by how much a part stands up when the driving axle goes up, its neighbours down.

    Parameters
    ----------
    axle_up : of the rise, -1 to +1.
    """
    if part.axle is None:
        return 0.0
    driving = next(n for n, one in enumerate(whole.axles) if one.name == "driving")
    sign = 1 if (part.axle - driving) % 2 == 0 else -1
    return sign * axle_up * whole.rise
