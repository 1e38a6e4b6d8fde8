"""Pictures on their way to the browser: plain data, with all points in one float32 buffer."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
from numpy.typing import NDArray

from ..design.sentences import in_unit
from ..design.typed import LengthUnit, coordinate
from ..pictures.lengths import AXIS, DIMENSION
from ..pictures.scene import (
    Arc,
    Array,
    Chart,
    Circle,
    Dimension,
    Label,
    Moving,
    Path,
    Picture,
    Primitive,
    Scene,
    Table,
)  # fmt: skip
from .spelling import INCH_MM, length

Payload = dict[str, Any]
MOST_FRAMES = 180
"""Frames sent of one turn.  The browser draws straight between two of them; at 2 degrees a
point on a 15 mm crank strays 0.002 mm from its circle, far below a line's thickness."""


class Numbers:
    """The points of all pictures of one reply, end to end."""

    def __init__(self) -> None:
        self._parts: list[NDArray[np.float32]] = []
        self._count = 0

    def put(self, values: Array) -> list[int]:
        """Add numbers and return [first, count] of their place."""
        flat = np.ascontiguousarray(values, dtype=np.float32).reshape(-1)
        place = [self._count, flat.size]
        self._parts.append(flat)
        self._count += flat.size
        return place

    def raw(self) -> bytes:
        """Return everything as little-endian bytes."""
        if not self._parts:
            return b""
        return np.concatenate(self._parts).astype("<f4", copy=False).tobytes()


def pictures_payload(
    pictures: tuple[Picture, ...],
    page: LengthUnit,
    numbers: Numbers,
    words: LengthUnit = "mm",
) -> list[Payload]:
    """Return the pictures as plain data; their points go into `numbers`.

    Parameters
    ----------
    page : unit of axes, dimensions and tables.
    words : unit in which lengths within sentences, labels and cells of text are read out.
    """
    return [_read_out(_picture(one, page, numbers, words), words) for one in pictures]


def _read_out(made: Any, words: LengthUnit) -> Any:
    """Return a picture's data with the lengths within its words in the unit wanted."""
    if words == "mm":
        return made
    if isinstance(made, str):
        return in_unit(made, words)
    if isinstance(made, dict):
        return {key: _read_out(one, words) for key, one in made.items()}
    if isinstance(made, list):
        return [_read_out(one, words) for one in made]
    return made


def _picture(picture: Picture, page: LengthUnit, numbers: Numbers, words: LengthUnit) -> Payload:
    if isinstance(picture, Scene):
        return _scene(picture, page, numbers, words)
    if isinstance(picture, Chart):
        return _chart(picture, page, numbers)
    return _table(picture, page)


def _scene(scene: Scene, page: LengthUnit, numbers: Numbers, words: LengthUnit) -> Payload:
    frames, angles = _frames(scene)
    return {
        "kind": "scene",
        "title": scene.title,
        "says": scene.says,
        "unit": page,
        "to_scale": scene.to_scale,
        "sizes": any(
            _follows(one.text, words) for one in scene.still if isinstance(one, Dimension)
        ),
        "still": [_primitive(one, page, numbers, words) for one in scene.still],
        "moving": [_moving(one, frames, numbers) for one in scene.moving],
        "angles": numbers.put(angles) if scene.moving else [0, 0],
        "extent": extent(scene),
    }


def _frames(scene: Scene) -> tuple[slice, Array]:
    if not scene.moving:
        return slice(None), np.empty(0)
    count = scene.moving[0].points.shape[0]
    angles = scene.angles if scene.angles is not None else np.arange(count) * 360.0 / count
    step = max(1, math.ceil(count / MOST_FRAMES))
    while step > 1 and count % step:
        step -= 1  # the frames sent must stay evenly spaced through the turn
    return slice(None, None, step), angles[::step]


def _primitive(one: Primitive, page: LengthUnit, numbers: Numbers, words: LengthUnit) -> Payload:
    if isinstance(one, Path):
        return {
            "t": "path", "p": numbers.put(one.points), "pen": one.pen, "closed": one.closed,
            "fill": one.fill, "part": one.part,
        }  # fmt: skip
    if isinstance(one, Circle):
        return {
            "t": "circle", "c": _point(one.centre), "r": float(one.radius), "pen": one.pen,
            "fill": one.fill, "part": one.part,
        }  # fmt: skip
    if isinstance(one, Arc):
        return {
            "t": "arc", "c": _point(one.centre), "r": float(one.radius), "from": float(one.start),
            "to": float(one.end), "pen": one.pen, "part": one.part,
        }  # fmt: skip
    if isinstance(one, Label):
        return {
            "t": "label", "text": one.text, "at": _point(one.at), "anchor": one.anchor,
            "leader": _point(one.leader) if one.leader is not None else None, "pen": one.pen,
        }  # fmt: skip
    return {
        "t": "dimension",
        "a": _point(one.start),
        "b": _point(one.end),
        "text": _dimension(one.text, page, words),
        "offset": float(one.offset),
    }


