"""Outlines of lines and true arcs joined into one, as a rod and its eyes are one piece.

Each outline is cut where the others cross it; what lies outside all others is kept and put
together again.  Lines and arcs stay what they were: nothing is broken into chords.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from functools import reduce
from itertools import pairwise

from ..scene import Point
from .sheet import Corner, Outline, arc_of

_SAME = 1e-7
"""Points nearer to one another than this are one, mm."""

Edge = tuple[Point, Point, float]
"""From, to and bulge."""


def disc(centre: Point, radius: float) -> Outline:
    """Return a round as an outline, anticlockwise."""
    x, y = centre
    return Outline(((x - radius, y, 1.0), (x + radius, y, 1.0)), fill="metal")


def bar(start: Point, end: Point, half: float) -> Outline:
    """Return a bar with round ends about two points, `half` wide to either side, mm."""
    long = math.dist(start, end)
    if long < _SAME:
        return disc(start, half)
    x, y = (end[0] - start[0]) / long * half, (end[1] - start[1]) / long * half
    (ax, ay), (bx, by) = start, end
    return Outline(
        (
            (ax + y, ay - x, 0.0), (bx + y, by - x, 1.0), (bx - y, by + x, 0.0),
            (ax - y, ay + x, 1.0),
        ),
        fill="metal",
    )  # fmt: skip


def strip(start: Point, end: Point, half: float) -> Outline:
    """Return a straight strip between two points with square ends, mm."""
    long = math.dist(start, end)
    x, y = (end[0] - start[0]) / long * half, (end[1] - start[1]) / long * half
    (ax, ay), (bx, by) = start, end
    return Outline(
        (
            (ax + y, ay - x, 0.0), (bx + y, by - x, 0.0), (bx - y, by + x, 0.0),
            (ax - y, ay + x, 0.0),
        ),
        fill="metal",
    )  # fmt: skip


def curved(centre: Point, radius: float, start: float, end: float, half: float) -> Outline:
    """Return a curved bar with round ends, or the slot in a link.

    Parameters
    ----------
    centre, radius : of its middle line, mm.
    start, end : degrees, anticlockwise.
    half : half its width, mm.
    """
    bulge = math.tan(math.radians(end - start) / 4)

    def at(r: float, angle: float) -> Point:
        turn = math.radians(angle)
        return (centre[0] + r * math.cos(turn), centre[1] + r * math.sin(turn))

    return Outline(
        (
            (*at(radius + half, start), bulge), (*at(radius + half, end), 1.0),
            (*at(radius - half, end), -bulge), (*at(radius - half, start), 1.0),
        ),
        fill="metal",
    )  # fmt: skip


def union(outlines: Iterable[Outline]) -> Outline:
    """Return what all outlines cover together; each has to meet one before it.

    Holes that the parts leave between them are not kept, since no part of an engine here has any.

    Raises
    ------
    ValueError : when they do not hang together.
    """
    parts = tuple(outlines)
    for attempt in range(4):
        try:
            return reduce(_joined, (_nudged(one, attempt * n) for n, one in enumerate(parts)))
        except ValueError:
            if attempt == 3:
                raise
    raise AssertionError


def _nudged(outline: Outline, by: int) -> Outline:
    """Return an outline moved by some millionths of a mm, where edges all but touch."""
    shift = 3e-6 * by
    corners = tuple((x + shift, y - 0.6 * shift, bulge) for x, y, bulge in outline.corners)
    return replace(outline, corners=corners)


def inside(outline: Outline, point: Point) -> bool:
    """Return whether a point is within an outline, however it runs."""
    return abs(_winding(_edges(outline), point)) > 0.5


def _joined(first: Outline, second: Outline) -> Outline:
    here, there = _edges(_anticlockwise(first)), _edges(_anticlockwise(second))
    kept = [piece for piece in _cut(here, there) if _outside(piece, there, keep_shared=True)]
    kept += [piece for piece in _cut(there, here) if _outside(piece, here, keep_shared=False)]
    kept = _snapped(kept)
    if not kept:
        raise ValueError("nothing is left of two outlines")
    loops = [replace(first, corners=_merged(loop)) for loop in _loops(kept)]
    outer = [one for one in loops if _signed(one) > 0]  # holes run the other way round
    if len(outer) != 1:
        raise ValueError("the outlines do not hang together")
    return outer[0]


def _edges(outline: Outline) -> list[Edge]:
    corners = outline.corners
    following = corners[1:] + corners[:1]
    edges = [(a[:2], b[:2], a[2]) for a, b in zip(corners, following, strict=True)]
    return [part for edge in edges for part in _halves(edge)]


def _halves(edge: Edge) -> list[Edge]:
    """Return an arc of more than a third of a turn in two, so that it is less than half a round."""
    if abs(edge[2]) < math.tan(math.pi / 6):
        return [edge]
    middle = _along(edge, 0.5)
    half = math.tan(math.atan(edge[2]) / 2)
    return [*_halves((edge[0], middle, half)), *_halves((middle, edge[1], half))]


def _signed(outline: Outline) -> float:
    """Return the area inside, mm2, positive where the outline runs anticlockwise."""
    signed = 0.0
    for (ax, ay), (bx, by), bulge in _edges(outline):
        signed += (ax * by - bx * ay) / 2
        if bulge:
            _, radius, _, angle = arc_of((ax, ay), (bx, by), bulge)
            signed += radius * radius * (angle - math.sin(angle)) / 2
    return signed


def _anticlockwise(outline: Outline) -> Outline:
    if _signed(outline) > 0:
        return outline
    corners = outline.corners
    turned = [
        (corners[n][0], corners[n][1], -corners[n - 1][2]) for n in range(len(corners) - 1, -1, -1)
    ]
    return replace(outline, corners=tuple(turned))


def _along(edge: Edge, share: float) -> Point:
    start, end, bulge = edge
    if not bulge:
        return (
            start[0] + share * (end[0] - start[0]), start[1] + share * (end[1] - start[1]),
        )  # fmt: skip
    centre, radius, first, angle = arc_of(start, end, bulge)
    turn = first + share * angle
    return (centre[0] + radius * math.cos(turn), centre[1] + radius * math.sin(turn))


def _share(edge: Edge, point: Point) -> float | None:
    """Return where on an edge a point lies, from 0 to 1; None where it is beside it."""
    start, end, bulge = edge
    if math.dist(point, start) < _SAME:
        return 0.0
    if math.dist(point, end) < _SAME:
        return 1.0
    if not bulge:
        long = math.dist(start, end)
        way = ((end[0] - start[0]) / long, (end[1] - start[1]) / long)
        away = (point[0] - start[0], point[1] - start[1])
        share = (away[0] * way[0] + away[1] * way[1]) / long
        off = abs(away[0] * way[1] - away[1] * way[0])
    else:
        centre, radius, first, angle = arc_of(start, end, bulge)
        turn = math.atan2(point[1] - centre[1], point[0] - centre[0]) - first
        turn = turn % (2 * math.pi) if angle > 0 else -(-turn % (2 * math.pi))
        share = turn / angle
        off = abs(math.dist(point, centre) - radius)
    return share if off < _SAME and 0 < share < 1 else None


def _cut(edges: Sequence[Edge], others: Sequence[Edge]) -> list[Edge]:
    """Return the edges in pieces, cut where others cross or touch them."""
    pieces: list[Edge] = []
    for edge in edges:
        places = {0.0, 1.0}
        for other in others:
            for point in (*_crossings(edge, other), other[0], other[1]):
                if _share(other, point) is not None:
                    share = _share(edge, point)
                    if share is not None:
                        places.add(share)
        ordered = sorted(places)
        for one, two in pairwise(ordered):
            ends = (_along(edge, one), _along(edge, two))
            if math.dist(*ends) > _SAME / 10:
                pieces.append((*ends, math.tan(math.atan(edge[2]) * (two - one))))
    return pieces


def _crossings(one: Edge, other: Edge) -> list[Point]:
    """Return where the lines or rounds of two edges cross, on the edges or not."""
    if not one[2] and not other[2]:
        return _lines(one, other)
    if one[2] and other[2]:
        (p, r, *_), (q, s, *_) = arc_of(*one), arc_of(*other)
        apart = math.dist(p, q)
        if apart < _SAME or apart > r + s + _SAME or apart < abs(r - s) - _SAME:
            return []
        out = (apart * apart + r * r - s * s) / (2 * apart)
        touch = min(abs(apart - r - s), abs(apart - abs(r - s))) < _SAME
        up = 0.0 if touch else math.sqrt(max(r * r - out * out, 0.0))
        x, y = (q[0] - p[0]) / apart, (q[1] - p[1]) / apart
        return [(p[0] + out * x - w * y, p[1] + out * y + w * x) for w in (up, -up)]
    line, arc = (one, other) if other[2] else (other, one)
    centre, radius, *_ = arc_of(*arc)
    (ax, ay), (bx, by), _ = line
    long = math.dist(line[0], line[1])
    x, y = (bx - ax) / long, (by - ay) / long
    foot = (centre[0] - ax) * x + (centre[1] - ay) * y
    off = abs((centre[0] - ax) * y - (centre[1] - ay) * x)
    if off > radius + _SAME:
        return []
    touch = abs(off - radius) < _SAME
    reach = 0.0 if touch else math.sqrt(max(radius * radius - off * off, 0.0))
    return [(ax + t * x, ay + t * y) for t in (foot - reach, foot + reach)]


def _lines(one: Edge, other: Edge) -> list[Point]:
    (ax, ay), (bx, by), _ = one
    (cx, cy), (dx, dy), _ = other
    cross = (bx - ax) * (dy - cy) - (by - ay) * (dx - cx)
    if abs(cross) < 1e-12 * math.dist(*one[:2]) * math.dist(*other[:2]):
        return []
    t = ((cx - ax) * (dy - cy) - (cy - ay) * (dx - cx)) / cross
    return [(ax + t * (bx - ax), ay + t * (by - ay))]


def _outside(piece: Edge, others: Sequence[Edge], keep_shared: bool) -> bool:
    """Return whether a piece bounds the union: outside the others, or shared and once only."""
    middle = _along(piece, 0.5)
    for other in others:
        share = _share(other, middle)
        if share is None:
            continue
        ahead, behind = _along(piece, 0.51), _along(piece, 0.49)
        way, near = (ahead[0] - behind[0], ahead[1] - behind[1]), 1e-3
        one, two = _along(other, max(share - near, 0.0)), _along(other, min(share + near, 1.0))
        same = way[0] * (two[0] - one[0]) + way[1] * (two[1] - one[1]) > 0
        return keep_shared and same
    return abs(_winding(others, middle)) < 0.5


def _winding(edges: Sequence[Edge], point: Point) -> float:
    """Return how often the edges go round a point; no arc may be half a round or more."""
    turns = 0.0
    for start, end, bulge in edges:
        a = (start[0] - point[0], start[1] - point[1])
        b = (end[0] - point[0], end[1] - point[1])
        cross = a[0] * b[1] - a[1] * b[0]
        turns += math.atan2(cross, a[0] * b[0] + a[1] * b[1])
        if bulge:
            centre, radius, *_ = arc_of(start, end, bulge)
            # between chord and arc the chord passes on the other side
            if math.dist(point, centre) < radius and cross * bulge < 0:
                turns += math.copysign(2 * math.pi, bulge)
    return turns / (2 * math.pi)


def _snapped(pieces: list[Edge]) -> list[Edge]:
    """Return the pieces with ends that are all but one made one, and none without length."""
    points: list[Point] = []

    def snap(point: Point) -> Point:
        for one in points:
            if math.dist(one, point) < 5 * _SAME:
                return one
        points.append(point)
        return point

    made = [(snap(a), snap(b), bulge) for a, b, bulge in pieces]
    return [one for one in made if one[0] != one[1]]


def _loops(pieces: list[Edge]) -> list[list[Edge]]:
    """Return pieces put together end to start."""
    left, loops = list(pieces), []
    while left:
        loop = [left.pop()]
        while loop[-1][1] != loop[0][0]:
            end = loop[-1][1]
            n = next((k for k, one in enumerate(left) if one[0] == end), None)
            if n is None:
                raise ValueError("an outline does not close")
            loop.append(left.pop(n))
        loops.append(loop)
    return loops


def _merged(loop: list[Edge]) -> tuple[Corner, ...]:
    """Return the corners of a loop, lines and arcs that go on as one made one."""
    edges = list(loop)
    n = 0
    while n < len(edges) and len(edges) > 2:
        this, following = edges[n], edges[(n + 1) % len(edges)]
        one = _as_one(this, following)
        if one is None:
            n += 1
            continue
        edges[n] = one
        edges.pop((n + 1) % len(edges))
        n = max(n - 2, 0)
    return tuple((a[0], a[1], bulge) for a, _, bulge in edges)


def _as_one(one: Edge, other: Edge) -> Edge | None:
    if bool(one[2]) != bool(other[2]) or math.dist(one[0], other[1]) < _SAME:
        return None
    if not one[2]:
        (ax, ay), (bx, by), (cx, cy) = one[0], one[1], other[1]
        cross = (bx - ax) * (cy - by) - (by - ay) * (cx - bx)
        onward = (bx - ax) * (cx - bx) + (by - ay) * (cy - by) > 0
        flat = abs(cross) < _SAME * math.dist((ax, ay), (cx, cy))
        return (one[0], other[1], 0.0) if flat and onward else None
    (p, r, _, a), (q, s, _, b) = arc_of(*one), arc_of(*other)
    if math.dist(p, q) > 10 * _SAME or abs(r - s) > 10 * _SAME or a * b < 0:
        return None
    if abs(a + b) > 1.8 * math.pi:
        return None
    return (one[0], other[1], math.tan((a + b) / 4))
