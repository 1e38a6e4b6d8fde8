"""The line as a train runs over it: heights, curves, and how it lies in plan."""

from __future__ import annotations

import math
from bisect import bisect_right
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from .decisions import RIGHT, Line

Array = NDArray[np.float64]


@dataclass(frozen=True)
class Profile:
    """A line with its heights and curves added up from the start.

    Parameters
    ----------
    ends : where sections begin and end, m from the start.
    heights : there, m above the start.
    turned : there, curvature added up without its sense (an angle), radians.
    closed : a circuit, run lap after lap.
    """

    ends: tuple[float, ...]
    heights: tuple[float, ...]
    turned: tuple[float, ...]
    closed: bool

    @property
    def length(self) -> float:
        """Of one lap, or of the line, m."""
        return self.ends[-1]

    def height(self, at: float) -> float:
        """Return the height above the start, m; a circuit that does not close goes on climbing."""
        return self._along(self.heights, at)

    def mean(self, at: float, long: float) -> tuple[float, float]:
        """Return slope and curvature (1/m) under a train, in the mean over its length.

        Parameters
        ----------
        at : of its front, m from the start.
        long : the train, m, its weight evenly along it.
        """
        slope = self._along(self.heights, at) - self._along(self.heights, at - long)
        bent = self._along(self.turned, at) - self._along(self.turned, at - long)
        return slope / long, bent / long

    def _along(self, values: tuple[float, ...], at: float) -> float:
        ends, whole = self.ends, 0.0
        if self.closed:
            laps = math.floor(at / ends[-1])
            whole, at = laps * values[-1], at - laps * ends[-1]
        elif at <= 0.0:
            return 0.0  # level and straight before it begins
        elif at >= ends[-1]:
            return values[-1]
        i = min(bisect_right(ends, at), len(ends) - 1)
        part = (at - ends[i - 1]) / (ends[i] - ends[i - 1])
        return whole + values[i - 1] + part * (values[i] - values[i - 1])

    def steepest(self) -> float:
        """Return the greatest rise over length of a section; 0 where none rises."""
        rises = (
            (b - a) / (e - d)
            for a, b, d, e in zip(
                self.heights, self.heights[1:], self.ends, self.ends[1:], strict=False
            )
        )
        return max(0.0, *rises)


def profile_of(line: Line) -> Profile:
    """Return the line with heights and curves added up."""
    ends, heights, turned = [0.0], [0.0], [0.0]
    for one in line.sections:
        metres = one.length / 1000
        ends.append(ends[-1] + metres)
        heights.append(heights[-1] + metres * one.slope)
        turned.append(turned[-1] + (0.0 if one.radius is None else one.length / one.radius))
    return Profile(tuple(ends), tuple(heights), tuple(turned), line.closed)


def plan_of(line: Line) -> tuple[Array, ...]:
    """Return every section in plan, points (n, 2) in mm, setting out along +x."""
    x, y, heading = 0.0, 0.0, 0.0
    made = []
    for one in line.sections:
        turn, points = 0.0, np.array([[0.0, 0.0], [one.length, 0.0]])
        if one.radius is not None:
            sense, angle = (-1.0 if one.turns == RIGHT else 1.0), one.length / one.radius
            angles = np.linspace(0.0, angle, max(2, min(90, int(12 * angle) + 2)))
            points = one.radius * np.column_stack([np.sin(angles), sense * (1 - np.cos(angles))])
            turn = sense * angle
        cos, sin = math.cos(heading), math.sin(heading)
        placed = points @ np.array([[cos, sin], [-sin, cos]]) + np.array([x, y])
        made.append(placed)
        x, y = float(placed[-1, 0]), float(placed[-1, 1])
        heading += turn
    return tuple(made)


def misses_by(line: Line) -> tuple[float, float]:
    """Return by how much a circuit fails to close in plan and in height, mm."""
    end = plan_of(line)[-1][-1]
    return float(math.hypot(*end)), 1000 * profile_of(line).heights[-1]
