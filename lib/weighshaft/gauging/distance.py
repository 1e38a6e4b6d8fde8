"""How far two bodies stand apart, over many poses at once.

Seen from the side a body is a round-ended bar or an outline, and stands between two planes
across the engine; a round body lies or stands about an axis.  Figures are exact distances;
where bodies overlap they are negative, by about how much one would have to be moved.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from ..clearance.segments import between_segments, point_to_segment
from ..motion.frame import Array

Form = Literal["bar", "outline", "round"]
Flags = NDArray[np.bool_]
_COARSE, _FINE = 7, 49


@dataclass(frozen=True)
class Shape:
    """A body as it is drawn.

    Parameters
    ----------
    points : of a bar and of a round its axis (2, 2), of an outline its corners (m, 2).
    rings : where each ring of an outline begins and ends among its points.
    radius : of a round; half the width of a bar.
    low, high : across the engine, mm from the centre line.
    """

    form: Form
    points: Array
    low: float
    high: float
    radius: float = 0.0
    rings: tuple[tuple[int, int], ...] = ()

    @property
    def middle(self) -> float:
        """Its middle across the engine."""
        return (self.low + self.high) / 2


def gap(
    a: Shape, at_a: Array, b: Shape, at_b: Array, play: float = 0.0, fine: bool = False
) -> Array:
    """Return how far two bodies stand apart in every pose, (n,) mm.

    Parameters
    ----------
    at_a, at_b : (n or 1, m, 2) the points of either where they have moved to.
    play : by how much they may come nearer across the engine.
    fine : whether round ends beside round bodies are taken to 1/4000 of their radius.
    """
    if a.form == "round" and b.form == "round":
        return _rounds(a, at_a, b, at_b, play)
    if b.form == "round":
        a, at_a, b, at_b = b, at_b, a, at_a
    if a.form == "round":
        return _round_beside(a, at_a, b, at_b, play, _FINE if fine else _COARSE)
    across = max(a.low - b.high, b.low - a.high) - play
    return _together(_side(a, at_a, b, at_b), np.asarray(across))


def _together(one: Array, other: Array) -> Array:
    """Return the distance of bodies from their distances in two ways square to one another."""
    apart = (one > 0) & (other > 0)
    return np.where(apart, np.hypot(one, other), np.maximum(one, other))


def _side(a: Shape, at_a: Array, b: Shape, at_b: Array) -> Array:
    if a.form == "bar" and b.form == "bar":
        between = between_segments(at_a[:, 0], at_a[:, 1], at_b[:, 0], at_b[:, 1])
        return between - a.radius - b.radius
    if a.form == "outline" and b.form == "outline":
        return _outlines(edges(a, at_a), at_a, edges(b, at_b), at_b)
    if a.form == "outline":
        a, at_a, b, at_b = b, at_b, a, at_a
    return _bar_beside(at_a, edges(b, at_b)) - a.radius


def edges(shape: Shape, at: Array) -> tuple[Array, Array]:
    """Return the starts and ends of an outline's edges, each (n, m, 2)."""
    ends = np.concatenate(
        [np.roll(at[:, begin:end], -1, axis=1) for begin, end in shape.rings], axis=1
    )
    return at, ends


def _inside(x: Array, y: Array, rim: tuple[Array, Array]) -> Flags:
    """Return whether points (n, k) lie inside outlines with edges (n, m, 2): even and odd."""
    x, y = x[..., None], y[..., None]
    (ax, ay), (bx, by) = ((one[:, None, :, 0], one[:, None, :, 1]) for one in rim)
    straddles = (ay > y) != (by > y)
    height = np.where(by == ay, 1.0, by - ay)
    left: Flags = straddles & (x < ax + (bx - ax) * (y - ay) / height)
    return np.asarray(left.sum(axis=-1) % 2 == 1)


def _depth(x: Array, y: Array, rim: tuple[Array, Array]) -> Array:
    """Return how deep points lie inside outlines, (n,): the deepest; 0 where none does."""
    inside = _inside(x, y, rim)
    if not inside.any():
        return np.zeros(len(inside))
    (ax, ay), (bx, by) = ((one[:, None, :, 0], one[:, None, :, 1]) for one in rim)
    square = point_to_segment(x[..., None], y[..., None], ax, ay, bx, by).min(axis=-1)
    deep: Array = np.where(inside, np.sqrt(square), 0.0).max(axis=-1)
    return deep


