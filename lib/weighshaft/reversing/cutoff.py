"""Where a wanted cut-off stands: the mean of both ends against the reverser, both directions.

On a grid of positions the valve's curve is interpolated; each notch wanted is then closed
in upon on the linkage itself, both ends' cut-off angles and the reverser together, so that
no events need be worked twice.  Of several openings in a turn the same one counts as in the
table of events: that which holds the dead centre, else the longest.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..motion import AnyGear, Crank, SlideValve, ValveSetting
from ..motion.events import setting_constant
from ..motion.frame import Array
from ..motion.kernel import GRID

POSITIONS = np.round(np.linspace(1.0, -1.0, 17), 6)
"""Positions of the reverser at which the curve is worked, full forward first."""
_STEP = float(GRID[1])
_FD = 1e-4
"""Step of the differences taken in crank angle (degrees)."""
_SLIGHT = 1e-6
"""Step of the differences taken in the reverser."""


@dataclass(frozen=True)
class CutoffCurve:
    """Cut-off over the reverser, running one way.

    Parameters
    ----------
    reverser : (n,) from full gear to mid gear.
    angle : (n, 2) crank angle at cut-off, front and back, degrees; NaN where there is none.
    percent : (n, 2) piston from that end, % of the stroke.
    """

    reverser: Array
    angle: Array
    percent: Array

    @property
    def mean(self) -> Array:
        """Mean of both ends, %, NaN where an end does not cut off."""
        mean: Array = self.percent.mean(axis=1)
        return mean


@dataclass(frozen=True)
class Found:
    """A cut-off found: reverser, and cut-off of the front and of the back end, %."""

    reverser: float
    front: float
    back: float


class Cutoffs:
    """The cut-offs of one gear and valve, prepared once for every notch asked for."""

    def __init__(
        self, crank: Crank, valve: SlideValve, gear: AnyGear, setting: ValveSetting
    ) -> None:
        self.crank, self.valve, self.gear = crank, valve, gear
        self.constant = setting_constant(crank, valve, gear, setting)
        self.signs = valve.sense * np.array([-1.0, 1.0])
        self.curves = self._worked()

    def openings(self, theta: Array, reverser: Array) -> Array:
        """Return by how much a port is open, mm: theta (n, k) with k even, front then back.

        The first half of the columns is asked of the front port, the second of the back.
        """
        xi = self.gear.pose(self.crank, theta, reverser[:, None]).valve + self.constant
        sign = np.repeat(self.signs, theta.shape[1] // 2)
        return sign * np.broadcast_to(xi, theta.shape) - self.valve.steam_lap

    def _worked(self) -> dict[int, CutoffCurve]:
        """Return the curves of forward and of backward running, by direction."""
        pose = self.gear.pose(self.crank, GRID[None, :], POSITIONS[:, None])
        shape = (len(POSITIONS), len(GRID))
        sound = np.ones(len(POSITIONS), dtype=bool)
        for margin in pose.margins.values():
            sound &= (np.broadcast_to(margin, shape) > 0).all(axis=1)
        xi = np.broadcast_to(pose.valve, shape) + self.constant
        half = len(POSITIONS) // 2 + 1
        made = {}
        for direction in (1, -1):
            rows = np.arange(len(POSITIONS))[::direction][:half]
            angle = np.full((half, 2), np.nan)
            for i, row in enumerate(rows):
                if sound[row]:
                    for end, centre in enumerate(self.crank.dead_centres):
                        opening = self.signs[end] * xi[row] - self.valve.steam_lap
                        angle[i, end] = _cutoff_angle(opening, direction, float(centre))
            made[direction] = CutoffCurve(POSITIONS[rows], angle, self._percent(angle))
        return made

    def _percent(self, angle: Array) -> Array:
        front = self.crank.from_front(angle)
        return 100 * np.stack([front[:, 0], 1 - front[:, 1]], axis=-1)

    def find(self, wanted: list[tuple[float, int]]) -> list[Found | str]:
        """Return where cut-offs are reached, or in words why one is not.

        Parameters
        ----------
        wanted : mean cut-off in % and direction, +1 or -1, of each notch.
        """
        starts = [self._bracket(percent, direction) for percent, direction in wanted]
        asked = [one for one in starts if not isinstance(one, str)]
        found = iter(self._polished(asked, [p for (p, _), s in zip(wanted, starts, strict=True)
                                            if not isinstance(s, str)]))  # fmt: skip
        return [one if isinstance(one, str) else next(found) for one in starts]

    def at_ends(self) -> tuple[Found | None, Found | None, Found | None]:
        """Return the cut-offs in full forward, mid (running forward) and full backward gear."""
        places = [(self.curves[1], 0), (self.curves[1], -1), (self.curves[-1], 0)]
        first = np.array([curve.angle[row] for curve, row in places])
        reverser = np.array([curve.reverser[row] for curve, row in places])
        known = np.isfinite(first).all(axis=1)
        angle, at = first[known], reverser[known]
        for _ in range(3 if known.any() else 0):
            value, slope, _ = self._slopes(angle, at)
            angle = angle - value / slope
        found = iter(zip(at, self._percent(angle), strict=True))
        made = [
            Found(*(float(v) for v in (r, *p))) if one else None
            for one in known
            for r, p in ([next(found)] if one else [(0.0, (0.0, 0.0))])
        ]
        return made[0], made[1], made[2]

    def _bracket(self, percent: float, direction: int) -> tuple[float, Array, int] | str:
        """Return first guesses of reverser and angles, going down from full gear."""
        curve = self.curves[direction]
        mean = curve.mean
        for first in range(len(mean) - 1):
            before, after = mean[first], mean[first + 1]
            if np.isfinite(before) and np.isfinite(after) and before >= percent >= after:
                share = 0.0 if before == after else (before - percent) / (before - after)
                turned = (curve.angle[first + 1] - curve.angle[first] + 180) % 360 - 180
                step = curve.reverser[first + 1] - curve.reverser[first]
                start = curve.reverser[first] + share * step
                return float(start), curve.angle[first] + share * turned, direction
        known = mean[np.isfinite(mean)]
        if len(known) and percent > known.max():
            return f"full gear cuts off at {known.max():.1f} %"
        if len(known) and percent < known.min():
            return f"towards mid gear it still cuts off at {known.min():.1f} %"
        return "the valve does not cut off there at both ends"

    def _slopes(self, angle: Array, reverser: Array) -> tuple[Array, Array, Array]:
        """Return opening at the two angles (n, 2), its slope in angle and in the reverser."""
        theta = np.stack([angle[:, 0], angle[:, 0] + _FD, angle[:, 1], angle[:, 1] + _FD], axis=1)
        step = np.where(reverser > 0, -_SLIGHT, _SLIGHT)  # never beyond full gear
        both = self.openings(
            np.concatenate([theta, theta]), np.concatenate([reverser, reverser + step])
        )
        here, there = np.split(both, 2)
        value = here[:, [0, 2]]
        return (
            value,
            (here[:, [1, 3]] - value) / _FD,
            (there[:, [0, 2]] - value) / step[:, None],
        )

    def _polished(
        self, starts: list[tuple[float, Array, int]], wanted: list[float]
    ) -> list[Found | str]:
        """Close in on all notches together by Newton's rule in three unknowns each."""
        if not starts:
            return []
        reverser = np.array([one[0] for one in starts])
        angle = np.array([one[1] for one in starts])
        side = np.array([one[2] for one in starts])
        target = np.array(wanted)
        miss = np.full(len(starts), np.inf)
        for _ in range(8):
            value, by_angle, by_reverser = self._slopes(angle, reverser)
            percent = self._percent(angle)
            by = (self._percent(angle + _FD) - percent) / _FD
            # both angles follow the reverser; the mean of both ends fixes the reverser
            rest = percent.mean(axis=1) - (by * value / by_angle).mean(axis=1) - target
            follow = (by * by_reverser / by_angle).mean(axis=1)
            moved = np.clip(rest / follow, -0.1, 0.1)
            new = np.clip(reverser + moved, -1.0, 1.0)
            turned = -(value + by_reverser * (new - reverser)[:, None]) / by_angle
            angle, reverser = angle + np.clip(turned, -20, 20), new
            miss = np.abs(self._percent(angle).mean(axis=1) - target)
            if np.abs(turned).max() < 1e-8 and miss.max() < 1e-8:
                break
        percent = self._percent(angle)
        return [
            Found(float(reverser[i]), float(percent[i, 0]), float(percent[i, 1]))
            if miss[i] < 1e-5 and reverser[i] * side[i] >= 0
            else "the linkage could not be followed to it"
            for i in range(len(starts))
        ]


