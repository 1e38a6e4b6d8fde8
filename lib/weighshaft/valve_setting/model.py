"""How far each port is open at the crank angles of the readings, for engines with faults.

Many engines may be asked about at once, each with its own faults and its own readings; the
derivatives by every fault ride along in the imaginary part of the pose.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from numpy.typing import NDArray

from ..motion import Crank, SlideValve
from ..motion.frame import STEP, Array
from ..motion.kernel import Gear
from ..motion.many import derivative, spread
from .faults import Fault
from .readings import Points, edge_of

_STENCIL = 1.0
"""The curvature of an opening is taken over this to either side, degrees."""
_BLOCK = 4000
"""Poses asked for at once, so that their arrays stay in the near cache."""


@dataclass(frozen=True)
class Opened:
    """Openings at the readings of T engines, (T, m), and what they change by.

    Parameters
    ----------
    opening : mm.
    slope : by the crank angle, mm a degree.
    by_fault : (T, m, n) by each fault, mm a mm or a degree.
    theta : (T, m) where a greatest opening has been followed to, degrees.
    """

    opening: Array
    slope: Array
    by_fault: Array
    theta: Array

    @property
    def sound(self) -> NDArray[np.bool_]:
        """(T,) whether the engine goes together at all its readings."""
        amiss = ~np.isfinite(self.by_fault).all(axis=2) | ~np.isfinite(self.opening)
        whole: NDArray[np.bool_] = ~np.any(amiss, axis=1)
        return whole


@dataclass(frozen=True)
class Bench:
    """An engine's gear on the stand.

    Parameters
    ----------
    gear : with errors of its own for either eccentric, where it has two.
    setting : that was added to the valve's place as designed, without its offset, mm.
    """

    crank: Crank
    gear: Gear
    valve: SlideValve
    setting: float
    faults: tuple[Fault, ...]

    @property
    def possible(self) -> Array:
        """(n,) how far each may be out."""
        return np.array([fault.possible for fault in self.faults])

    def opened(self, points: Points, faults: Array, theta: Array, bend: Array) -> Opened:
        """Return the openings at the readings.

        Parameters
        ----------
        faults : (T, n) mm and degrees.
        theta, bend : (T, m) crank angles, degrees, and curvature there; see `bend`.
        """
        sort = {one.sort: i for i, one in enumerate(self.faults)}
        zero = faults[:, sort["disc"], None] * points.disc
        place, by_gear, slope, moved = self._valve(points.reversers, faults, theta - zero)
        shift = self.setting + points.offset + faults[:, sort["valve"], None] * points.shift
        lap = self.valve.steam_lap + faults[:, sort["lap"]]
        exhaust = self.valve.exhaust_lap + faults[:, sort["exhaust lap"]]
        level = lap[:, None] * points.steam + exhaust[:, None] * points.exhaust
        slope = points.sign * slope
        with np.errstate(divide="ignore", invalid="ignore"):
            away = np.clip(np.where(points.peak & (bend < 0), -slope / bend, 0.0), -20.0, 20.0)
        by_fault = np.zeros((*theta.shape, len(self.faults)))
        by_fault[..., moved] = points.sign[:, None] * by_gear
        by_fault[..., sort["valve"]] = points.sign * points.shift
        by_fault[..., sort["lap"]] = -points.steam
        by_fault[..., sort["exhaust lap"]] = -points.exhaust
        by_fault[..., sort["disc"]] = -slope * points.disc
        return Opened(
            opening=points.sign * (place + shift) - level + 0.5 * slope * away,
            slope=np.where(points.peak, 0.0, slope),
            by_fault=by_fault,
            theta=theta + away,
        )

    def bend(self, points: Points, faults: Array, theta: Array) -> Array:
        """Return the curvature of the openings, (T, m) mm a degree squared."""
        gear, _ = self.spread(faults)
        near = theta[..., None] + np.array([-_STENCIL, 0.0, _STENCIL])
        with np.errstate(all="ignore"):
            xi = gear.pose(self.crank, near, points.reversers[:, None]).valve
        found: Array = points.sign * (xi[..., 2] - 2 * xi[..., 1] + xi[..., 0]) / _STENCIL**2
        return np.nan_to_num(found)

    def curves(self, faults: Array, reversers: Sequence[float], theta: Array) -> Array:
        """Return how the valve's place after setting changes by each fault, (rows, angles, n).

        Parameters
        ----------
        faults : (n,) of one engine.
        theta : (angles,) degrees.
        """
        rows = np.repeat(np.array(reversers, dtype=float), len(theta))
        _, by_gear, _, moved = self._valve(rows, faults[None], np.tile(theta, len(reversers))[None])
        by = np.zeros((len(rows), len(self.faults)))
        by[:, moved] = by_gear[0]
        senses = [edge_of(self.gear, self.valve, r, "front", steam=True).shift for r in reversers]
        by[:, 0] = np.repeat(senses, len(theta))
        return by.reshape(len(reversers), len(theta), -1)

    def spread(self, faults: Array) -> tuple[Gear, SlideValve]:
        """Return gear and valve with the faults of T engines in rows, (T, n)."""
        changes: dict[str, Array] = {}
        for i, fault in enumerate(self.faults):
            for field, rate in fault.changes:
                changes[field] = changes.get(field, getattr(self.gear, field)) + rate * faults[:, i]
        sort = {one.sort: i for i, one in enumerate(self.faults)}
        laps = {
            "steam_lap": self.valve.steam_lap + faults[:, sort["lap"]],
            "exhaust_lap": self.valve.exhaust_lap + faults[:, sort["exhaust lap"]],
            "valve_offset": self.valve.valve_offset + faults[:, sort["valve"]],
        }
        return spread(self.gear, changes), spread(self.valve, laps)

    def made(self, faults: Array) -> SlideValve:
        """Return the valve of one engine with its faults (n,)."""
        own = {one.sort: float(by) for one, by in zip(self.faults, faults, strict=True)}
        return replace(
            self.valve,
            steam_lap=self.valve.steam_lap + own["lap"],
            exhaust_lap=self.valve.exhaust_lap + own["exhaust lap"],
            valve_offset=self.valve.valve_offset + own["valve"],
        )

    def _valve(
        self, reversers: Array, faults: Array, theta: Array
    ) -> tuple[Array, Array, Array, list[int]]:
        """Return where the valve stands, and its change by the gear's faults and by the crank.

        Returns
        -------
        (T, m), (T, m, g), (T, m) a degree, and which faults the g are.
        """
        moved = [i for i, fault in enumerate(self.faults) if fault.changes]
        per = max(1, _BLOCK // ((len(moved) + 1) * max(theta.shape[1], 1)))
        parts = [
            self._posed(reversers, faults[at : at + per], theta[at : at + per], moved)
            for at in range(0, len(faults), per)
        ]
        place, by = (np.concatenate([part[i] for part in parts]) for i in (0, 1))
        return place, by[..., :-1], by[..., -1], moved

    def _posed(
        self, reversers: Array, faults: Array, theta: Array, moved: list[int]
    ) -> tuple[Array, Array]:
        """Return where the valve stands, (T, m), and its derivatives by faults and crank angle."""
        ways = len(moved) + 1
        eye = 1j * STEP * np.eye(ways)
        changes: dict[str, Array] = {}
        for own, i in enumerate(moved):
            for field, rate in self.faults[i].changes:
                row = rate * (faults[:, i, None] + eye[own])
                changes[field] = changes.get(field, getattr(self.gear, field)) + row
        gear = spread(self.gear, {name: rows.ravel() for name, rows in changes.items()})
        turned = theta[:, None, :] + eye[-1][:, None]
        wide = turned.reshape(-1, theta.shape[1], 1)
        with np.errstate(all="ignore"):
            pose = gear.pose(self.crank, wide, reversers[:, None])
        valve = np.broadcast_to(pose.valve, wide.shape)
        for margin in pose.margins.values():
            valve = np.where(np.real(margin) > 0, valve, np.nan)
        valve = valve.reshape(len(faults), ways, theta.shape[1])
        return np.real(valve[:, 0]), np.moveaxis(derivative(valve), 1, -1)
