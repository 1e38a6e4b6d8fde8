"""How far apart two round bodies with flat ends stand."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
import numpy.typing as npt

Vector = npt.NDArray[np.float64]
AROUND, ALONG = 48, 13
"""Places on the surface of a body that are looked at: round it, and along it."""


@dataclass(frozen=True)
class Round:
    """A round body with flat ends: its axis from `start` to `end` in space, and its radius, mm."""

    start: Vector
    end: Vector
    radius: float

    def surface(self, more: tuple[float, ...] = ()) -> Vector:
        """Return places on its surface, (n, 3) mm.

        Parameters
        ----------
        more : shares of its length at which it is looked at besides.
        """
        along = self.end - self.start
        one, other = _square_to(along)
        turns = np.linspace(0.0, 2 * np.pi, AROUND, endpoint=False)
        ring = self.radius * (np.outer(np.cos(turns), one) + np.outer(np.sin(turns), other))
        shares = np.concatenate([np.linspace(0.0, 1.0, ALONG), np.clip(more, 0.0, 1.0)])
        middle = self.start + np.outer(shares, along)
        made: Vector = (middle[:, None, :] + ring).reshape(-1, 3)
        return np.concatenate([made, middle[[0, ALONG - 1]]])

    def off(self, places: Vector) -> Vector:
        """Return how far places are from it, mm; negative within.

        Source: distance from a solid of revolution, in the plane through its axis.
        """
        along = self.end - self.start
        long = float(np.linalg.norm(along))
        if long < 1e-12:
            beside: Vector = np.linalg.norm(places - self.start, axis=1) - self.radius
            return beside
        way = along / long
        x = (places - self.start) @ way
        out = np.linalg.norm(places - self.start - np.outer(x, way), axis=1) - self.radius
        past = np.maximum(-x, x - long)
        outside = np.hypot(np.maximum(out, 0.0), np.maximum(past, 0.0))
        made: Vector = outside + np.minimum(np.maximum(out, past), 0.0)
        return made


def apart(one: Round, other: Round) -> float:
    """Return the least distance of two round bodies, mm; negative where they run into each other.

    It is found on a net over both surfaces, finer where their axes come nearest: too great by
    some two thousandths of the radius at most.
    """
    s, t = _nearest(one, other)
    return float(min(other.off(one.surface((s,))).min(), one.off(other.surface((t,))).min()))


def _square_to(along: Vector) -> tuple[Vector, Vector]:
    """Return two directions square to a line and to each other."""
    long = float(np.linalg.norm(along))
    way = along / long if long > 1e-12 else np.array([1.0, 0.0, 0.0])
    least = np.eye(3)[int(np.argmin(np.abs(way)))]
    one = np.cross(way, least)
    one /= np.linalg.norm(one)
    return one, np.cross(way, one)


def _nearest(one: Round, other: Round) -> tuple[float, float]:
    """Return the shares of both lengths at which the axes, drawn on, are nearest."""
    u, v, w = one.end - one.start, other.end - other.start, one.start - other.start
    uu, uv, vv, uw, vw = (float(x @ y) for x, y in ((u, u), (u, v), (v, v), (u, w), (v, w)))
    lean = uu * vv - uv * uv
    if lean <= 1e-12 * max(uu * vv, 1e-30):
        return 0.5, 0.5
    return (uv * vw - vv * uw) / lean, (uu * vw - uv * uw) / lean
