"""A shop drawing on A4 or A3: views in first angle, title block, border and check bar."""

from __future__ import annotations

from dataclasses import dataclass

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from ...design.typed import LengthUnit
from ...measures import INCH
from ..drawings.sheet import Drawing, View
from ..lengths import told
from ..scene import Dimension, Label
from .lettering import Box, wrapped
from .pens import INK, MM_PER_POINT, SOFT, THICK, THIN
from .scene import _shape, _Sheet, spell_scale, strokes

SHEETS = {"A4": (297.0, 210.0), "A3": (420.0, 297.0)}
GROUND = "white"
SCALES = (10.0, 5.0, 2.0, 1.0, 0.5, 0.2, 0.1, 0.05)
"""Scales of ISO 5455."""
_BORDER, _FILING = 10.0, 20.0  # mm; ISO 5457
_BLOCK = (120.0, 26.0)  # mm, title block
_GAP = 14.0  # mm between views
CHECK = 100.0
"""Length of the bar that shows whether a printer has kept the scale, mm."""


@dataclass(frozen=True)
class About:
    """What the title block says of the design.

    Parameters
    ----------
    design : the engine's name.
    number : of the drawing, such as "3 of 14".
    """

    design: str
    number: str = ""


def drawing_figure(
    drawing: Drawing, about: About, *, unit: LengthUnit = "mm", paper: str | None = None
) -> Figure:
    """Return a drawing on the smallest sheet on which it goes at a good scale.

    Parameters
    ----------
    unit : in which figures that are not given in words are shown.
    paper : "A4" or "A3"; None takes A3 only where A4 would halve the scale.
    """
    name, scale = best(drawing) if paper is None else (paper, fitting(drawing, paper))
    return _drawn(drawing, about, name, scale, unit)


def best(drawing: Drawing) -> tuple[str, float]:
    """Return paper and scale."""
    small, large = fitting(drawing, "A4"), fitting(drawing, "A3")
    return ("A3", large) if large > small and small < 1 else ("A4", small)


def fitting(drawing: Drawing, paper: str) -> float:
    """Return the largest usual scale at which all views go on a sheet."""
    wide, high = SHEETS[paper]
    room = (wide - _FILING - _BORDER - 10, high - 2 * _BORDER - _BLOCK[1] - 14)
    for scale in SCALES:
        columns, rows = _grid(_sheets(drawing, scale, "mm"))
        size = (sum(columns) + _GAP * (len(columns) - 1), sum(rows) + _GAP * (len(rows) - 1))
        if size[0] <= room[0] and size[1] <= room[1]:
            return scale
    return SCALES[-1]


_PLACES = {"elevation": (0, 0), "plan": (1, 0), "end": (0, 1), "section": (1, 1)}


def _sheets(drawing: Drawing, scale: float, unit: LengthUnit) -> dict[tuple[int, int], _Sheet]:
    return {_PLACES[view.where]: _sheet(view, scale, unit) for view in drawing.views_at(scale)}


def _sheet(view: View, scale: float, unit: LengthUnit) -> _Sheet:
    shapes = [shape for one in view.primitives if (shape := _shape(one)) is not None]
    marks = [one for one in view.primitives if isinstance(one, (Label, Dimension))]
    return _Sheet(shapes, marks, scale, unit)


def _grid(sheets: dict[tuple[int, int], _Sheet]) -> tuple[list[float], list[float]]:
    """Return widths of the columns and heights of the rows, mm on paper."""
    columns = sorted({column for _, column in sheets})
    rows = sorted({row for row, _ in sheets})

    def size(key: int, axis: int) -> float:
        boxes = [sheet.box for place, sheet in sheets.items() if place[1 - axis] == key]
        if axis == 0:
            return max(box.x1 for box in boxes) - min(box.x0 for box in boxes)
        return max(box.y1 for box in boxes) - min(box.y0 for box in boxes)

    return [size(one, 0) for one in columns], [size(one, 1) for one in rows]