def _tried(*points: Array) -> tuple[Array, Array]:
    every = np.concatenate(points, axis=1)
    return every[..., 0], every[..., 1]


def _bar_beside(at: Array, rim: tuple[Array, Array]) -> Array:
    starts, ends = rim
    between: Array = between_segments(at[:, None, 0], at[:, None, 1], starts, ends).min(axis=1)
    deep = _depth(*_tried(at, at.mean(axis=1, keepdims=True)), rim)
    deeper: Array = np.where(deep > 0, np.minimum(between, -deep), between)
    return deeper


def _outlines(
    rim_a: tuple[Array, Array], at_a: Array, rim_b: tuple[Array, Array], at_b: Array
) -> Array:
    (a, b), (c, d) = rim_a, rim_b
    between = between_segments(
        a[:, :, None], b[:, :, None], c[:, None, :], d[:, None, :]
    ).min(axis=(1, 2))  # fmt: skip
    # corners, and the middles of edges: of blocks edge on edge no corner lies inside
    deep = np.maximum(
        _depth(*_tried(at_a, (a + b) / 2, at_a.mean(axis=1, keepdims=True)), rim_b),
        _depth(*_tried(at_b, (c + d) / 2, at_b.mean(axis=1, keepdims=True)), rim_a),
    )
    deeper: Array = np.where(deep > 0, np.minimum(between, -deep), between)
    return deeper


def ring(shape: Shape, at: Array, steps: int) -> Array:
    """Return a bar's outline (n, 2 steps, 2), its round ends by chords that stray both ways."""
    start, end = at[:, 0], at[:, 1]
    way = end - start
    angle = np.arctan2(way[:, 1], way[:, 0])[:, None]
    turn = np.linspace(-np.pi / 2, np.pi / 2, steps)[None, :]
    chord = np.pi / (steps - 1)
    out = shape.radius * (1 + 1 / np.cos(chord / 2)) / 2

    def cap(centre: Array, turned: Array) -> Array:
        round_it = out * np.stack([np.cos(turned), np.sin(turned)], axis=-1)
        return np.asarray(centre[:, None, :] + round_it)

    return np.concatenate([cap(end, angle + turn), cap(start, angle + np.pi + turn)], axis=1)


def _round_beside(a: Shape, at_a: Array, b: Shape, at_b: Array, play: float, steps: int) -> Array:
    """Return the distance of a round body from one between two planes.

    Where the round body is cut by the plane nearest to its axis, `away` is the distance of
    that plane; the distance of a point of the plane from the round body is a convex function
    of its place, and so has its least along an edge, or is the axis itself.
    """
    middle = a.middle
    across = max(b.low - (middle + a.radius), (middle - a.radius) - b.high) - play
    away = max(b.low - middle - play, middle - b.high - play, 0.0)
    if b.form == "bar":
        outline = ring(b, at_b, steps)
        starts, ends = outline, np.roll(outline, -1, axis=1)
    else:
        starts, ends = edges(b, at_b)
    axis = at_a[:, 1] - at_a[:, 0]
    length = np.hypot(axis[:, 0], axis[:, 1])[:, None]
    ux, uy = axis[:, :1] / length, axis[:, 1:] / length

    def along(points: Array) -> tuple[Array, Array]:
        x, y = (points[..., i] - at_a[:, :1, i] for i in (0, 1))
        return x * ux + y * uy, y * ux - x * uy

    def far(u: Array, v: Array, long: Array) -> Array:
        beyond = np.maximum(-u, u - long)
        beside = np.hypot(v, away) - a.radius
        return _together(beyond, beside)

    (u0, v0), (u1, v1) = along(starts), along(ends)
    least = _least_along(u0, v0, u1, v1, length, far, 6 if steps > _COARSE else 3)
    middles = at_a.mean(axis=1)
    inside = _inside(middles[:, :1], middles[:, 1:], (starts, ends))[:, 0]
    least = np.where(inside, np.minimum(least, max(away - a.radius, -1e9)), least)
    return np.where(least > 0, least, np.maximum(least, across))


def _least_along(
    u0: Array, v0: Array, u1: Array, v1: Array, length: Array, far: object, rounds: int
) -> Array:
    """Return the least of a convex function along edges, closing in by thirds."""
    assert callable(far)
    shares = np.linspace(0.0, 1.0, 7)
    at, half = np.full(u0.shape, 0.5), 0.5
    least: Array | None = None
    for _ in range(rounds):
        tried = np.clip(at[..., None] + half * (2 * shares - 1), 0.0, 1.0)
        u = u0[..., None] + tried * (u1 - u0)[..., None]
        v = v0[..., None] + tried * (v1 - v0)[..., None]
        found = far(u, v, length[..., None])
        best = found.argmin(axis=-1)[..., None]
        at = np.take_along_axis(tried, best, axis=-1)[..., 0]
        least = np.take_along_axis(found, best, axis=-1)[..., 0].min(axis=-1)
        half /= 3
    assert least is not None
    return least


