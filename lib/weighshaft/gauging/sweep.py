"""The least gaps of the whole engine, everything at its worst.

The rooms that bodies take all round the turn say which pairs can come near at all; these
are measured nearest first, until no room left is nearer than the tenth least gap found.
What is least is then closed in on between the angles.
"""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np

from ..frames import Part, Whole
from ..motion.frame import Array
from .bodies import Body, bodies, play_between, states_of
from .distance import flat, gap, ring

ANGLES = np.linspace(0.0, 360.0, 72, endpoint=False)
LISTED = 10
_WIDE = 1e6
TOUCH = 0.02
"""Parts that stand still and overlap by no more are taken to touch, mm."""


@dataclass(frozen=True)
class Near:
    """The least gap between two parts, and when and where it is.

    Parameters
    ----------
    gap : mm; negative where they foul, by how much one would have to move.
    fields : the decisions that place both.
    crank_angle : degrees of the right-hand crank, None where the crank has no say.
    rises : names of axles that stand up (+1) or down (-1) on their springs there.
    play : side play and swing taken up, mm.
    place : where it is, mm ahead of the driving axle, above it and out from the centre line.
    sides : of the first and the second, "right", "left" or "" where there is but one.
    wanted : the gap that is wanted between them, mm.
    moving : whether either moves against the frames.
    told : whether another chapter has found it and says what it means.
    notch : of the reverser, where the valve gear is one of the two.
    """

    first: str
    second: str
    gap: float
    fields: tuple[str, ...]
    crank_angle: float | None
    rises: tuple[tuple[str, int], ...]
    play: float
    place: tuple[float, float, float]
    sides: tuple[str, str]
    wanted: float
    moving: bool
    told: bool = False
    notch: float | None = None

    @property
    def short(self) -> float:
        """By how much it falls short of what is wanted, mm; negative where it does not."""
        return self.wanted - self.gap


@dataclass
class _Found:
    gap: float
    pair: tuple[Body, Body]
    angle: float
    state: dict[int, float]


def least_gaps(whole: Whole, wanted: float, beside: float) -> tuple[tuple[Near, ...], int]:
    """Return the least gaps, worst first: ten at least, and all that are short of what is wanted.

    And the number of pairs of parts that were looked at.

    Parameters
    ----------
    wanted : between what moves and what is near, mm; parts that stand still may touch.
    beside : between what runs side by side across the engine, side play taken up, mm.
    """
    every = bodies(whole)
    first, second, room, looked_at = _pairs(every)
    worst: dict[frozenset[str], _Found] = {}
    bound = np.inf
    for i, j, near in zip(first, second, room, strict=True):
        if near > max(bound, wanted):
            break
        a, b = every[i], every[j]
        key = frozenset((a.part.name, b.part.name))
        moving = a.moves or b.moves
        if not moving and near > 0:
            continue
        known = worst.get(key)
        if known is not None and near >= known.gap:
            continue
        found = _measured(whole, a, b)
        if not moving and found.gap >= -TOUCH:
            continue
        if known is None or found.gap < known.gap:
            worst[key] = found
        moved = sorted(one.gap for one in worst.values() if one.pair[0].moves or one.pair[1].moves)
        if len(moved) >= LISTED:
            bound = moved[LISTED - 1]
    ordered = sorted(worst.values(), key=lambda one: one.gap)
    told = [
        _closed_in(whole, one, wanted, beside)
        for n, one in enumerate(ordered)
        if n < LISTED + 2 or one.gap < wanted
    ]
    told.sort(key=lambda one: one.gap)
    told = _without_doubles(told)
    return tuple(one for n, one in enumerate(told) if n < LISTED or one.short > 0), looked_at


def _without_doubles(near: list[Near]) -> list[Near]:
    """Leave out the boiler under its lagging, where that is nearer to the same part."""
    clad = {one.first if one.second == "lagging" else one.second for one in near
            if "lagging" in (one.first, one.second)}  # fmt: skip
    return [
        one for one in near
        if "boiler" not in (one.first, one.second)
        or (one.first if one.second == "boiler" else one.second) not in clad
    ]  # fmt: skip


def _pairs(every: tuple[Body, ...]) -> tuple[Array, Array, Array, int]:
    """Return which bodies are to be looked at, by the distance of their rooms, nearest first.

    And the number of pairs of parts among them.
    """
    low, high = np.array([one.low for one in every]), np.array([one.high for one in every])
    parts = {one.part.name: one.part for one in every}
    number = {name: n for n, name in enumerate(parts)}
    apart = np.array([[_looked_at(a, b) for b in parts.values()] for a in parts.values()])
    owner = np.array([number[one.part.name] for one in every])
    mirrored = np.array([one.part.paired and one.left for one in every])
    i, j = np.triu_indices(len(every), 1)
    # the left side among itself, and against what lies amid, is the mirror of the right
    keep = apart[owner[i], owner[j]] & ~mirrored[i]
    amid = np.array([not one.part.paired and _even(one) for one in every])
    keep &= ~(amid[i] & mirrored[j]) & ((owner[i] != owner[j]) | mirrored[j])
    i, j = i[keep], j[keep]
    room = np.maximum(np.maximum(low[j] - high[i], low[i] - high[j]), 0.0)
    far = np.sqrt((room * room).sum(axis=1))
    order = np.argsort(far, kind="stable")
    return i[order], j[order], far[order], int(np.triu(apart, 1).sum())


