"""A scene on paper, truly to scale."""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np
from matplotlib.axes import Axes
from matplotlib.collections import PathCollection
from matplotlib.figure import Figure
from matplotlib.patches import Patch, PathPatch
from matplotlib.patches import Polygon as PolygonPatch
from matplotlib.path import Path as Outline

from ...design.typed import LengthUnit
from ...measures import INCH
from ..lengths import dimensioned, told
from ..scene import Arc, Array, Circle, Dimension, Fill, Label, Moving, Path, Pen, Point, Scene
from .lettering import BODY, HEADING, SMALL, Box, Places, sampled, size_of, text_box
from .pens import FILLS, HATCH_SPACING, INK, MM_PER_POINT, PAPER, PENS, SOFT, TEXT, THIN

_MARGIN = 5.0  # mm of white round the drawing
_ARROW, _ARROW_HALF = 2.2, 0.37  # mm, length and half width of an arrowhead
_OVERRUN = 1.0  # mm by which an extension line passes its dimension line
_STEPS = (1, 1.5, 2, 2.5, 3, 4, 5, 6, 8)
_UP = [step * 10.0**power for power in range(5) for step in _STEPS]
_USUAL = sorted({*_UP, *(1 / scale for scale in _UP)}, reverse=True)
"""Scales that a drawing without a given one may take; 1, 2 and 5 are those of ISO 5455."""


def scene_figure(
    scene: Scene, width: float, scale: float | None, frame: int, unit: LengthUnit
) -> Figure:
    """Return the scene on paper; see `figure`."""
    shapes = [*map(_shape, scene.still), *(_moved(one, frame) for one in scene.moving)]
    present = [shape for shape in shapes if shape is not None]
    for points, *_ in present:
        _finite(points, scene.title)
    marks = [one for one in scene.still if isinstance(one, (Label, Dimension))]
    for mark in marks:
        corners = (mark.at,) if isinstance(mark, Label) else (mark.start, mark.end)
        _finite(np.array(corners, dtype=float), scene.title)
    ends = [points for points, *_ in present]
    ends += [np.array([m.start, m.end], dtype=float) for m in marks if isinstance(m, Dimension)]
    ends += [np.array([m.at], dtype=float) for m in marks if isinstance(m, Label)]
    span = np.ptp(np.concatenate(ends), axis=0) if ends else np.ones(2)
    room = width - 2 * _MARGIN
    if scale is not None:
        sheet = _Sheet(present, marks, scale, unit)
    else:
        # the lettering does not shrink with the drawing, so what fits is found by trying
        most = min(room / max(span[0], 1e-9), 1.6 * room / max(span[1], 1e-9))
        for scale in [one for one in _USUAL if one <= most * 1.0001][:8] or [1.0]:
            sheet = _Sheet(present, marks, scale, unit)
            if sheet.box.x1 - sheet.box.x0 <= room:
                break
    assert scale is not None
    return sheet.drawn(scene, width, scale)


_Shape = tuple[Array, Pen, Fill, bool]
"""Points of the edge in mm, pen, fill, closed."""


def _shape(one: object) -> _Shape | None:
    if isinstance(one, Path):
        return np.asarray(one.points, dtype=float), one.pen, one.fill, one.closed
    if isinstance(one, Circle):
        return _round(one.centre, one.radius, 0.0, 360.0), one.pen, one.fill, True
    if isinstance(one, Arc):
        return _round(one.centre, one.radius, one.start, one.end), one.pen, "none", False
    return None


def _moved(one: Moving, frame: int) -> _Shape:
    points = np.asarray(one.points[frame % len(one.points)], dtype=float)
    if one.shape == "circle":
        centre = (float(points[0, 0]), float(points[0, 1]))
        return _round(centre, one.radius, 0.0, 360.0), one.pen, one.fill, True
    return points, one.pen, one.fill, one.shape == "outline"


def _round(centre: Point, radius: float, start: float, end: float) -> Array:
    count = max(2, math.ceil(abs(end - start)) + 1)  # a chord a degree: sagitta r/26000
    angles = np.radians(np.linspace(start, end, count))
    return np.column_stack(
        [centre[0] + radius * np.cos(angles), centre[1] + radius * np.sin(angles)]
    )


def _finite(points: Array, title: str) -> None:
    if not np.isfinite(points).all():
        raise ValueError(f"{title}: a point of the drawing is not a number.")


