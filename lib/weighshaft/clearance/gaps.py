"""The least gap of many gears at once, for a search that must not make parts foul.

A coarse turn is looked at for all candidates together.  The boxes in which pieces move,
and then the distances of their middles, drop what cannot be the least; the rest is
measured, and what is least is closed in on between the angles.
"""

from __future__ import annotations

from dataclasses import dataclass, replace
from itertools import pairwise
from typing import Any

import numpy as np

from ..motion.frame import Array, Crank
from ..motion.gears import AnyGear
from ..motion.many import spread
from .decisions import Clearance
from .engine import Engine, engine_of
from .planes import Plane, proportions
from .results import Line
from .search import ANGLES, FAR, Index, box_gap, edge_pairs, pairs_of
from .segments import between_segments
from .work import least_sheave, lines_of, notches_of

_COARSE = ANGLES[::3]
_BLOCK = 16
"""Candidates at a time, so that the arrays stay in the near cache."""
_CLOSER, _FINER, _HINTS = 3, 9, 24
_BETWEEN = 0.05
"""How much less a gap may be between two angles than at them, as a share of the throw."""


@dataclass(frozen=True, kw_only=True)
class Gaps:
    """Finds the least gap of candidates, as `work` does for one gear; see there for the parts.

    What stands across the engine, and the sheaves of a known diameter, stay as they are.
    """

    clearance: Clearance
    reversers: tuple[float, ...]
    axle_diameter: float
    axles: tuple[float, ...]
    driving_diameter: float
    frame_inside: float
    frame_thickness: float
    planes: tuple[Plane, ...]
    crankpin: float
    sheave_diameter: float | None = None
    crosshead: tuple[float, float] | None = None
    inclination: float = 0.0
    side_play: float = 0.0
    axle_lift: float = 0.0
    flange_depth: float = 0.0

    def __call__(self, rows: Any, crank: Crank) -> Array:
        """Return the least gap of each candidate, (k,) mm; NaN where it locks.

        Parameters
        ----------
        rows : a gear whose sizes may stand in rows of candidates, see `motion.many.spread`.

        Raises
        ------
        SizeError : when a part of known sizes is none of this gear.
        """
        changed = {
            name: np.ravel(value)
            for name, value in vars(rows).items()
            if isinstance(value, np.ndarray)
        }
        k = max((len(row) for row in changed.values()), default=1)
        several = {name: np.broadcast_to(row, (k,)) for name, row in changed.items()}
        found = np.full(k, np.nan)
        with np.errstate(all="ignore"):  # of what locks nothing is told
            first = spread(rows, {name: float(row[0]) for name, row in several.items()})
            side = self._side(first, crank)
            # the first alone tells where the others are best looked at
            hints = np.empty((0, 3), dtype=np.intp)
            begins = [0, *range(1, k, _BLOCK), k]
            for begin, end in pairwise(begins):
                some = {name: row[begin:end] for name, row in several.items()}
                turn = _Turn(side, spread(rows, some), crank, end - begin)
                found[begin:end], hints = turn.least(hints)
        return found

    def _side(self, gear: AnyGear, crank: Crank) -> _Side:
        """Return what is alike in all candidates; their sizes in it are not to be used."""
        around = self.clearance
        sizes = proportions(around, self.axle_diameter, self.crankpin)
        rise = self.axle_lift if around.axlebox_rise is None else around.axlebox_rise
        engine = engine_of(
            around, gear=gear, crank=crank, axles=self.axles, axle_diameter=self.axle_diameter,
            wheel_diameter=self.driving_diameter + 2 * self.flange_depth,
            sheave=self.sheave_diameter or 0.0, frame_inside=self.frame_inside,
            planes=self.planes, sizes=sizes, crosshead=self.crosshead,
            inclination=self.inclination, rise=rise, slot=crank.throw, side_play=self.side_play,
        )  # fmt: skip
        lines = lines_of(around, engine, self.driving_diameter, self.frame_inside)
        return _Side(
            engine,
            np.array(notches_of(gear, self.reversers))[:, None],
            np.array([1.0, -1.0] if rise > 0 else [0.0]),
            [(line, heights) for line, heights in lines if line.kind != "rail"],
            self.side_play,
            None if self.sheave_diameter is not None else (self.axle_diameter, sizes.strap),
            around.valve_spindle,
            3 * sizes.rod,
        )