def _even(body: Body) -> bool:
    """Return whether a body is the same on both sides of the centre line."""
    return abs(body.shape.low + body.shape.high) < 1e-6


def _looked_at(a: Part, b: Part) -> bool:
    if a.name == b.name:
        return a.paired and a.ride != "frames"
    if a.name in b.joined or b.name in a.joined or a.kind == b.kind == "motion":
        return False
    # what rides on one axle moves together
    return a.axle is None or a.axle != b.axle


def _measured(whole: Whole, a: Body, b: Body) -> _Found:
    """Return the least gap of two bodies over a coarse turn, in every state of the springs."""
    play = play_between(a, b, whole)
    best: _Found | None = None
    for state in states_of(a, b):
        rises = {n: np.array([sign * whole.rise]) for n, sign in state.items()}
        found = gap(a.shape, a.at(whole, ANGLES, rises), b.shape, b.at(whole, ANGLES, rises), play)
        n = int(found.argmin())
        if best is None or found[n] < best.gap:
            best = _Found(float(found[n]), (a, b), float(ANGLES[n]), state)
    assert best is not None
    return best


def _closed_in(whole: Whole, found: _Found, wanted: float, beside: float) -> Near:
    """Return a gap closed in on between the angles, with where it is."""
    a, b = found.pair
    play = play_between(a, b, whole)
    angle, least, turns = found.angle, found.gap, not (a.stands and b.stands)
    rises = {n: np.array([sign * whole.rise]) for n, sign in found.state.items()}
    step = 360.0 / len(ANGLES)
    for _ in range(3 if turns else 1):
        tried = angle + step * np.linspace(-1, 1, 21 if turns else 1)
        there = gap(
            a.shape, a.at(whole, tried, rises), b.shape, b.at(whole, tried, rises), play, True
        )
        n = int(there.argmin())
        angle, least = float(tried[n % len(tried)]), float(there[n])
        step /= 10
    if not turns:
        angle = 0.0
    # seen from the side alone: where they overlap there, only the room across counts
    here = np.array([angle])
    seen = gap(
        a.shape, a.at(whole, here, rises), b.shape, b.at(whole, here, rises), play + _WIDE, True
    )
    asked = beside if float(seen[0]) <= 0 else wanted
    return Near(
        a.part.name, b.part.name, least, tuple(dict.fromkeys((*a.part.fields, *b.part.fields))),
        angle % 360.0 if turns else None,
        tuple((whole.axles[n].name, int(sign)) for n, sign in found.state.items() if sign),
        play, _place(whole, a, b, angle, rises), (_side(a), _side(b)),
        asked if a.moves or b.moves else 0.0, a.moves or b.moves,
    )  # fmt: skip


def _side(body: Body) -> str:
    if not body.part.paired:
        return ""
    return "left" if body.left else "right"


def outline_at(
    whole: Whole, body: Body, angle: float, rises: dict[int, Array] | None = None
) -> Array:
    """Return a body's outline seen from the side (m, 2) where it has moved to."""
    at = body.at(whole, np.array([angle]), rises)
    if body.shape.form == "bar":
        drawn = ring(body.shape, at, 25)
    elif body.shape.form == "round":
        drawn = flat(body.shape, at)
    else:
        begin, end = body.shape.rings[0]
        drawn = at[:, begin:end]
    return np.asarray(drawn[0])


def _place(
    whole: Whole, a: Body, b: Body, angle: float, rises: dict[int, Array]
) -> tuple[float, float, float]:
    """Return a point amid the gap, or amid what both take up where they foul."""
    one, other = (outline_at(whole, body, angle, rises) for body in (a, b))
    across = (max(a.shape.low, b.shape.low) + min(a.shape.high, b.shape.high)) / 2
    low, high = (
        pick(np.array([fold(points, axis=0) for points in (one, other)]), axis=0)
        for pick, fold in ((np.max, np.min), (np.min, np.max))
    )
    if np.all(high > low):
        amid = (low + high) / 2
        return float(amid[0]), float(amid[1]), across
    best, at = np.inf, (one + 0.0).mean(axis=0)
    for points, rim in ((one, other), (other, one)):
        start, way = rim, np.roll(rim, -1, axis=0) - rim
        along = ((points[:, None] - start) * way).sum(-1) / np.maximum((way * way).sum(-1), 1e-12)
        foot = start + np.clip(along, 0, 1)[..., None] * way
        far = np.hypot(*np.moveaxis(points[:, None] - foot, -1, 0))
        n = np.unravel_index(int(far.argmin()), far.shape)
        if far[n] < best:
            best, at = float(far[n]), (points[n[0]] + foot[n]) / 2
    return float(at[0]), float(at[1]), across
