"""The map of the pivots: contours over two sizes, with both gears and the workshop's error."""

from __future__ import annotations

import math

import numpy as np
from contourpy import LineType, contour_generator

from ..pivots import PivotMap
from .scene import Array, Chart, Curve, box

_LEVELS = 9


def map_charts(map: PivotMap) -> list[Chart]:
    """Return contours of the score, and of the cut-offs' inequality."""
    return [
        _chart(map, "Map of the score", map.score, "", "the score"),
        _chart(
            map, "Map of the cut-offs", map.apart, " %", "how far the cut-offs are apart at most"
        ),
    ]


def _chart(map: PivotMap, title: str, values: Array, unit: str, what: str) -> Chart:
    curves: list[Curve] = []
    known = np.isfinite(values)
    if known.any():
        for level in levels(values[known]):
            curves += _contour(map, values, level, f"{level:g}{unit}")
    if not map.sound.all() and map.sound.any():
        curves += _edge(map)
    for place, label, pen in ((map.present, "as it is", "behind"), (map.best, "best", "changed")):
        if place is not None:
            curves += [
                _box(place, map.error, pen),
                _cross(place, map, label, pen),
            ]
    low = float(values[known].min()) if known.any() else math.nan
    others = "the best gear" if map.on_best else "the gear as it is"
    at = f"the gear as it is has {_at(map, values, map.present, unit)}" if not map.on_best else ""
    best = f"the best one has {_at(map, values, map.best, unit)}" if map.best else ""
    says = [f"the least on the map is {low:.2f}{unit}" if known.any() else "every gear here locks"]
    says += [one for one in (at, best) if one]
    return Chart(
        title,
        f"Contours of {what}, over two sizes, the others as in {others}: {', '.join(says)}. The "
        f"boxes are what the workshop may be off: {_off(map, 0)} across, {_off(map, 1)} up.",
        _axis(map.x.label, map.x.unit), _axis(map.y.label, map.y.unit), tuple(curves),
    )  # fmt: skip


def levels(values: Array) -> list[float]:
    """Return round levels between the least value and the most that is of interest."""
    low, high = float(values.min()), float(np.quantile(values, 0.9))
    if not high > low:
        return []
    rough = (high - low) / _LEVELS
    ten = 10.0 ** math.floor(math.log10(rough))
    step = next(ten * by for by in (1, 2, 5, 10) if ten * by >= rough)
    first = math.ceil(low / step + 1e-9)
    return [round(step * n, 10) for n in range(first, math.floor(high / step) + 1)]


def _contour(map: PivotMap, values: Array, level: float, label: str) -> list[Curve]:
    """Return the lines of one level; only the longest bears its figure."""
    found = contour_generator(
        map.xs, map.ys, np.ma.masked_invalid(values), line_type=LineType.Separate
    ).lines(level)
    lines = sorted((np.asarray(line) for line in found), key=len, reverse=True)
    return [
        Curve(line[:, 0], line[:, 1], "" if i else label, "thin")
        for i, line in enumerate(lines)
        if len(line) > 2
    ]


def _edge(map: PivotMap) -> list[Curve]:
    """Return where what must hold begins to hold."""
    found = contour_generator(
        map.xs, map.ys, np.clip(map.passed, -1e3, 1e3), line_type=LineType.Separate
    ).lines(1e-8)
    lines = sorted((np.asarray(line) for line in found), key=len, reverse=True)
    return [
        Curve(line[:, 0], line[:, 1], "" if i else "limit", "hidden")
        for i, line in enumerate(lines)
    ]


def _box(place: tuple[float, float], error: tuple[float, float], pen: str) -> Curve:
    x, y = place
    corners = box(x - error[0], y - error[1], x + error[0], y + error[1])
    closed = np.concatenate([corners, corners[:1]])
    return Curve(closed[:, 0], closed[:, 1], "", pen)  # type: ignore[arg-type]


def _cross(place: tuple[float, float], map: PivotMap, label: str, pen: str) -> Curve:
    x, y = place
    dx, dy = 0.015 * np.ptp(map.xs), 0.015 * np.ptp(map.ys)
    xs = np.array([x - dx, x + dx, x, x, x])
    ys = np.array([y, y, y, y + dy, y - dy])
    return Curve(xs, ys, label, pen)  # type: ignore[arg-type]


def _at(map: PivotMap, values: Array, place: tuple[float, float], unit: str) -> str:
    """Return the value at the nearest point of the grid, in words."""
    i = int(np.abs(map.ys - place[1]).argmin())
    j = int(np.abs(map.xs - place[0]).argmin())
    value = values[i, j]
    return f"{value:.2f}{unit}" if np.isfinite(value) else "a gear that locks"


def _off(map: PivotMap, axis: int) -> str:
    unit = (map.x, map.y)[axis].unit
    return f"{map.error[axis]:g}{'°' if unit == 'deg' else ' mm'} either way"


def _axis(label: str, unit: str) -> str:
    return f"{label}, {'degrees' if unit == 'deg' else unit}"