class _Sheet:
    """Everything of a scene in mm on paper, at one scale."""

    def __init__(
        self, shapes: list[_Shape], marks: list[Label | Dimension], scale: float, unit: LengthUnit
    ) -> None:
        self.shapes: list[_Shape] = [
            (points * scale, pen, fill, closed) for points, pen, fill, closed in shapes
        ]
        self.words: list[tuple[Point, str, str, str, float]] = []
        self.rules: list[Array] = []
        self.arrows: list[Array] = []
        self.dots: list[Point] = []
        lines = [sampled(_ring(points, closed)) for points, _, _, closed in self.shapes]
        self._places = Places(np.concatenate(lines) if lines else np.zeros((0, 2)))
        for mark in marks:
            if isinstance(mark, Dimension):
                self._dimension(mark, scale, unit)
        for mark in marks:
            if isinstance(mark, Label):
                self._label(mark, scale, unit)
        boxes = [_bounds(points) for points, *_ in self.shapes]
        boxes += [_bounds(points) for points in (*self.rules, *self.arrows)]
        self.box = Box.around([*boxes, *self._places.taken] or [Box(0, 0, 10, 10)])

    def _label(self, label: Label, scale: float, unit: LengthUnit) -> None:
        at, text = (label.at[0] * scale, label.at[1] * scale), told(label.text, unit)
        wanted = text_box(at, text, label.anchor)
        shift = self._places.place(wanted)
        box = wanted.moved(*shift)
        place = (at[0] + shift[0], at[1] + shift[1])
        self.words.append((place, text, label.anchor, TEXT[label.pen], 0.0))
        if label.leader is not None:
            target = (label.leader[0] * scale, label.leader[1] * scale)
        elif math.hypot(*shift) > 6.0:
            target = at  # moved so far that it needs a line back to its place
        else:
            return
        start = box.grown(0.4).nearest(target)
        if math.dist(start, target) > 1.0:
            self.rules.append(np.array([start, target]))
            self.dots.append(target)

    def _dimension(self, one: Dimension, scale: float, unit: LengthUnit) -> None:
        a, b = np.array(one.start) * scale, np.array(one.end) * scale
        length = float(np.hypot(*(b - a)))
        if length == 0:
            return
        way = (b - a) / length
        left = np.array([-way[1], way[0]])
        shift = left * one.offset * scale
        c, d = a + shift, b + shift
        if one.offset:
            over = left * math.copysign(_OVERRUN, one.offset)
            self.rules += [np.array([a, c + over]), np.array([b, d + over])]
        text = dimensioned(one.text, math.dist(one.start, one.end), unit)
        wide = size_of(text, BODY)[0]
        turned = math.degrees(math.atan2(way[1], way[0]))
        turned = turned - 180 if turned > 90 + 1e-6 else turned + 180 if turned <= -90 else turned
        upright = np.array([-math.sin(math.radians(turned)), math.cos(math.radians(turned))])
        if length >= 3 * _ARROW:
            self.rules.append(np.array([c, d]))
            heads = ((c, -way), (d, way))
        else:  # too short for arrows between: they point inwards from outside
            self.rules.append(np.array([c - way * 2 * _ARROW, d + way * 2 * _ARROW]))
            heads = ((c, way), (d, -way))
        for tip, towards in heads:
            back, side = tip - towards * _ARROW, left * _ARROW_HALF
            self.arrows.append(np.array([tip, back + side, back - side]))
        middle = (c + d) / 2 + upright * (0.7 * BODY * MM_PER_POINT)
        if wide > length - 1:  # text beside the line, behind its second end
            middle = d + way * (2.5 * _ARROW + wide / 2)
        place = (float(middle[0]), float(middle[1]))
        self.words.append((place, text, "middle", INK, turned))
        self._places.take(text_box(place, text, "middle", turned=turned).grown(0.3))

    def drawn(self, scene: Scene, width: float, scale: float) -> Figure:
        box = self.box
        head, foot = 2.2 * HEADING * MM_PER_POINT, 2.2 * SMALL * MM_PER_POINT
        width = max(width, box.x1 - box.x0 + 2 * _MARGIN)
        height = box.y1 - box.y0 + 2 * _MARGIN + head + foot
        figure = Figure(figsize=(width / INCH, height / INCH), facecolor=PAPER)
        figure.set_label(scene.says)
        axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
        axes.set_axis_off()
        left = (box.x0 + box.x1 - width) / 2
        bottom = box.y0 - _MARGIN - foot
        axes.set_xlim(left, left + width)
        axes.set_ylim(bottom, bottom + height)
        strokes(axes, self, (0.0, 0.0))
        start, top = left + _MARGIN, bottom + height
        axes.text(
            start, top - 0.6 * head, scene.title, color=SOFT, fontsize=HEADING, weight="bold",
            va="center", parse_math=False,
        )  # fmt: skip
        if scene.to_scale:
            axes.text(
                start, bottom + 0.6 * foot, f"Drawn {spell_scale(scale)}", color=SOFT,
                fontsize=SMALL, va="center",
            )  # fmt: skip
        return figure


