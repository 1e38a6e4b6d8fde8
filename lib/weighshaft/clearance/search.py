"""The search for the least gaps: every pair of parts, every notch, all round the turn.

A first pass over a grid of crank angles drops every pair of pieces that cannot be among
the least gaps, by the distance of their middles; what is left is measured, and the least
ones are closed in on between the angles of the grid.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from ..motion.frame import Array
from .engine import Engine, Piece
from .results import Gap, Line
from .segments import between_segments, nearest_points

ANGLES = np.linspace(0.0, 360.0, 72, endpoint=False)
LISTED = 12
_FINER = 13
FAR = 1e6
"""Height of a line that does not concern a part, mm."""

Index = NDArray[np.intp]


@dataclass(frozen=True)
class Poses:
    """All edges at all poses: (edges, rows, angles, 2); radius and owner by edge."""

    starts: Array
    ends: Array
    radius: Array
    owner: Index

    @classmethod
    def of(cls, engine: Engine, theta: Array, reverser: Array, state: Array) -> Poses:
        """Work the gear at `theta` (r, n) or (1, n), `reverser` and `state` (r, 1)."""
        starts, ends = engine.arrays(engine.joints(theta, reverser, state))
        radius = np.array([half for piece in engine.pieces for _, _, half in piece.edges])
        owner = np.array([n for n, piece in enumerate(engine.pieces) for _ in piece.edges])
        return cls(starts, ends, radius, owner)


def pairs_of(pieces: Sequence[Piece], side_play: float) -> list[tuple[int, int]]:
    """Return which parts could meet: not joined by a pin, and in planes that overlap.

    What the axle carries may stand `side_play` further to either side of what it does not
    carry.
    """
    found = []
    for i, one in enumerate(pieces):
        for j in range(i + 1, len(pieces)):
            other = pieces[j]
            if not (one.moves or other.moves) or one.joints & other.joints:
                continue
            play = side_play if one.rides != other.rides else 0.0
            if one.inner - play < other.outer and other.inner - play < one.outer:
                found.append((i, j))
    return found


def edge_pairs(owner: Index, pairs: Sequence[tuple[int, int]]) -> tuple[Index, Index, Index]:
    """Return the edges of every pair in turn, and where each pair begins."""
    first: list[Index] = []
    second: list[Index] = []
    begins: list[int] = []
    edges = [np.flatnonzero(owner == n) for n in range(int(owner.max()) + 1)]
    begun = 0
    for i, j in pairs:
        begins.append(begun)
        begun += len(edges[i]) * len(edges[j])
        a, b = np.meshgrid(edges[i], edges[j], indexing="ij")
        first.append(a.ravel())
        second.append(b.ravel())
    return np.concatenate(first), np.concatenate(second), np.array(begins, dtype=np.intp)


def least_between(
    poses: Poses, pairs: Sequence[tuple[int, int]], wanted: float, listed: int = LISTED
) -> list[tuple[float, int, int, int]]:
    """Return (gap, pair, row, angle) of the least gap of every pair that matters, least first.

    Those that matter are all below `wanted`, and the `listed` least.
    """
    if not pairs:
        return []
    first, second, begins = edge_pairs(poses.owner, pairs)
    count, shape = len(poses.radius), poses.starts.shape[1:3]
    a, b = poses.starts.reshape(count, -1, 2), poses.ends.reshape(count, -1, 2)
    middle, half = (a + b) / 2, np.sqrt(((b - a) ** 2).sum(-1)).max(axis=1) / 2
    round_it = (poses.radius[first] + poses.radius[second])[:, None]
    x, y = middle[..., 0], middle[..., 1]
    apart = np.sqrt((x[first] - x[second]) ** 2 + (y[first] - y[second]) ** 2)
    most = np.minimum.reduceat((apart - round_it).min(axis=1), begins)
    limit = max(wanted, float(np.sort(most)[min(listed, len(pairs)) - 1]))
    near = apart - round_it - (half[first] + half[second])[:, None] <= limit
    which, pose = np.nonzero(near)
    p, q = first[which], second[which]
    gap = between_segments(a[p, pose], b[p, pose], a[q, pose], b[q, pose])
    gap = gap - poses.radius[p] - poses.radius[q]
    pair = np.searchsorted(begins, which, side="right") - 1
    found = []
    for n in range(len(pairs)):
        low, high = np.searchsorted(pair, [n, n + 1])
        if low < high:
            at = int(low + gap[low:high].argmin())
            row, column = divmod(int(pose[at]), shape[1])
            found.append((float(gap[at]), n, row, column))
    found.sort()
    return [one for n, one in enumerate(found) if n < listed or one[0] < wanted]


def closed_in(
    engine: Engine,
    pairs: Sequence[tuple[int, int]],
    least: Sequence[tuple[float, int, int, int]],
    reversers: Array,
    states: Array,
) -> list[Gap]:
    """Return the gaps closed in on between the angles of the grid, least first."""
    if not least:
        return []
    rows = np.array([row for _, _, row, _ in least])
    angle = ANGLES[[column for *_, column in least]]
    step = ANGLES[1] - ANGLES[0]
    notch, state = reversers[rows][:, None], states[rows][:, None]
    picked = [pairs[n] for _, n, _, _ in least]
    lines = np.arange(len(picked))
    for _ in range(2):
        theta = angle[:, None] + step * np.linspace(-1, 1, _FINER)
        poses = Poses.of(engine, theta, notch, state)
        gap, first, second = _of_pairs(poses, picked)
        best = gap.argmin(axis=1)
        angle, step = theta[lines, best], step * 2 / (_FINER - 1)
    found = []
    for k, (i, j) in enumerate(picked):
        n = int(best[k])
        p, q = int(first[k, n]), int(second[k, n])
        here, there = nearest_points(
            poses.starts[p, k, n], poses.ends[p, k, n], poses.starts[q, k, n], poses.ends[q, k, n]
        )
        found.append(
            Gap(
                engine.pieces[i].name, engine.pieces[j].name, float(gap[k, n]), "part",
                float(angle[k] % 360), float(notch[k, 0]), float(state[k, 0]),
                (float(here[0]), float(here[1])), (float(there[0]), float(there[1])),
                (float(poses.radius[p]), float(poses.radius[q])),
                engine.pieces[i].slack + engine.pieces[j].slack,
                engine.pieces[i].wanders or engine.pieces[j].wanders,
            )
        )  # fmt: skip
    return sorted(found, key=lambda one: one.gap)


def _of_pairs(poses: Poses, picked: Sequence[tuple[int, int]]) -> tuple[Array, Index, Index]:
    """Return the gap (k, n) of pair k in row k, and the edges between which it is."""
    first, second, begins = edge_pairs(poses.owner, picked)
    row = np.repeat(np.arange(len(picked)), np.diff([*begins, len(first)]))
    all_gaps = (
        between_segments(
            poses.starts[first, row], poses.ends[first, row],
            poses.starts[second, row], poses.ends[second, row],
        )
        - (poses.radius[first] + poses.radius[second])[:, None]
    )  # fmt: skip
    ends = [*begins[1:], len(first)]
    best = np.stack(
        [low + all_gaps[low:high].argmin(axis=0) for low, high in zip(begins, ends, strict=True)]
    )
    columns = np.arange(all_gaps.shape[1])
    return all_gaps[best, columns], first[best], second[best]


def to_lines(
    engine: Engine,
    poses: Poses,
    lines: Sequence[tuple[Line, Array]],
    reversers: Array,
    states: Array,
) -> list[Gap]:
    """Return the least gap of every moving part to every line, closed in on, least first.

    Parameters
    ----------
    lines : each with its height (pieces,) over every piece, the boiler being round.
    """
    found: list[tuple[int, int, int, int]] = []
    moving = [n for n, piece in enumerate(engine.pieces) if piece.moves]
    for k, (line, heights) in enumerate(lines):
        gap = _line_gap(line, heights, poses, engine.rise * states[:, None])
        for n in moving:
            if heights[n] < FAR:
                own = gap[poses.owner == n].min(axis=0)
                found.append((k, n, *divmod(int(own.argmin()), own.shape[1])))
    if not found:
        return []
    rows = np.array([row for *_, row, _ in found])
    theta = ANGLES[[column for *_, column in found]][:, None] + np.linspace(-5, 5, 41)
    closer = Poses.of(engine, theta, reversers[rows][:, None], states[rows][:, None])
    shift = engine.rise * states[rows][:, None]
    gaps = [_line_gap(line, heights, closer, shift) for line, heights in lines]
    made = []
    for m, (k, n, row, _) in enumerate(found):
        own = np.where((closer.owner == n)[:, None], gaps[k][:, m], np.inf)
        edge, column = divmod(int(own.argmin()), own.shape[1])
        line, heights = lines[k]
        height = float(heights[n]) + (float(shift[m, 0]) if line.kind == "rail" else 0.0)
        ends = np.stack([closer.starts[edge, m, column], closer.ends[edge, m, column]])
        x, y = ends[ends[:, 1].argmin() if line.kind == "rail" else ends[:, 1].argmax()]
        made.append(
            Gap(
                engine.pieces[n].name, line.kind, float(own[edge, column]), line.kind,
                float(theta[m, column] % 360), float(reversers[row]), float(states[row]),
                (float(x), float(y)), (float(np.clip(x, line.back, line.front)), height),
                (float(closer.radius[edge]), 0.0), engine.pieces[n].slack,
                engine.pieces[n].wanders,
            )
        )  # fmt: skip
    return sorted(made, key=lambda one: one.gap)


def _line_gap(line: Line, heights: Array, poses: Poses, shift: Array) -> Array:
    """Return the gap of every edge to a line, (edges, r, n); the rail falls as the axle rises."""
    height = heights[poses.owner][:, None, None]
    a, b, radius = poses.starts, poses.ends, poses.radius[:, None, None]
    if line.kind == "rail":
        gap: Array = np.minimum(a[..., 1], b[..., 1]) - radius - (height + shift)
        return gap
    if not np.isfinite(line.front):
        under: Array = height - np.maximum(a[..., 1], b[..., 1]) - radius
        return under
    return box_gap(line, height, a, b) - radius


def box_gap(line: Line, height: Array, a: Array, b: Array) -> Array:
    """Return the gap to what stands over a line between its back and its front."""
    far = np.abs(a[..., 1]).max() + np.abs(b[..., 1]).max() + np.abs(height).max() + 1.0

    def at(x: float, y: Array) -> Array:
        corner: Array = np.stack(np.broadcast_arrays(np.full_like(y, x), y), axis=-1)
        return corner

    low_back, low_front = at(line.back, height), at(line.front, height)
    edges = [
        (low_back, low_front),
        (low_back, at(line.back, height + far)),
        (low_front, at(line.front, height + far)),
    ]
    outside = np.min([np.abs(between_segments(a, b, p, q)) for p, q in edges], axis=0)
    crossing = np.min([between_segments(a, b, p, q) for p, q in edges], axis=0)
    depth = np.stack(
        [
            np.minimum(end[..., 1] - height, np.minimum(end[..., 0] - line.back,
                                                        line.front - end[..., 0]))
            for end in (a, b)
        ]
    ).max(axis=0)  # fmt: skip
    gap: Array = np.where(depth > 0, -depth, np.where(crossing < 0, crossing, outside))
    return gap