def _moving(one: Moving, frames: slice, numbers: Numbers) -> Payload:
    return {
        "shape": one.shape, "p": numbers.put(one.points[frames]), "n": int(one.points.shape[1]),
        "pen": one.pen, "fill": one.fill, "r": float(one.radius), "part": one.part,
    }  # fmt: skip


def _point(point: tuple[float, float]) -> list[float]:
    return [float(point[0]), float(point[1])]


def extent(scene: Scene) -> list[float]:
    """Return the least box, [left, bottom, right, top] in mm, that holds a scene in every frame."""
    corners: list[Array] = []
    for one in scene.still:
        corners.append(_corners(one))
    for part in scene.moving:
        flat = part.points.reshape(-1, 2)
        corners.append(_box(flat, part.radius))
    if not corners:
        return [0.0, 0.0, 1.0, 1.0]
    points = np.concatenate(corners)
    points = points[np.isfinite(points).all(axis=1)]
    if not len(points):
        return [0.0, 0.0, 1.0, 1.0]
    (left, bottom), (right, top) = points.min(axis=0), points.max(axis=0)
    return [float(left), float(bottom), float(right), float(top)]


def _corners(one: Primitive) -> Array:
    if isinstance(one, Path):
        return _box(np.asarray(one.points, dtype=float), 0.0)
    if isinstance(one, Circle):
        return _box(np.array([one.centre], dtype=float), one.radius)
    if isinstance(one, Arc):
        turn = (one.end - one.start) % 360.0 or 360.0
        angles = np.radians(np.linspace(one.start, one.start + turn, 73))
        way = np.column_stack([np.cos(angles), np.sin(angles)])
        return _box(np.asarray(one.centre, dtype=float) + one.radius * way, 0.0)
    if isinstance(one, Label):
        return np.array([one.at, one.leader or one.at], dtype=float)
    start, end = np.array(one.start, dtype=float), np.array(one.end, dtype=float)
    way = end - start
    size = float(np.hypot(*way)) or 1.0
    off = np.array([-way[1], way[0]]) / size * one.offset
    return np.array([start, end, start + off, end + off])


def _box(points: Array, margin: float) -> Array:
    points = points[np.isfinite(points).all(axis=1)]
    if not len(points):
        return np.empty((0, 2))
    return np.array([points.min(axis=0) - margin, points.max(axis=0) + margin])


def _follows(text: str, words: LengthUnit) -> bool:
    """Whether a dimension is a length in mm, so that the page may convert it.

    One that is named, as in “pitch 0.635”, goes with the sentences.
    """
    found = DIMENSION.fullmatch(text)
    return found is not None and (words != "mm" or not (found[1] or found[4]))


def _dimension(text: str, page: LengthUnit, words: LengthUnit) -> str:
    found = DIMENSION.fullmatch(text)
    if page == "mm" or found is None or not _follows(text, words):
        return text
    before, number, named, behind = found.groups()
    value = length(float(number.replace("−", "-")), page)
    return f"{before}{value}{' in' if named else ''}{behind}"


def _chart(chart: Chart, page: LengthUnit, numbers: Numbers) -> Payload:
    x_label, x_by = _axis(chart.x_label, page)
    y_label, y_by = _axis(chart.y_label, page)
    by = {"x": x_by, "y": y_by}
    return {
        "kind": "chart",
        "title": chart.title,
        "says": chart.says,
        "x": x_label,
        "y": y_label,
        "curves": [
            {
                "x": numbers.put(c.x / x_by),
                "y": numbers.put(c.y / y_by),
                "label": c.label,
                "pen": c.pen,
            }
            for c in chart.curves
        ],
        "bands": [
            {
                "low": float(b.low) / by[b.axis],
                "high": float(b.high) / by[b.axis],
                "label": b.label,
                "axis": b.axis,
            }
            for b in chart.bands
        ],
        "follows": [int(index) for index in chart.follows],
        "equal": chart.equal,
    }


def _axis(label: str, page: LengthUnit) -> tuple[str, float]:
    """Return the name of an axis in the unit of the page, and what its values are divided by."""
    found = AXIS.fullmatch(label)
    if page == "mm" or found is None:
        return label, 1.0
    return f"{found[1]}in", INCH_MM


def _table(table: Table, page: LengthUnit) -> Payload:
    lengths = any(isinstance(cell, float) for row in table.rows for cell in row)
    return {
        "kind": "table",
        "title": table.title,
        "columns": list(table.columns),
        "rows": [
            [{"text": _cell(cell, page, table.fine), "number": _is_number(cell)} for cell in row]
            for row in table.rows
        ],
        "note": table.note,
        "unit": page if lengths else "",
    }


def _cell(cell: str | float, page: LengthUnit, fine: bool) -> str:
    if isinstance(cell, str):
        return cell
    if fine and math.isfinite(cell):
        return coordinate(cell, page)
    return length(float(cell), page) if math.isfinite(cell) else "none"


def _is_number(cell: str | float) -> bool:
    return not isinstance(cell, str) or cell[:1].isdigit() or cell[:1] in "-−+–"