@dataclass(frozen=True)
class _Side:
    """One side of the engine, as far as it is alike in all candidates.

    Parameters
    ----------
    notches : (m, 1).
    states : (s,) of the axleboxes; midway is left out, since the gaps there lie between.
    lines : above the parts, with their heights over each of them.
    sheave : axle and strap from which sheaves of no known diameter follow.
    spindle, least_spindle : length of the valve spindle if known, and the least it is.
    """

    engine: Engine
    notches: Array
    states: Array
    lines: list[tuple[Line, Array]]
    side_play: float
    sheave: tuple[float, float] | None
    spindle: float | None
    least_spindle: float


class _Turn:
    """A coarse turn of candidates (k,): edges (edges, k, poses) in all notches and states.

    The last axis runs over states, notches and angles.
    """

    def __init__(self, side: _Side, gear: AnyGear, crank: Crank, k: int) -> None:
        self.side, self.gear, self.crank, self.k = side, gear, crank, k
        pieces = side.engine.pieces
        self.owner = np.array([n for n, piece in enumerate(pieces) for _ in piece.edges])
        self.radius = self._radii()
        pose = gear.pose(crank, _COARSE[None, :], side.notches)
        own = (k, len(side.notches), len(_COARSE))
        self.turns = np.ones(k, dtype=bool)
        for margin in pose.margins.values():
            self.turns &= np.broadcast_to(margin > 0, own).all(axis=(1, 2))
        self.engine = self._laid_out(np.broadcast_to(pose.points["valve"][..., 0], own), pose.die)
        self.shape = (len(side.states), *own)
        joints = self.engine.placed(pose, self.shape, side.states[:, None, None, None])
        starts, ends = self.engine.arrays(joints)
        self.ax, self.ay, self.bx, self.by = (
            np.ascontiguousarray(np.moveaxis(one[..., axis], 1, 2)).reshape(len(one), k, -1)
            for one in (starts, ends)
            for axis in (0, 1)
        )

    def _radii(self) -> Array:
        """Return half the width round every edge, (edges, k); unknown sheaves go by the throw."""
        edges = [half for piece in self.side.engine.pieces for _, _, half in piece.edges]
        radius = np.repeat(np.array(edges)[:, None], self.k, axis=1)
        if self.side.sheave is not None:
            axle, strap = self.side.sheave
            throw = getattr(self.gear, "eccentric_throw", None)
            size: Any = 2.0 * axle
            if throw is not None:
                throws: Any = np.ravel(throw)
                size = least_sheave.function(axle, throws, 0.15 * axle)
            sheaves = {part.name for part in self.gear.parts if part.shape == "sheave"}
            for n, piece in enumerate(self.side.engine.pieces):
                if piece.name in sheaves:
                    radius[self.owner == n] = size / 2 + strap
        return radius

    def _laid_out(self, valve: Array, die: Array | None) -> Engine:
        """Return the engine with what follows from each candidate: its spindle and its slot."""
        side = self.side
        spindle: Any = side.spindle
        if spindle is None:
            ahead = self.crank.gudgeon_ends[0] - valve[:, :1, :1]  # full forward, front dead centre
            spindle = np.maximum(ahead, side.least_spindle)
        slot: Any = getattr(self.gear, "slot_length", None)
        if slot is not None:
            slot = slot / 2
        elif die is not None:
            die = np.broadcast_to(die, valve.shape)[:, [0, -1]]
            slot = 1.1 * np.abs(die).max(axis=(1, 2), keepdims=True)
        else:
            slot = self.crank.throw
        return replace(side.engine, gear=self.gear, spindle=spindle, slot=slot)

    def least(self, hints: Index) -> tuple[Array, Index]:
        """Return the least gaps (k,), and where they were found, for the next block.

        Parameters
        ----------
        hints : (h, 3) edges and pose at which the least gaps of others were found.
        """
        reach = self._at_hints(hints)
        between = _BETWEEN * self.crank.throw
        pairs, kinds = self._pairs()
        found = self._measured(pairs, reach + between)
        lined = [
            self._to_line(line, heights, reach + between, len(self.owner) + n)
            for n, (line, heights) in enumerate(self.side.lines)
        ]
        p, q, c, pose, gap = (
            np.concatenate(arrays) for arrays in zip(found[:5], *lined, strict=True)
        )
        kind = np.concatenate(
            [kinds[found[5]], *(self.owner[one[0]] - FAR * one[1] for one in lined)]
        )
        least = np.full(self.k, np.nan)
        if not len(gap):
            least[self.turns] = np.inf
            return least, hints
        # the least of every pair of parts, and of these the few least of every candidate
        order = np.lexsort((gap, kind, c))
        fresh = np.ones(len(order), dtype=bool)
        fresh[1:] = (np.diff(c[order]) != 0) | (np.diff(kind[order]) != 0)
        best = order[fresh]
        best = best[np.lexsort((gap[best], c[best]))]
        counts = np.bincount(c[best], minlength=self.k)
        starts = np.concatenate([[0], np.cumsum(counts)[:-1]])
        taken = np.minimum(np.arange(_CLOSER), np.maximum(counts, 1)[:, None] - 1)
        at = best[np.minimum(starts[:, None] + taken, len(best) - 1)]
        closer = self._closed_in(p[at], q[at], pose[at], gap[at])
        good = self.turns & (counts > 0)
        least[good] = closer[good]
        least[self.turns & (counts == 0)] = np.inf
        first = at[good, 0]
        told = np.column_stack([p[first], q[first], pose[first]])
        return least, np.unique(np.concatenate([hints, told]), axis=0)[-_HINTS:]

    def _at_hints(self, hints: Index) -> Array:
        """Return a bound of the least gap of each candidate from what was found in others."""
        if not len(hints):
            return np.full(self.k, np.inf)
        edges = len(self.owner)
        p, q, pose = hints[:, :1], hints[:, 1:2], hints[:, 2:]
        gap = self._between(p, np.minimum(q, edges - 1), np.arange(self.k), pose)
        for n, (line, heights) in enumerate(self.side.lines):
            of_line = (q == edges + n)[:, 0]
            own = (p[of_line], np.arange(self.k), pose[of_line])
            height = heights[self.owner[own[0]]]
            gap[of_line] = self._under(line, height, own)
        least: Array = np.where(np.isfinite(gap), gap, np.inf).min(axis=0)
        return least

    def _between(self, p: Index, q: Index, c: Index, pose: Index) -> Array:
        """Return the gaps between edges p and q of candidates c in poses of the turn."""
        one, other = (p, c, pose), (q, c, pose)
        gap: Array = _between(
            self.ax[one], self.ay[one], self.bx[one], self.by[one],
            self.ax[other], self.ay[other], self.bx[other], self.by[other],
        )  # fmt: skip
        return gap - self.radius[p, c] - self.radius[q, c]

    def _under(self, line: Line, height: Array, own: tuple[Index, Index, Index]) -> Array:
        """Return the gaps between edges of candidates in poses of the turn and a line."""
        a = np.stack([self.ax[own], self.ay[own]], axis=-1)
        b = np.stack([self.bx[own], self.by[own]], axis=-1)
        gap: Array = _under(line, height, a, b) - self.radius[own[:2]]
        return gap

    def _pairs(self) -> tuple[tuple[Index, Index], Index]:
        """Return the pairs of edges that could meet, and of which pair of parts each is."""
        pieces = self.side.engine.pieces
        pairs = pairs_of(pieces, self.side.side_play)
        if not pairs:
            nothing = np.empty(0, dtype=np.intp)
            return (nothing, nothing), nothing
        p, q, _ = edge_pairs(self.owner, pairs)
        return (p, q), self.owner[p] * len(pieces) + self.owner[q]

    def _measured(self, pairs: tuple[Index, Index], reach: Array) -> tuple[Any, ...]:
        """Return edges, candidates, poses, gaps and numbers of pairs within a reach (k,)."""
        first, second = pairs
        left, right = np.minimum(self.ax, self.bx), np.maximum(self.ax, self.bx)
        low, high = np.minimum(self.ay, self.by), np.maximum(self.ay, self.by)
        left, right = left.min(axis=-1), right.max(axis=-1)
        low, high = low.min(axis=-1), high.max(axis=-1)
        beside = np.maximum(left[first] - right[second], left[second] - right[first])
        above = np.maximum(low[first] - high[second], low[second] - high[first])
        width = self.radius[first] + self.radius[second] + reach
        near = (np.maximum(beside, above) <= width) & self.turns
        n, c = np.nonzero(near)
        # by the distance of their middles
        x, y = (self.ax + self.bx) / 2, (self.ay + self.by) / 2
        half = np.hypot(self.bx - self.ax, self.by - self.ay).max(axis=-1) / 2
        p, q = first[n], second[n]
        apart = (x[p, c] - x[q, c]) ** 2
        apart += (y[p, c] - y[q, c]) ** 2
        most = np.maximum(width[n, c] + half[p, c] + half[q, c], 0.0)
        row, pose = np.nonzero(apart <= (most * most)[:, None])
        p, q, c, n = p[row], q[row], c[row], n[row]
        gap = self._between(p, q, c, pose)
        return p, q, c, pose, gap, n

    def _to_line(
        self, line: Line, heights: Array, reach: Array, number: int
    ) -> tuple[Index, Index, Index, Index, Array]:
        """Return edges, the line's number, candidates, poses and gaps to a line within reach."""
        moves = np.array([piece.moves for piece in self.side.engine.pieces]) & (heights < FAR)
        edges = np.flatnonzero(moves[self.owner])
        height = heights[self.owner[edges]][:, None, None]
        width = (self.radius[edges] + reach)[:, :, None]
        ax, ay, bx, by = (one[edges] for one in (self.ax, self.ay, self.bx, self.by))
        near = (height - np.maximum(ay, by) <= width) & self.turns[:, None]
        if np.isfinite(line.front):
            near &= line.back - np.maximum(ax, bx) <= width
            near &= np.minimum(ax, bx) - line.front <= width
        e, c, pose = np.nonzero(near)
        gap = self._under(line, height[e, 0, 0], (edges[e], c, pose))
        return edges[e], np.full(len(e), number), c, pose, gap

    def _closed_in(self, p: Index, q: Index, pose: Index, gap: Array) -> Array:
        """Return the least gaps (k,) closed in on between the angles.

        Parameters
        ----------
        p, q, pose, gap : (k, t) edges, pose and gap of the least on the coarse turn.
        """
        side = self.side
        state, notch, angle = np.unravel_index(pose, (self.shape[0], *self.shape[2:]))
        step = (_COARSE[1] - _COARSE[0]) * np.linspace(-1, 1, _FINER)
        theta = _COARSE[angle][..., None] + step
        found = self.gear.pose(self.crank, theta, side.notches[notch])
        joints = self.engine.placed(found, theta.shape, side.states[state][..., None])
        starts, ends = self.engine.arrays(joints)
        k, t = (np.arange(n) for n in p.shape)
        here = (p, k[:, None], t)
        edges = len(self.owner)
        there = (np.minimum(q, edges - 1), k[:, None], t)
        close = between_segments(starts[here], ends[here], starts[there], ends[there])
        close = close - self.radius[there[:2]][..., None]
        for n, (line, heights) in enumerate(side.lines):
            lined = q == edges + n
            if lined.any():
                a, b = starts[here][lined], ends[here][lined]
                close[lined] = _under(line, heights[self.owner[p[lined]]][:, None], a, b)
        close -= self.radius[here[:2]][..., None]
        least: Array = np.fmin(gap, _bottom(close)).min(axis=1)
        return least