def _cutoff_angle(opening: Array, running: int, centre: float) -> float:
    """Return the crank angle at which a port shuts to steam, NaN without an opening.

    Parameters
    ----------
    opening : (72,) of the port at the angles of the grid, mm.
    running : +1 or -1; running backward the opening is passed the other way.
    centre : dead centre of that end, degrees.
    """
    is_open = opening > 0
    if not is_open.any() or is_open.all():
        return float("nan")
    best, chosen = -1.0, float("nan")
    starts = np.flatnonzero(is_open & ~np.roll(is_open, 1))
    for start in starts:
        length = int(np.argmin(np.roll(is_open, -start)))
        begin = _crossing(opening, int(start) - 1)
        stop = _crossing(opening, int(start) + length - 1)
        holds = (centre - begin) % 360 <= (stop - begin) % 360
        rank = (stop - begin) % 360 + (1000 if holds else 0)
        if rank > best:
            best, chosen = rank, (stop if running > 0 else begin) % 360
    return chosen


def _crossing(opening: Array, before: int) -> float:
    """Return where the opening passes zero after a grid angle: a cubic through four points."""
    at = (before + np.arange(-1, 3)) % len(opening)
    y = opening[at]
    share = float(y[1] / (y[1] - y[2]))
    a = (-y[0] + 3 * y[1] - 3 * y[2] + y[3]) / 6
    b = (y[0] - 2 * y[1] + y[2]) / 2
    c = (-2 * y[0] - 3 * y[1] + 6 * y[2] - y[3]) / 6
    for _ in range(4):
        slope = 3 * a * share**2 + 2 * b * share + c
        if slope == 0:
            break
        share = min(
            max(share - float((((a * share + b) * share + c) * share + y[1]) / slope), 0), 1
        )
    return _STEP * (before + share)