def _drawn(drawing: Drawing, about: About, paper: str, scale: float, unit: LengthUnit) -> Figure:
    wide, high = SHEETS[paper]
    figure = Figure(figsize=(wide / INCH, high / INCH), facecolor=GROUND)
    figure.set_label(f"{drawing.title}, {about.design}")
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set_xlim(0, wide)
    axes.set_ylim(0, high)
    sheets = _sheets(drawing, scale, unit)
    columns, rows = _grid(sheets)
    left = _FILING + (wide - _FILING - _BORDER - sum(columns) - _GAP * (len(columns) - 1)) / 2
    room = high - 2 * _BORDER - _BLOCK[1] - 8
    top = high - _BORDER - (room - sum(rows) - _GAP * (len(rows) - 1)) / 2
    column_keys = sorted({place[1] for place in sheets})
    row_keys = sorted({place[0] for place in sheets})
    for (row, column), sheet in sheets.items():
        # views in a row share their height, views in a column their length: first angle
        same_row = [one.box for place, one in sheets.items() if place[0] == row]
        same_column = [one.box for place, one in sheets.items() if place[1] == column]
        n, m = column_keys.index(column), row_keys.index(row)
        x = left + sum(columns[:n]) + _GAP * n - min(box.x0 for box in same_column)
        y = top - sum(rows[:m]) - _GAP * m - max(box.y1 for box in same_row)
        strokes(axes, sheet, (x, y), GROUND)
    _frame(axes, wide, high)
    _block(axes, drawing, about, scale, wide, unit)
    _bar(axes)
    return figure


def _frame(axes: Axes, wide: float, high: float) -> None:
    _box(axes, Box(_FILING, _BORDER, wide - _BORDER, high - _BORDER), 0.7)


def _box(axes: Axes, box: Box, width: float) -> None:
    xs = [box.x0, box.x1, box.x1, box.x0, box.x0]
    ys = [box.y0, box.y0, box.y1, box.y1, box.y0]
    axes.plot(xs, ys, color=INK, linewidth=width / MM_PER_POINT, solid_joinstyle="miter")


def _block(
    axes: Axes, drawing: Drawing, about: About, scale: float, wide: float, unit: LengthUnit
) -> None:
    x1, y0 = wide - _BORDER, _BORDER
    x0, y1 = x1 - _BLOCK[0], y0 + _BLOCK[1]
    _box(axes, Box(x0, y0, x1, y1), THICK)
    for y in (y0 + 8.5, y0 + 17.0):
        axes.plot([x0, x1], [y, y], color=INK, linewidth=THIN / MM_PER_POINT)
    for x in (x0 + 62, x0 + 95):
        axes.plot([x, x], [y0, y0 + 17.0], color=INK, linewidth=THIN / MM_PER_POINT)

    def write(x: float, y: float, text: str, size: float = 8.0, weight: str = "normal") -> None:
        axes.text(x, y, text, fontsize=size, color=INK, va="center", weight=weight,
                  parse_math=False)  # fmt: skip

    write(x0 + 2, y0 + 21.5, drawing.title, 11.0, "bold")
    write(x0 + 64, y0 + 21.5, about.design[:34])
    write(x0 + 2, y0 + 12.7, f"{drawing.material}, {drawing.count} off")
    write(x0 + 64, y0 + 12.7, f"Scale {spell_scale(scale).removeprefix('full size, ')}")
    write(x0 + 97, y0 + 12.7, about.number)
    write(x0 + 2, y0 + 4.2, wrapped(told(drawing.tolerance, unit), 58.0, 6.5), 6.5)
    write(x0 + 64, y0 + 4.2, f"First angle, {unit}", 7.0)
    _symbol(axes, x0 + 107, y0 + 4.2)
    notes = "\n".join(wrapped(told(one, unit), wide - _FILING - _BORDER - _BLOCK[0] - 8, 7.0)
                      for one in drawing.notes)  # fmt: skip
    axes.text(
        _FILING + 3, y1 - 1, notes, fontsize=7.0, color=INK, va="top", linespacing=1.25,
        parse_math=False,
    )  # fmt: skip


def _symbol(axes: Axes, x: float, y: float) -> None:
    """Draw the sign of first-angle projection (ISO 5456): the cone from the side, then its end."""
    width = THIN / MM_PER_POINT
    axes.plot([x - 5, x - 5, x, x, x - 5], [y - 1.2, y + 1.2, y + 2.4, y - 2.4, y - 1.2],
              color=INK, linewidth=width)  # fmt: skip
    turn = np.linspace(0, 2 * np.pi, 60)
    for radius in (1.2, 2.4):
        axes.plot(x + 5 + radius * np.cos(turn), y + radius * np.sin(turn), color=INK,
                  linewidth=width)  # fmt: skip


def _bar(axes: Axes) -> None:
    """Draw the check bar along the foot of the sheet."""
    x, y = _FILING + 3, _BORDER + 4.0
    width = THIN / MM_PER_POINT
    axes.plot([x, x + CHECK], [y, y], color=SOFT, linewidth=width)
    for n in range(11):
        tall = 2.0 if n in (0, 5, 10) else 1.2
        axes.plot([x + 10 * n] * 2, [y, y + tall], color=SOFT, linewidth=width)
    axes.text(x + CHECK + 2, y + 0.8, "100 mm", fontsize=7.0, color=SOFT, va="center")
