"""Plain bodies of which the engine is put together: plates, bars and rounds.

All stand in the engine's frame: x ahead along the rail, y up, both from the driving axle
where the axleboxes stand midway, z out from the engine's centre line to the right, mm.
The right-hand side seen from outside so has its front to the right.
"""

from __future__ import annotations

import math
from dataclasses import dataclass, replace

Point = tuple[float, float]
Place = tuple[float, float, float]


@dataclass(frozen=True)
class Plate:
    """A flat body: an outline seen from the side, from `inner` to `outer` across.

    Parameters
    ----------
    outline : corners in order, mm.
    holes : outlines of what is cut out.
    """

    outline: tuple[Point, ...]
    inner: float
    outer: float
    holes: tuple[tuple[Point, ...], ...] = ()

    @property
    def volume(self) -> float:
        """In mm3."""
        area = abs(_area(self.outline)) - sum(abs(_area(hole)) for hole in self.holes)
        return area * (self.outer - self.inner)

    @property
    def centroid(self) -> Place:
        """Centre of its volume, mm."""
        whole, (x, y) = abs(_area(self.outline)), _middle(self.outline)
        moment_x, moment_y, area = whole * x, whole * y, whole
        for hole in self.holes:
            cut, (x, y) = abs(_area(hole)), _middle(hole)
            moment_x, moment_y, area = moment_x - cut * x, moment_y - cut * y, area - cut
        return moment_x / area, moment_y / area, (self.inner + self.outer) / 2

    @property
    def extent(self) -> tuple[Place, Place]:
        """Lowest and highest x, y and z, mm."""
        xs, ys = [p[0] for p in self.outline], [p[1] for p in self.outline]
        return (min(xs), min(ys), self.inner), (max(xs), max(ys), self.outer)


@dataclass(frozen=True)
class Bar:
    """A bar with round ends between two points seen from the side; a disc where they are one.

    Parameters
    ----------
    half : half its width round the line, mm; of a disc its radius.
    bore : diameter of the hole through a disc, mm.
    """

    start: Point
    end: Point
    half: float
    inner: float
    outer: float
    bore: float = 0.0

    @property
    def volume(self) -> float:
        """In mm3."""
        area = 2 * self.half * math.dist(self.start, self.end) + math.pi * self.half**2
        return (area - math.pi * self.bore**2 / 4) * (self.outer - self.inner)

    @property
    def centroid(self) -> Place:
        """Centre of its volume, mm."""
        x, y = ((a + b) / 2 for a, b in zip(self.start, self.end, strict=True))
        return x, y, (self.inner + self.outer) / 2

    @property
    def extent(self) -> tuple[Place, Place]:
        """Lowest and highest x, y and z, mm."""
        (ax, ay), (bx, by), half = self.start, self.end, self.half
        return (
            (min(ax, bx) - half, min(ay, by) - half, self.inner),
            (max(ax, bx) + half, max(ay, by) + half, self.outer),
        )


@dataclass(frozen=True)
class Round:
    """A round body about an axis that lies in a plane parallel to the frames.

    Parameters
    ----------
    start : where its axis begins, mm.
    length : along the axis, mm.
    radius : outside, mm.
    angle : of the axis, degrees from straight ahead, anticlockwise: 90 stands upright.
    bore : diameter of the hole along it, mm.
    """

    start: Place
    length: float
    radius: float
    angle: float = 0.0
    bore: float = 0.0

    @property
    def end(self) -> Place:
        """Where its axis ends, mm."""
        turned = math.radians(self.angle)
        x, y, z = self.start
        return x + self.length * math.cos(turned), y + self.length * math.sin(turned), z

    @property
    def volume(self) -> float:
        """In mm3."""
        return math.pi * (self.radius**2 - self.bore**2 / 4) * self.length

    @property
    def centroid(self) -> Place:
        """Centre of its volume, mm."""
        (ax, ay, z), (bx, by, _) = self.start, self.end
        return (ax + bx) / 2, (ay + by) / 2, z

    @property
    def outline(self) -> tuple[Point, ...]:
        """Corners seen from the side, mm."""
        (ax, ay, _), (bx, by, _) = self.start, self.end
        turned = math.radians(self.angle)
        across_x, across_y = -self.radius * math.sin(turned), self.radius * math.cos(turned)
        return (
            (ax - across_x, ay - across_y), (bx - across_x, by - across_y),
            (bx + across_x, by + across_y), (ax + across_x, ay + across_y),
        )  # fmt: skip

    @property
    def extent(self) -> tuple[Place, Place]:
        """Lowest and highest x, y and z, mm."""
        xs, ys = zip(*self.outline, strict=True)
        z = self.start[2]
        return (min(xs), min(ys), z - self.radius), (max(xs), max(ys), z + self.radius)


Solid = Plate | Bar | Round


def block(
    back: float, front: float, bottom: float, top: float, inner: float, outer: float
) -> Plate:
    """Return a rectangular block with its edges along the axes, mm."""
    return Plate(((back, bottom), (front, bottom), (front, top), (back, top)), inner, outer)


def disc(centre: Point, radius: float, inner: float, outer: float, bore: float = 0.0) -> Bar:
    """Return a disc that turns about an axle, mm."""
    return Bar(centre, centre, radius, inner, outer, bore)


def mirrored(solid: Solid) -> Solid:
    """Return the same body on the other side of the engine."""
    if isinstance(solid, Round):
        x, y, z = solid.start
        return replace(solid, start=(x, y, -z))
    return replace(solid, inner=-solid.outer, outer=-solid.inner)


def _area(outline: tuple[Point, ...]) -> float:
    """Return the area inside an outline, positive where it runs anticlockwise."""
    following = outline[1:] + outline[:1]
    return sum(ax * by - bx * ay for (ax, ay), (bx, by) in zip(outline, following, strict=True)) / 2


def _middle(outline: tuple[Point, ...]) -> Point:
    """Return the centre of the area inside an outline."""
    following = outline[1:] + outline[:1]
    x = y = 0.0
    for (ax, ay), (bx, by) in zip(outline, following, strict=True):
        cross = ax * by - bx * ay
        x += (ax + bx) * cross
        y += (ay + by) * cross
    area = _area(outline)
    return x / (6 * area), y / (6 * area)