def _rounds(a: Shape, at_a: Array, b: Shape, at_b: Array, play: float) -> Array:
    """Return the distance of two round bodies."""
    at_a, at_b = np.broadcast_arrays(at_a, at_b)
    way_a, way_b = at_a[:, 1] - at_a[:, 0], at_b[:, 1] - at_b[:, 0]
    long_a, long_b = (np.hypot(way[:, 0], way[:, 1]) for way in (way_a, way_b))
    aside = max(abs(a.middle - b.middle) - play, 0.0)
    cross = way_a[:, 0] * way_b[:, 1] - way_a[:, 1] * way_b[:, 0]
    if np.all(np.abs(cross) < 1e-9 * long_a * long_b):
        ux, uy = way_a[:, 0] / long_a, way_a[:, 1] / long_a
        x, y = (at_b[..., i] - at_a[:, :1, i] for i in (0, 1))
        u = x * ux[:, None] + y * uy[:, None]
        v = (y * ux[:, None] - x * uy[:, None])[:, 0]
        beyond = np.maximum(u.min(axis=1) - long_a, -u.max(axis=1))
        return _together(beyond, np.hypot(v, aside) - a.radius - b.radius)
    if aside == 0.0:
        # both are even about the plane of their axes: what is nearest lies in it
        seen = [flat(one, at) for one, at in ((a, at_a), (b, at_b))]
        rims = [(one, np.roll(one, -1, axis=1)) for one in seen]
        return _outlines(rims[0], seen[0], rims[1], seen[1])
    return np.minimum(_skew(a, at_a, b, at_b, aside), _skew(b, at_b, a, at_a, aside))


def flat(shape: Shape, at: Array) -> Array:
    """Return the side view (n, 4, 2) of a round body."""
    way = at[:, 1] - at[:, 0]
    way = way / np.hypot(way[:, 0], way[:, 1])[:, None]
    out = shape.radius * np.stack([-way[:, 1], way[:, 0]], axis=-1)
    return np.stack([at[:, 0] - out, at[:, 1] - out, at[:, 1] + out, at[:, 0] + out], axis=1)


def _skew(a: Shape, at_a: Array, b: Shape, at_b: Array, aside: float) -> Array:
    """Return how near the surface of one comes to the other, `aside` of it across."""
    (start, end), (first, last) = ((at[:, 0], at[:, 1]) for at in (at_a, at_b))
    way, other = end - start, last - first
    unit = way / np.hypot(way[:, 0], way[:, 1])[:, None]
    length = np.hypot(other[:, 0], other[:, 1])[:, None, None]
    axis = other[:, None, None, :] / length[..., None]
    count = len(at_a)
    middle_t, middle_p = np.full(count, 0.5), np.full(count, np.pi)
    half_t, half_p = 0.5, np.pi
    least: Array = np.zeros(count)
    for _ in range(6):
        t = np.clip(middle_t[:, None] + half_t * np.linspace(-1, 1, 13), 0.0, 1.0)[:, :, None]
        p = (middle_p[:, None] + half_p * np.linspace(-1, 1, 25))[:, None, :]
        out = a.radius * np.cos(p)
        x = start[:, None, None, 0] + t * way[:, None, None, 0] - out * unit[:, None, None, 1]
        y = start[:, None, None, 1] + t * way[:, None, None, 1] + out * unit[:, None, None, 0]
        x, y = x - first[:, None, None, 0], y - first[:, None, None, 1]
        u, v = x * axis[..., 0] + y * axis[..., 1], y * axis[..., 0] - x * axis[..., 1]
        beyond = np.maximum(-u, u - length)
        beside = np.hypot(v, aside + a.radius * np.sin(p)) - b.radius
        found = _together(beyond, beside).reshape(count, -1)
        best = found.argmin(axis=1)
        row, column = np.divmod(best, p.shape[2])
        at = np.arange(count)
        middle_t, middle_p = t[at, row, 0], p[at, 0, column]
        least = found[at, best]
        half_t, half_p = half_t / 4, half_p / 6
    return least
