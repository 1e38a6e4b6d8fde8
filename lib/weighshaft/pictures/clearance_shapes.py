"""Outlines of moving parts: as they stand, and of all that they sweep."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from ..clearance import ClearanceResult, Piece
from .scene import Array

STATIONS = 41
_ANGLES = np.linspace(0.0, 360.0, 36, endpoint=False)[None, :]
_ROUND = 9
_BEND = math.cos(math.radians(30))


def edges_of(result: ClearanceResult, name: str) -> slice:
    """Return which of the result's edges are those of a part."""
    begins = 0
    for piece in result.pieces:
        ends = begins + len(piece.edges)
        if piece.name == name:
            return slice(begins, ends)
        begins = ends
    raise KeyError(name)


def outlines(result: ClearanceResult) -> dict[str, Array]:
    """Return the outline (n, 2) of what every moving part sweeps, closed, mm, by its name.

    At stations along the part's own length the outermost points to both sides, over every
    tenth degree of the crank and a dozen notches, axleboxes midway; a hollow that the sweep
    goes round is so filled.
    """
    engine = result.engine
    ends = result.reversers.min(), result.reversers.max()
    notches = np.linspace(*ends, 13 if engine.gear.notched else 2)[:, None]
    joints = engine.joints(_ANGLES, notches, np.zeros_like(notches))
    first, last = engine.arrays(joints)
    made = {}
    for piece in result.pieces:
        if piece.wanders:
            own = edges_of(result, piece.name)
            made[piece.name] = _swept(piece, first[own], last[own])
    return made


def _swept(piece: Piece, starts: Array, ends: Array) -> Array:
    radius = np.array([half for *_, half in piece.edges])[:, None, None]
    radius = np.broadcast_to(radius, starts.shape[:3]).ravel()
    a, b = starts.reshape(-1, 2), ends.reshape(-1, 2)
    along = np.abs(b - a).sum(axis=0)
    if along[1] > along[0]:
        return _swept_along(a[:, ::-1], b[:, ::-1], radius)[:, ::-1]
    return _swept_along(a, b, radius)


def _swept_along(a: Array, b: Array, radius: Array) -> Array:
    """Return the outline of round-ended bars by stations along x."""
    low = float(min((a[:, 0] - radius).min(), (b[:, 0] - radius).min()))
    high = float(max((a[:, 0] + radius).max(), (b[:, 0] + radius).max()))
    # closer stations at the ends, where the outline turns round
    at = low + (high - low) * (1 - np.cos(np.linspace(0, np.pi, STATIONS))) / 2
    upper = _highest(a, b, radius, at)
    lower = -_highest(a * [1, -1], b * [1, -1], radius, at)
    there = np.isfinite(upper) & np.isfinite(lower)
    at, upper, lower = at[there], upper[there], lower[there]
    outline = np.concatenate(
        [np.column_stack([at, upper]), np.column_stack([at[::-1], lower[::-1]])]
    )
    return np.round(outline, 3)


def _highest(a: Array, b: Array, radius: Array, at: Array) -> Array:
    """Return the highest point of all bars over every station."""
    away = b - a
    length = np.hypot(away[:, 0], away[:, 1])
    turned = np.column_stack([-away[:, 1], away[:, 0]]) / np.maximum(length, 1e-12)[:, None]
    turned *= np.where(turned[:, 1] < 0, -1.0, 1.0)[:, None] * radius[:, None]
    best = np.full(len(at), -np.inf)
    first, last = a + turned, b + turned
    x0, x1 = np.minimum(first[:, 0], last[:, 0]), np.maximum(first[:, 0], last[:, 0])
    run = last[:, 0] - first[:, 0]
    slope = np.where(np.abs(run) > 1e-9, (last[:, 1] - first[:, 1]) / np.where(run, run, 1), 0.0)
    for n, x in enumerate(at):
        over = (x0 <= x) & (x <= x1)
        if over.any():
            best[n] = (first[over, 1] + slope[over] * (x - first[over, 0])).max()
        for end in (a, b):
            room = radius**2 - (x - end[:, 0]) ** 2
            round_it = room >= -1e-9
            if round_it.any():
                top = end[round_it, 1] + np.sqrt(np.maximum(room[round_it], 0.0))
                best[n] = max(best[n], float(top.max()))
    return best


def standing(piece: Piece, starts: Array, ends: Array) -> list[Array]:
    """Return the outlines of a part in one pose, from its edges (k, 2); bends part them."""
    runs: list[tuple[list[Array], float]] = []
    before: tuple[str, str, float] | None = None
    for (one, other, half), a, b in zip(piece.edges, starts, ends, strict=True):
        goes_on = before is not None and before[1] == one and before[2] == half
        if goes_on and _straight(runs[-1][0][-2], a, b):
            runs[-1][0].append(b)
        else:
            runs.append(([a, b], half))
        before = (one, other, half)
    return [_round_ended(np.array(points), half) for points, half in runs]


def _straight(before: Array, at: Array, after: Array) -> bool:
    one, other = at - before, after - at
    size = math.hypot(*one) * math.hypot(*other)
    return size > 0 and float(one @ other) > _BEND * size


def _round_ended(points: Array, half: float) -> Array:
    """Return the outline at `half` round a gently bent line."""
    if np.allclose(points[0], points[-1]):
        turn = np.linspace(0, 2 * np.pi, 4 * _ROUND, endpoint=False)
        circle: Array = np.round(
            points[0] + half * np.column_stack([np.cos(turn), np.sin(turn)]), 3
        )
        return circle
    way = np.gradient(points, axis=0)
    angle = np.arctan2(way[:, 1], way[:, 0])
    side = half * np.column_stack([-np.sin(angle), np.cos(angle)])
    return np.round(
        np.concatenate(
            [
                points - side,
                _cap(points[-1], angle[-1] - np.pi / 2, half),
                (points + side)[::-1],
                _cap(points[0], angle[0] + np.pi / 2, half),
            ]
        ),
        3,
    )


def _cap(centre: Array, start: float, half: float) -> Array:
    turn = start + np.linspace(0, np.pi, _ROUND)
    cap: Array = centre + half * np.column_stack([np.cos(turn), np.sin(turn)])
    return cap


def spaced(wanted: Sequence[float], least: float) -> list[float]:
    """Return places in rising order, as near to those wanted as `least` apart allows."""
    placed: list[float] = []
    for at in sorted(wanted):
        placed.append(max(at, placed[-1] + least) if placed else at)
    if placed:
        shift = (sum(placed) - sum(wanted)) / len(placed)
        placed = [at - shift for at in placed]
    return placed
