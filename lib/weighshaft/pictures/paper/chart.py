"""A chart on paper, its curves labelled where they run."""

from __future__ import annotations

import math

import numpy as np
from matplotlib.axes import Axes
from matplotlib.figure import Figure

from ...measures import INCH
from ..scene import Array, Band, Chart, Curve
from .lettering import BODY, HEADING, SMALL, Box, Places, sampled, text_box, width_of, wrapped
from .pens import FILLS, HAIR, INK, MM_PER_POINT, PAPER, PENS, RED, SOFT, TEXT, THIN

_LEFT, _RIGHT, _FOOT = 17.0, 6.0, 14.0  # mm round the frame of the axes


def chart_figure(chart: Chart, width: float, frame: int) -> Figure:
    """Return the chart on paper; see `figure`."""
    x0, x1 = _limits([c.x for c in chart.curves], chart.bands, "x")
    y0, y1 = _limits([c.y for c in chart.curves], chart.bands, "y")
    inner = width - _LEFT - _RIGHT
    tall = inner * (y1 - y0) / (x1 - x0) if chart.equal else 0.55 * inner
    title = wrapped(chart.title, width - 2 * _RIGHT, HEADING)
    head = (1.3 * (title.count("\n") + 1) + 1.0) * HEADING * MM_PER_POINT
    height = tall + _FOOT + head
    figure = Figure(figsize=(width / INCH, height / INCH), facecolor=PAPER)
    figure.set_label(chart.says)
    axes = figure.add_axes((_LEFT / width, _FOOT / height, inner / width, tall / height))
    axes.set_facecolor(PAPER)
    axes.set_xlim(x0, x1)
    axes.set_ylim(y0, y1)
    _frame(axes, chart)
    figure.text(
        _LEFT / width, 1 - 0.5 * head / height, title, color=SOFT, fontsize=HEADING,
        weight="bold", va="center", parse_math=False,
    )  # fmt: skip

    per = np.array([inner / (x1 - x0), tall / (y1 - y0)])  # mm on paper for one of each axis
    origin = np.array([x0, y0])
    paths = [_on_paper(curve, origin, per) for curve in chart.curves]
    seen = [sampled(part) for path in paths for part in _parts(path)]
    places = Places(np.concatenate(seen) if seen else np.zeros((0, 2)))
    for band in chart.bands:
        _band(axes, band, places, origin, per, Box(0, 0, inner, tall))
    for i, curve in enumerate(chart.curves):
        line = PENS[curve.pen].style()
        axes.plot(curve.x, curve.y, solid_capstyle="butt", dash_capstyle="butt", **line)
        if i in chart.follows and len(curve.x):
            now = frame % len(curve.x)
            axes.plot([curve.x[now]], [curve.y[now]], "o", color=RED, markersize=5)
    for curve, path in zip(chart.curves, paths, strict=True):
        if curve.label and (parts := _parts(path)):
            at = _beside(curve, np.concatenate(parts), places, inner, tall)
            x, y = origin + at / per
            axes.text(
                x, y, curve.label, ha="center", va="center", fontsize=BODY,
                color=TEXT[curve.pen], parse_math=False,
            )  # fmt: skip
    return figure


def _limits(values: list[Array], bands: tuple[Band, ...], axis: str) -> tuple[float, float]:
    ends = [edge for band in bands if band.axis == axis for edge in (band.low, band.high)]
    present = np.concatenate([*(np.asarray(v, dtype=float) for v in values), np.array(ends)])
    present = present[np.isfinite(present)]
    if not len(present):
        return 0.0, 1.0
    low, high = float(present.min()), float(present.max())
    room = 0.05 * (high - low) or 0.05 * abs(high) or 1.0
    if axis == "x":
        return (low, high) if high > low else (low - room, high + room)
    # nothing is measured from an axis that starts a little above nothing
    return (0.0 if 0 <= low < 0.3 * high else low - room), high + room


def _on_paper(curve: Curve, origin: Array, per: Array) -> Array:
    if len(curve.x) != len(curve.y):
        raise ValueError(f"The curve “{curve.label}” has {len(curve.x)} x for {len(curve.y)} y.")
    points: Array = np.column_stack([curve.x, curve.y]).astype(float)
    return (points - origin) * per


def _parts(path: Array) -> list[Array]:
    """Return the runs of a curve that are numbers, in mm on paper."""
    good = np.isfinite(path).all(axis=1)
    edges = np.flatnonzero(np.diff(good.astype(int))) + 1
    return [run for run in np.split(path, edges) if len(run) and np.isfinite(run).all()]


def _frame(axes: Axes, chart: Chart) -> None:
    for side in ("top", "right"):
        axes.spines[side].set_visible(False)
    for side in ("left", "bottom"):
        axes.spines[side].set_color(SOFT)
        axes.spines[side].set_linewidth(THIN / MM_PER_POINT)
    axes.tick_params(colors=SOFT, labelsize=SMALL, width=THIN / MM_PER_POINT, length=3)
    axes.ticklabel_format(useOffset=False)
    axes.grid(visible=True, color=HAIR, linewidth=0.18 / MM_PER_POINT)
    axes.set_axisbelow(True)
    axes.set_xlabel(chart.x_label, color=INK, fontsize=BODY, parse_math=False)
    axes.set_ylabel(chart.y_label, color=INK, fontsize=BODY, parse_math=False)


def _band(axes: Axes, band: Band, places: Places, origin: Array, per: Array, frame: Box) -> None:
    span = axes.axhspan if band.axis == "y" else axes.axvspan
    span(band.low, band.high, color=FILLS["tint"], zorder=0.5, linewidth=0)
    if not band.label:
        return
    middle = (band.low + band.high) / 2
    if band.axis == "y":
        at = np.array([frame.x1 - width_of(band.label) / 2 - 1, (middle - origin[1]) * per[1]])
    else:
        at = np.array([(middle - origin[0]) * per[0], frame.y1 - 3.0])
    at = at + places.place(text_box((float(at[0]), float(at[1])), band.label, "middle"))
    x, y = origin + at / per
    axes.text(
        x, y, band.label, ha="center", va="center", fontsize=SMALL, color=SOFT,
        parse_math=False,
    )  # fmt: skip


def _beside(curve: Curve, path: Array, places: Places, inner: float, tall: float) -> Array:
    """Return where the name of a curve stands, mm on paper: beside it, off every other line."""
    wide = width_of(curve.label)
    best: Array = path[-1]
    best_cost = math.inf
    for i, share in enumerate((0.85, 0.7, 0.5, 0.3, 0.15, 0.6, 0.4, 0.2, 0.95, 0.05)):
        point = path[round(share * (len(path) - 1))]
        for rise in (3.0, -3.0, 5.0, -5.0, 8.0, -8.0):
            at = np.array([min(max(point[0], wide / 2 + 1), inner - wide / 2), point[1] + rise])
            box = text_box((float(at[0]), float(at[1])), curve.label, "middle").grown(0.4)
            outside = box.y0 < 0 or box.y1 > tall
            words = sum(box.overlaps(other) for other in places.taken)
            on_lines = 3.0 * places.lines_under(box)
            # where curves lie on the axis together a name would tell nothing
            on_lines += 60.0 * (point[1] < 0.8)
            cost = 1000.0 * (words + outside) + on_lines + abs(rise) + 0.5 * i
            if cost < best_cost:
                best, best_cost = at, cost
    places.take(text_box((float(best[0]), float(best[1])), curve.label, "middle").grown(0.4))
    return best
