"""How far a part goes one way before another stands in its way.

Bodies are looked at as outlines seen from the side with their width across the engine; a
round is cut across into bands, each as high as the round is where the band is nearest to its
axis, so that the bands lie about it.  What lies in one another from the start is a foul that
the clearances tell; it is not told again here.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache

import numpy as np

from ..frames.solids import Bar, Place, Plate, Point, Round, Solid
from ..frames.whole import Part, Whole, moved

CORNERS = 24
"""Of the many-sided outline that stands for a round one; it lies about it, not within."""
TOUCH = 0.02
"""What counts as touching rather than as being in the way, mm."""
BANDS = 4
"""Of a round, on each side of its axis."""
_WITHIN = np.array([0.5, 0.02, 0.25, 0.75, 0.98])
CLEAR = math.inf
"""Free as far as one likes."""


@dataclass(frozen=True)
class Shape:
    """One body as it is swept: the name of its part, outline from the side and width across."""

    part: str
    outline: tuple[Point, ...]
    inner: float
    outer: float

    @cached_property
    def corners(self) -> np.ndarray:
        """The outline as an array (n, 2)."""
        return np.array(self.outline)

    @cached_property
    def following(self) -> np.ndarray:
        """The corner after each, (n, 2)."""
        return np.concatenate([self.corners[1:], self.corners[:1]])

    @cached_property
    def probes(self) -> np.ndarray:
        """Corners and the middles between them, (2n, 2)."""
        return np.concatenate([self.corners, (self.corners + self.following) / 2])

    def span(self, line: Point) -> tuple[float, float]:
        """Return from where to where it reaches along a line, mm."""
        if line not in self._spans:
            at = self.corners @ np.array(line)
            self._spans[line] = (float(at.min()), float(at.max()))
        return self._spans[line]

    @cached_property
    def _spans(self) -> dict[Point, tuple[float, float]]:
        return {}


@dataclass(frozen=True)
class Way:
    """A way out for a part.

    Parameters
    ----------
    toward : "down", "up", "ahead", "back", "out", "forward" or "backward" along the cylinder.
    free : how far it goes before it meets the first thing, mm.
    needed : how far it has to go to be out, mm.
    blocked : names of what stands in the way on that distance, the nearest first.
    """

    toward: str
    free: float
    needed: float
    blocked: tuple[str, ...]

    @property
    def open(self) -> bool:
        """Whether nothing stands in the way."""
        return not self.blocked


def outline_of(solid: Solid) -> tuple[Point, ...]:
    """Return the outline of a body seen from the side, mm, anticlockwise."""
    if isinstance(solid, Bar):
        if solid.start == solid.end:
            return _ring(solid.start, solid.half, 0.0, 2 * math.pi, CORNERS)
        (ax, ay), (bx, by) = solid.start, solid.end
        turn = math.atan2(by - ay, bx - ax)
        half = CORNERS // 2
        return (
            *_ring(solid.end, solid.half, turn - math.pi / 2, turn + math.pi / 2, half),
            *_ring(solid.start, solid.half, turn + math.pi / 2, turn + 1.5 * math.pi, half),
        )
    made = tuple((float(x), float(y)) for x, y in solid.outline)
    return made if _area(made) > 0 else made[::-1]


def _ring(centre: Point, radius: float, start: float, end: float, steps: int) -> tuple[Point, ...]:
    """Return an arc; a whole ring lies about the circle, so that it is never less than it."""
    whole = end - start > 1.9 * math.pi
    out = radius / math.cos(math.pi / steps) if whole else radius
    count = steps if whole else steps + 1
    return tuple(
        (centre[0] + out * math.cos(start + (end - start) * n / steps),
         centre[1] + out * math.sin(start + (end - start) * n / steps))
        for n in range(count)
    )  # fmt: skip


def _area(outline: tuple[Point, ...]) -> float:
    following = outline[1:] + outline[:1]
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(outline, following, strict=True)) / 2


def shapes_of(part: Part, whole: Whole, theta: float = 0.0) -> tuple[Shape, ...]:
    """Return the bodies of a part on the right, or about the middle, at a crank angle.

    Parameters
    ----------
    theta : of the right-hand crank, degrees.
    """
    bands = tuple(_bands(part.solids))
    outlines = _placed(part, whole, theta, bands)
    return tuple(
        Shape(part.name, outline, band.inner, band.outer)
        for band, outline in zip(bands, outlines, strict=True)
    )


def seen_of(part: Part, whole: Whole, theta: float = 0.0) -> tuple[tuple[Point, ...], ...]:
    """Return the outlines of a part as it is seen from the side; see `shapes_of`."""
    return tuple(_placed(part, whole, theta, part.solids))


def _placed(
    part: Part, whole: Whole, theta: float, solids: Iterable[Solid]
) -> Iterator[tuple[Point, ...]]:
    """Yield the outlines of bodies of a part where they stand at a crank angle."""
    cos, sin, ahead, up = (1.0, 0.0, 0.0, 0.0)
    turned = bool(theta) and part.ride not in ("frames", "axle")
    if turned:
        cos, sin, ahead, up = (float(one[0]) for one in moved(part, whole, np.array([theta])))
    for solid in solids:
        outline = outline_of(solid)
        if turned:
            outline = tuple((x * cos - y * sin + ahead, x * sin + y * cos + up) for x, y in outline)
        yield outline


def _bands(solids: Iterable[Solid]) -> Iterator[Plate | Bar]:
    """Yield the bodies, a round as bands across the engine that lie about it."""
    for solid in solids:
        if not isinstance(solid, Round):
            yield solid
            continue
        z, radius = solid.start[2], solid.radius
        for n in range(BANDS):
            low, high = radius * n / BANDS, radius * (n + 1) / BANDS
            half = math.sqrt(radius**2 - low**2)
            outline = replace(solid, radius=half).outline
            if n == 0:
                yield Plate(outline, z - high, z + high)
            else:
                yield Plate(outline, z + low, z + high)
                yield Plate(outline, z - high, z - low)


def both_sides(shapes: Iterable[Shape], paired: bool) -> Iterator[Shape]:
    """Yield the shapes, and of a pair those in the mirror as well."""
    for one in shapes:
        yield one
        if paired:
            yield replace(one, inner=-one.outer, outer=-one.inner)


def travel(shape: Shape, other: Shape, toward: Point, limit: float = CLEAR) -> float:
    """Return how far a shape goes along a direction before it meets another, mm.

    `CLEAR` where they never meet within the limit, or lie in one another from the start.

    Parameters
    ----------
    toward : unit vector seen from the side.
    limit : how far is looked, mm.

    Source: the first touch of two outlines is a corner of one on an edge of the other.
    """
    if min(shape.outer, other.outer) - max(shape.inner, other.inner) <= TOUCH:
        return CLEAR
    beside = (-toward[1], toward[0])
    (a0, a1), (b0, b1) = shape.span(beside), other.span(beside)
    if min(a1, b1) - max(a0, b0) <= TOUCH:
        return CLEAR
    (a0, a1), (b0, b1) = shape.span(toward), other.span(toward)
    if b1 - a0 <= TOUCH or b0 - a1 >= limit:
        return CLEAR
    if min(a1, b1) - max(a0, b0) > TOUCH and overlap(shape, other):
        return CLEAR
    way = np.array(toward)
    return min(_rays(shape.probes, way, other), _rays(other.probes, -way, shape))


def _rays(points: np.ndarray, way: np.ndarray, outline: Shape) -> float:
    """Return the least distance from the points along the way into an outline, else infinite.

    A ray that enters and leaves within `TOUCH` only grazes; one that begins inside counts 0.
    """
    first, along = outline.corners, outline.following - outline.corners
    off = first[None, :, :] - points[:, None, :]
    cross = way[0] * along[:, 1] - way[1] * along[:, 0]
    safe = np.where(np.abs(cross) < 1e-12, 1.0, cross)
    t = (off[..., 0] * along[None, :, 1] - off[..., 1] * along[None, :, 0]) / safe
    u = (off[..., 0] * way[1] - off[..., 1] * way[0]) / safe
    meets = (np.abs(cross)[None, :] >= 1e-12) & (u >= 0) & (u < 1)
    best = math.inf
    for row, good in zip(t, meets, strict=True):
        at = np.sort(row[good])
        if len(at) % 2:
            at = at[:-1]
        for enter, leave in zip(at[::2], at[1::2], strict=True):
            if leave - max(enter, 0.0) > TOUCH:
                best = min(best, max(float(enter), 0.0))
    return best


def sideways(shape: Shape, other: Shape) -> float:
    """Return how far a shape goes out to the right before it meets another, mm."""
    gap = other.inner - shape.outer
    if gap < -TOUCH or not overlap(shape, other):
        return CLEAR
    return max(gap, 0.0)


@lru_cache(maxsize=4096)
def overlap(one: Shape, other: Shape) -> bool:
    """Return whether two outlines cover some of the same ground, more than they touch."""
    (ax, ay), (bx, by) = one.corners.T, other.corners.T
    if (
        min(ax.max(), bx.max()) - max(ax.min(), bx.min()) <= TOUCH
        or min(ay.max(), by.max()) - max(ay.min(), by.min()) <= TOUCH
    ):
        return False
    # levels a little off any corner, at which both are cut and the cuts compared
    levels = np.unique(np.concatenate([ay, by]))
    low, high = max(ay.min(), by.min()), min(ay.max(), by.max())
    levels = levels[(levels > low) & (levels < high)]
    ends = np.concatenate([[low], levels, [high]])
    # between two levels edges are straight, but they may cross: so more than the middle is cut
    for y in (ends[:-1, None] + (ends[1:] - ends[:-1])[:, None] * _WITHIN).ravel():
        for a0, a1 in _cuts(one, float(y)):
            for b0, b1 in _cuts(other, float(y)):
                if min(a1, b1) - max(a0, b0) > TOUCH:
                    return True
    return False


def _cuts(shape: Shape, y: float) -> list[tuple[float, float]]:
    """Return from where to where a level line lies inside an outline."""
    (xs, ys), (nx, ny) = shape.corners.T, shape.following.T
    crossing = (ys > y) != (ny > y)
    x, low = xs[crossing], ys[crossing]
    at = np.sort(x + (y - low) * (nx[crossing] - x) / (ny[crossing] - low))
    return [(float(a), float(b)) for a, b in zip(at[::2], at[1::2], strict=True)]


def toward_of(name: str, inclination: float = 0.0) -> Point | None:
    """Return the unit vector of a way, None for the way out sideways.

    Parameters
    ----------
    inclination : of the cylinder, degrees; "forward" and "backward" run along it.
    """
    slope = math.radians(inclination)
    along = (math.cos(slope), math.sin(slope))
    return {
        "down": (0.0, -1.0), "up": (0.0, 1.0), "ahead": (1.0, 0.0), "back": (-1.0, 0.0),
        "forward": along, "backward": (-along[0], -along[1]),
    }.get(name)  # fmt: skip


def way_out(
    going: Sequence[Shape],
    standing: Sequence[Shape],
    toward: str,
    needed: float,
    inclination: float = 0.0,
) -> Way:
    """Return how a part goes one way, and what stands there.

    Parameters
    ----------
    going, standing : what is moved, and all that stays.
    toward : see `Way`.
    needed : how far it has to go, mm.
    """
    line = toward_of(toward, inclination)
    met: dict[str, float] = {}
    for shape in going:
        for other in standing:
            least = met.get(other.part, CLEAR)
            if line is None:
                far = sideways(shape, other)
            else:
                far = travel(shape, other, line, min(needed, least))
            if far < least:
                met[other.part] = far
    free = min(met.values(), default=CLEAR)
    blocked = sorted((far, name) for name, far in met.items() if far < needed - TOUCH)
    return Way(toward, free, needed, tuple(name for _, name in blocked))


def extent_of(shapes: Iterable[Shape]) -> tuple[Place, Place]:
    """Return lowest and highest x, y and z of shapes, mm."""
    listed = list(shapes)
    xs = [x for one in listed for x, _ in one.outline]
    ys = [y for one in listed for _, y in one.outline]
    return (
        (min(xs), min(ys), min(one.inner for one in listed)),
        (max(xs), max(ys), max(one.outer for one in listed)),
    )


__all__ = [
    "CLEAR", "TOUCH", "Shape", "Way", "both_sides", "extent_of", "outline_of", "overlap",
    "seen_of", "shapes_of", "sideways", "toward_of", "travel", "way_out",
]  # fmt: skip
