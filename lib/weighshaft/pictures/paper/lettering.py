"""Sizes of words on paper, and a place for each where it covers nothing else."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from functools import cache, lru_cache

import numpy as np
from matplotlib.font_manager import FontProperties
from matplotlib.textpath import TextPath

from ..scene import Array, Point
from .pens import MM_PER_POINT

BODY, HEADING, SMALL = 8.0, 9.5, 7.0
"""Sizes of lettering in points."""

LINE = 1.3
"""Line spacing as a multiple of the size."""

_HINTED = 1.05
"""Letters fitted to the pixels of a screen come out wider than their outlines."""

_CLEAR = 0.6  # mm of white kept round every word


_STOP = "|"  # stands behind letters, so that the width of a space shows


@lru_cache(maxsize=4096)
def width_of(text: str, points: float = BODY, bold: bool = False) -> float:
    """Return the width in mm of one line of lettering."""
    if not text.strip():
        return 0.0
    plain = text.replace("$", "S").rstrip()  # a dollar sign must not be taken for mathematics
    # letter by letter, each pair measured once: whole lines take a hundred times as long
    steps = sum(_step(plain[i : i + 2], bold) for i in range(len(plain) - 1))
    return (steps + _corner(plain[-1], bold)) * points * MM_PER_POINT * _HINTED


@cache
def _step(pair: str, bold: bool) -> float:
    """Return how far the second of two letters stands behind the first, for letters 1 high."""
    return _corner(f"{pair}{_STOP}", bold) - _corner(f"{pair[1]}{_STOP}", bold)


@cache
def _corner(letters: str, bold: bool) -> float:
    """Return the right end of a few letters 1 high."""
    font = FontProperties(size=1.0, weight="bold" if bold else "normal")
    # the curves of a letter lie within their corners; their true extent takes ten times as long
    corners = TextPath((0, 0), letters, prop=font).vertices
    return float(corners[:, 0].max()) if len(corners) else 0.0


def size_of(text: str, points: float = BODY, bold: bool = False) -> tuple[float, float]:
    """Return width and height in mm of text that may have several lines."""
    lines = text.split("\n")
    height = (1.0 + LINE * (len(lines) - 1)) * points * MM_PER_POINT
    return max(width_of(line, points, bold) for line in lines), height


def wrapped(text: str, width: float, points: float = BODY) -> str:
    """Return text broken at spaces into lines not wider than `width` mm, where words allow."""
    lines: list[str] = []
    for paragraph in text.split("\n"):
        line = ""
        for word in paragraph.split():
            longer = f"{line} {word}" if line else word
            if line and width_of(longer, points) > width:
                lines.append(line)
                line = word
            else:
                line = longer
        lines.append(line)
    return "\n".join(lines)


@dataclass(frozen=True)
class Box:
    """A rectangle on paper, mm."""

    x0: float
    y0: float
    x1: float
    y1: float

    def overlaps(self, other: Box) -> bool:
        """Whether the two have any area in common."""
        return (
            self.x0 < other.x1 and other.x0 < self.x1 and self.y0 < other.y1 and other.y0 < self.y1
        )

    def grown(self, by: float) -> Box:
        """Return the rectangle with `by` mm more on every side."""
        return Box(self.x0 - by, self.y0 - by, self.x1 + by, self.y1 + by)

    def moved(self, x: float, y: float) -> Box:
        """Return the rectangle shifted."""
        return Box(self.x0 + x, self.y0 + y, self.x1 + x, self.y1 + y)

    def holds(self, points: Array) -> int:
        """Return how many of the points (n, 2) lie inside."""
        x, y = points[:, 0], points[:, 1]
        inside = (x > self.x0) & (x < self.x1) & (y > self.y0) & (y < self.y1)
        return int(np.count_nonzero(inside))

    def nearest(self, point: Point) -> Point:
        """Return the point of the rectangle nearest to `point`."""
        return min(max(point[0], self.x0), self.x1), min(max(point[1], self.y0), self.y1)

    @staticmethod
    def around(boxes: Iterable[Box]) -> Box:
        """Return the rectangle round all of them."""
        x0, y0, x1, y1 = zip(*((b.x0, b.y0, b.x1, b.y1) for b in boxes), strict=True)
        return Box(min(x0), min(y0), max(x1), max(y1))


def text_box(at: Point, text: str, anchor: str, points: float = BODY, turned: float = 0.0) -> Box:
    """Return the rectangle that text takes, centred in height on `at`; turned in degrees."""
    width, height = size_of(text, points)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[anchor]
    corners = np.array([(left + i * width, (j - 0.5) * height) for i in (0, 1) for j in (0, 1)])
    if turned:
        c, s = math.cos(math.radians(turned)), math.sin(math.radians(turned))
        corners = corners @ np.array([[c, s], [-s, c]])
    (x0, y0), (x1, y1) = corners.min(axis=0), corners.max(axis=0)
    return Box(float(x0) + at[0], float(y0) + at[1], float(x1) + at[0], float(y1) + at[1])


_WAYS = tuple(
    (distance * math.cos(angle), distance * math.sin(angle))
    for distance in (0.0, 2.5, 4.0, 6.0, 9.0, 13.0, 18.0, 25.0, 34.0)
    for angle in (np.linspace(0, 2 * math.pi, 12, endpoint=False) + math.pi / 2)
    if distance or angle == math.pi / 2
)


class Places:
    """Words already placed and lines already drawn, in mm on paper."""

    def __init__(self, lines: Array) -> None:
        self._lines = lines
        self.taken: list[Box] = []

    def take(self, box: Box) -> None:
        """Keep a rectangle clear of later words."""
        self.taken.append(box)

    def lines_under(self, box: Box) -> int:
        """Return how many sampled points of the lines lie under a rectangle."""
        return box.holds(self._lines)

    def place(self, wanted: Box) -> tuple[float, float]:
        """Return the shift that brings the box clear of other words, and of lines if it can.

        Covering another word is never accepted while any place is free of it; a line under
        the words counts against a place as some millimetres of distance do.
        """
        best, best_cost = (0.0, 0.0), math.inf
        for way in _WAYS:
            distance = math.hypot(*way)
            if distance >= best_cost:
                break
            box = wanted.moved(*way).grown(_CLEAR)
            words = sum(box.overlaps(other) for other in self.taken)
            cost = distance + 1000.0 * words + 1.5 * min(self.lines_under(box), 12)
            if cost < best_cost:
                best, best_cost = way, cost
        self.take(wanted.moved(*best).grown(_CLEAR))
        return best


def sampled(points: Array, step: float = 1.0) -> Array:
    """Return points (m, 2) along a polyline not further than `step` mm apart."""
    if len(points) < 2:
        return points
    lengths = np.hypot(*np.diff(points, axis=0).T)
    along = np.concatenate([[0.0], np.cumsum(lengths)])
    count = min(max(2, math.ceil(float(along[-1]) / step) + 1), 4000)
    where = np.linspace(0.0, along[-1], count)
    return np.column_stack([np.interp(where, along, points[:, i]) for i in (0, 1)])