def _between(
    ax: Array, ay: Array, bx: Array, by: Array, cx: Array, cy: Array, dx: Array, dy: Array
) -> Array:
    """Return the distances between pieces by their coordinates."""
    points = (np.stack(pair, axis=-1) for pair in ((ax, ay), (bx, by), (cx, cy), (dx, dy)))
    return between_segments(*points)


def _under(line: Line, height: Array, a: Array, b: Array) -> Array:
    """Return how far edges a-b stand below a line that goes all along, or outside its box."""
    if not np.isfinite(line.front):
        under: Array = height - np.maximum(a[..., 1], b[..., 1])
        return under
    if not a.size:
        return np.empty(a.shape[:-1])
    return box_gap(line, np.broadcast_to(height, a.shape[:-1]), a, b)


def _bottom(close: Array) -> Array:
    """Return the least of gaps along the last axis, on the parabola through the least three."""
    at = np.clip(close.argmin(axis=-1), 1, close.shape[-1] - 2)[..., None]
    before, here, after = (np.take_along_axis(close, at + n, axis=-1)[..., 0] for n in (-1, 0, 1))
    bend, slope = before - 2 * here + after, after - before
    inside = (here <= before) & (here <= after) & (bend > 0)
    deepest = here - np.where(inside, slope * slope / (8 * np.where(inside, bend, 1.0)), 0.0)
    least: Array = np.minimum(deepest, close.min(axis=-1))
    return least
