"""Turned and bored parts: sections through their axis, and holes on a circle."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from ..scene import Circle, Fill, Path, Point, Primitive
from .sheet import Outline, hole, polygon

Profile = Sequence[Point]
"""Places along the axis and radii there, from left to right, mm."""


def cut(outside: Profile, inside: Profile, part: str = "") -> list[Primitive | Outline]:
    """Return a bored part cut through its axis, which lies along x at y = 0."""
    made: list[Primitive | Outline] = []
    for up in (1, -1):
        ring = [(x, up * r) for x, r in outside] + [(x, up * r) for x, r in reversed(inside)]
        made.append(polygon(_without_doubles(ring), "section", part))
    return [*made, *edges(inside)]


def solid(outside: Profile, fill: Fill = "metal", part: str = "") -> list[Primitive | Outline]:
    """Return a turned part from the side, with a line wherever its diameter changes."""
    above = [(x, r) for x, r in outside if r > 0]
    ring = [(x, r) for x, r in outside] + [(x, -r) for x, r in reversed(above)]
    return [polygon(_without_doubles(ring), fill, part), *edges(outside[1:-1])]


def edges(profile: Profile) -> list[Path]:
    """Return the lines across at the ends of a profile and wherever it steps."""
    places: dict[float, float] = {}
    for x, r in profile:
        # behind a cut the smaller circle is seen whole, before it the larger one hides it
        places[round(x, 9)] = max(r, places.get(round(x, 9), 0.0))
    return [Path(np.array([[x, -r], [x, r]])) for x, r in places.items() if r > 0]


def thread(start: float, end: float, minor: float) -> list[Path]:
    """Return the thin lines of an outside thread along x (ISO 6410), and where it ends."""
    return [Path(np.array([[start, s * minor / 2], [end, s * minor / 2]]), "thin") for s in (1, -1)]


def axis_line(low: float, high: float, scale: float, height: float = 0.0) -> Path:
    """Return a centre line along x that stands out a little at both ends."""
    out = 3.0 / scale
    return Path(np.array([[low - out, height], [high + out, height]]), "centre")


def on_circle(count: int, circle: float, first: float) -> list[Point]:
    """Return places spaced evenly round a circle about the origin.

    Parameters
    ----------
    circle : its diameter, mm.
    first : of the first place, degrees anticlockwise from +x.
    """
    turns = [math.radians(first + 360 * n / count) for n in range(count)]
    return [(circle / 2 * math.cos(t), circle / 2 * math.sin(t)) for t in turns]


def holes(count: int, circle: float, diameter: float, first: float) -> list[Primitive | Outline]:
    """Return round holes on their pitch circle, each with its centre line."""
    made: list[Primitive | Outline] = [Circle((0.0, 0.0), circle / 2, "centre")]
    reach = 0.9 * diameter
    for x, y in on_circle(count, circle, first):
        out = math.hypot(x, y)
        ends = [[x * (1 + s * reach / out), y * (1 + s * reach / out)] for s in (-1, 1)]
        made += [hole((x, y), diameter), Path(np.array(ends), "centre")]
    return made


def _without_doubles(points: Sequence[Point]) -> list[Point]:
    kept = [p for n, p in enumerate(points) if n == 0 or math.dist(p, points[n - 1]) > 1e-9]
    return kept[:-1] if len(kept) > 1 and math.dist(kept[0], kept[-1]) < 1e-9 else kept