def strokes(axes: Axes, sheet: _Sheet, by: Point, ground: str | None = None) -> None:
    """Draw what is on a sheet, moved by so many mm on paper.

    Parameters
    ----------
    ground : colour on which words stand, so that lines and hatching break off before them.
    """
    under = None if ground is None else {"facecolor": ground, "edgecolor": "none", "pad": 0.6}
    shift = np.array(by)
    for points, pen, fill, closed in sheet.shapes:
        _draw(axes, points + shift, pen, fill, closed)
    ruled = [points + shift for points in sheet.rules]
    _rule(axes, ruled, THIN, SOFT)
    for points in sheet.arrows:
        axes.add_artist(PolygonPatch(points + shift, closed=True, color=SOFT, linewidth=0))
    for dot in sheet.dots:
        ring = _round(dot, 0.45, 0.0, 360.0) + shift
        axes.add_artist(PolygonPatch(ring, closed=True, color=SOFT, linewidth=0))
    anchors = {"start": "left", "middle": "center", "end": "right"}
    for (x, y), text, anchor, colour, turned in sheet.words:
        axes.text(
            x + by[0], y + by[1], text, ha=anchors[anchor], va="center", color=colour,
            fontsize=BODY, rotation=turned, rotation_mode="anchor", parse_math=False,
            bbox=under,
        )  # fmt: skip


def spell_scale(scale: float) -> str:
    """Return a drawing scale in words: full size, 1 : 2, 5 : 1."""
    if abs(scale - 1) < 1e-9:
        return "full size, 1 : 1"
    return f"{scale:g} : 1" if scale > 1 else f"1 : {1 / scale:.5g}"


def _ring(points: Array, closed: bool) -> Array:
    return np.concatenate([points, points[:1]]) if closed else points


def _bounds(points: Array) -> Box:
    (x0, y0), (x1, y1) = points.min(axis=0), points.max(axis=0)
    return Box(float(x0), float(y0), float(x1), float(y1))


def _draw(axes: Axes, points: Array, pen: Pen, fill: Fill, closed: bool) -> None:
    line = PENS[pen].style()
    colour = line.pop("color")
    outline = Outline(_ring(points, closed), closed=closed)
    ground = FILLS[fill]
    patch = PathPatch(
        outline, edgecolor=colour, facecolor=ground or "none", fill=ground is not None,
        capstyle="butt", joinstyle="miter" if closed else "round", **line,
    )  # fmt: skip
    axes.add_artist(patch)  # not add_patch, which seeks limits that are set already
    if fill == "section":
        _hatch(axes, patch, points)


def _hatch(axes: Axes, patch: Patch, points: Array) -> None:
    box = _bounds(points)
    step = HATCH_SPACING * math.sqrt(2)
    height = box.y1 - box.y0
    first = math.floor((box.x0 - box.y0 - height) / step) * step
    starts = np.arange(first, box.x1 - box.y0 + step, step)
    lines = [np.array([(s + box.y0, box.y0), (s + box.y1, box.y1)]) for s in starts]
    _rule(axes, lines, 0.18, INK, patch)


def _rule(
    axes: Axes, lines: Sequence[Array], width: float, colour: str, within: Patch | None = None
) -> None:
    """Draw lines as one outline, which takes a tenth of the time of as many lines.

    Parameters
    ----------
    width : mm.
    within : what they are cut off by.
    """
    if not lines:
        return
    codes = [Outline.MOVETO if n == 0 else Outline.LINETO for one in lines for n in range(len(one))]
    made = PathCollection(
        [Outline(np.concatenate(lines), codes)], facecolors="none", edgecolors=colour,
        linewidths=width / MM_PER_POINT, capstyle="butt", joinstyle="round",
    )  # fmt: skip
    axes.add_collection(made, autolim=False)
    if within is not None:
        made.set_clip_path(within)
