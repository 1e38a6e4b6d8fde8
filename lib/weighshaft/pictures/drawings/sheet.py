"""A shop drawing, described once: views in first angle, dimensions, title and notes.

Views are made of the primitives of `pictures.scene`, and of outlines whose arcs are arcs
and not chords, so that a cutter follows them truly.  Lengths are model millimetres.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

import numpy as np

from ..scene import Array, Fill, Path, Pen, Point, Primitive, Scene

Corner = tuple[float, float, float]
"""x, y and the bulge of the way to the next corner: the tangent of a quarter of the arc's
angle, positive anticlockwise, 0 for a straight line; as in DXF."""

Where = Literal["elevation", "plan", "end", "section"]
"""First angle: the plan below the elevation, the view from the left to its right."""

_CHORD = 1e-3
"""How far the chords on paper may stray from an arc, mm of the model."""


@dataclass(frozen=True)
class Outline:
    """A closed outline of lines and arcs; a hole is an outline too."""

    corners: tuple[Corner, ...]
    pen: Pen = "outline"
    fill: Fill = "none"
    part: str = ""

    @property
    def area(self) -> float:
        """Area inside, mm2, arcs counted exactly."""
        return abs(sum(map(_under, self.corners, _following(self.corners))))

    def path(self) -> Path:
        """Return the outline in chords that stray from it by less than a micrometre."""
        points: list[Point] = []
        for (x, y, bulge), end in zip(self.corners, _following(self.corners), strict=True):
            points.append((x, y))
            if bulge:
                points += _along((x, y), end[:2], bulge)
        return Path(np.array(points), self.pen, True, self.fill, self.part)


@dataclass(frozen=True)
class View:
    """One view of a part, at its place in first-angle projection."""

    where: Where
    drawn: tuple[Primitive | Outline, ...]
    title: str = ""

    def scene(self, title: str, says: str) -> Scene:
        """Return the view for the page."""
        return Scene(title, says, self.primitives)

    @property
    def primitives(self) -> tuple[Primitive, ...]:
        """The view in primitives that every renderer knows."""
        return tuple(one.path() if isinstance(one, Outline) else one for one in self.drawn)

    @property
    def outlines(self) -> tuple[Outline, ...]:
        """The outlines with true arcs."""
        return tuple(one for one in self.drawn if isinstance(one, Outline))


@dataclass(frozen=True, kw_only=True)
class Drawing:
    """A shop drawing.

    Parameters
    ----------
    key : file name without its ending, such as "frame-plate".
    title : what the part is called.
    material, count : what it is made of, and how many of it.
    views_at : the views in first angle for a scale in mm on paper a mm; only where the
        dimensions stand hangs on it.
    notes : short lines for the foot of the sheet.
    tolerance : general tolerance in words.
    flat : whether its elevation is what a laser or water jet cuts.
    """

    key: str
    title: str
    material: str
    count: int
    views_at: Callable[[float], tuple[View, ...]]
    notes: tuple[str, ...] = ()
    tolerance: str = "±0.1 mm where nothing else is said"
    flat: bool = False


def _following(corners: tuple[Corner, ...]) -> tuple[Corner, ...]:
    return corners[1:] + corners[:1]


def _under(here: Corner, there: Corner) -> float:
    """Return half the cross product of two corners, and the segment between chord and arc."""
    chord = (here[0] * there[1] - there[0] * here[1]) / 2
    if not here[2]:
        return chord
    angle = 4 * math.atan(here[2])
    radius = math.dist(here[:2], there[:2]) / (2 * math.sin(angle / 2))
    return chord + radius * radius * (angle - math.sin(angle)) / 2


def _along(start: Point, end: Point, bulge: float) -> list[Point]:
    """Return points on the arc between two corners, without its ends."""
    centre, radius, first, angle = arc_of(start, end, bulge)
    step = 2 * math.acos(max(1 - _CHORD / radius, -1.0)) if radius > _CHORD else math.pi / 4
    count = max(2, math.ceil(abs(angle) / step))
    turns = first + angle * np.arange(1, count) / count
    return [(centre[0] + radius * math.cos(t), centre[1] + radius * math.sin(t)) for t in turns]


def arc_of(start: Point, end: Point, bulge: float) -> tuple[Point, float, float, float]:
    """Return centre, radius, first angle and angle of an arc in radians.

    Source: definition of the bulge in the DXF reference: the tangent of a quarter of the
    included angle.
    """
    angle = 4 * math.atan(bulge)
    chord = math.dist(start, end)
    radius = abs(chord / (2 * math.sin(angle / 2)))
    middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
    # from the chord's middle to the centre, to the left of the way for a small positive arc
    off = chord / 2 / math.tan(angle / 2)
    left = (-(end[1] - start[1]) / chord, (end[0] - start[0]) / chord)
    centre = (middle[0] + off * left[0], middle[1] + off * left[1])
    return centre, radius, math.atan2(start[1] - centre[1], start[0] - centre[0]), angle


def polygon(points: Sequence[Point] | Array, fill: Fill = "none", part: str = "") -> Outline:
    """Return an outline of straight lines."""
    return Outline(tuple((float(x), float(y), 0.0) for x, y in points), "outline", fill, part)


def hole(centre: Point, diameter: float) -> Outline:
    """Return a round hole as two half arcs."""
    x, y, r = centre[0], centre[1], diameter / 2
    return Outline(((x - r, y, 1.0), (x + r, y, 1.0)))


def rod(centres: Sequence[Point], radii: Sequence[float], half: float) -> Outline:
    """Return a rod of eyes joined by a bar, as one outline with true arcs.

    Parameters
    ----------
    centres : of the eyes, in one line from left to right, mm.
    radii : of the eyes, mm, each more than `half`.
    half : half the depth of the bar between them, mm.
    """
    y = centres[0][1]
    above: list[Corner] = []
    last = len(centres) - 1
    for n, ((x, _), radius) in enumerate(zip(centres, radii, strict=True)):
        reach = math.sqrt(max(radius * radius - half * half, 0.0))
        turn = math.asin(min(half / radius, 1.0))
        if n == 0:
            above.append((x + reach, y + half, 0.0))
        elif n == last:
            above.append((x - reach, y + half, -math.tan((2 * math.pi - 2 * turn) / 4)))
        else:
            above.append((x - reach, y + half, -math.tan((math.pi - 2 * turn) / 4)))
            above.append((x + reach, y + half, 0.0))
    below: list[Corner] = []
    for n in range(last, -1, -1):
        (x, _), radius = centres[n], radii[n]
        reach = math.sqrt(max(radius * radius - half * half, 0.0))
        turn = math.asin(min(half / radius, 1.0))
        if n == last:
            below.append((x - reach, y - half, 0.0))
        elif n == 0:
            below.append((x + reach, y - half, -math.tan((2 * math.pi - 2 * turn) / 4)))
        else:
            below.append((x + reach, y - half, -math.tan((math.pi - 2 * turn) / 4)))
            below.append((x - reach, y - half, 0.0))
    return Outline(tuple(above + below), fill="metal")


def centre_lines(at: Point, reach: float, scale: float) -> list[Path]:
    """Return a cross of centre lines, a little longer than what it marks.

    Parameters
    ----------
    reach : from the centre to where the part ends, mm.
    """
    out = reach + 3.0 / scale
    x, y = at
    return [
        Path(np.array([[x - out, y], [x + out, y]]), "centre"),
        Path(np.array([[x, y - out], [x, y + out]]), "centre"),
    ]
