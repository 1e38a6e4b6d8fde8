"""Drawings as DXF for a laser, a water jet or another drawing program.

R2010, millimetres, one layer a line type of ISO 128; circles and arcs are true, outlines are
closed polylines.
"""

from __future__ import annotations

from pathlib import Path as File
from typing import Any

import numpy as np

from .drawings.sheet import Drawing, Outline, View
from .lengths import told
from .scene import Arc, Circle, Dimension, Label, Path, Pen

LAYERS: dict[Pen, tuple[str, int, str]] = {
    "outline": ("OUTLINE", 7, "CONTINUOUS"),
    "thin": ("THIN", 8, "CONTINUOUS"),
    "hidden": ("HIDDEN", 3, "DASHED"),
    "centre": ("CENTRE", 1, "CENTER"),
    "behind": ("BEHIND", 9, "CONTINUOUS"),
    "changed": ("THIN", 8, "CONTINUOUS"),
    "trace": ("THIN", 8, "CONTINUOUS"),
    "crank": ("THIN", 8, "CONTINUOUS"),
    "stop": ("THIN", 8, "CONTINUOUS"),
}
"""Layer, colour index and line type of each pen."""
SIZES = ("DIMENSIONS", 5, "CONTINUOUS")
_LETTERS = 2.5
"""Height of lettering on paper, mm (ISO 3098)."""


def written(drawing: Drawing, scale: float = 1.0) -> Any:
    """Return the drawing as a document of ezdxf, its views apart, all full size.

    Parameters
    ----------
    scale : mm on paper for a mm of the part, for the size of the lettering alone.
    """
    from ezdxf import units
    from ezdxf.filemanagement import new

    document = new("R2010", setup=True)
    document.units = units.MM
    document.header["$INSUNITS"] = 4
    document.header["$MEASUREMENT"] = 1
    for name, colour, line in {*LAYERS.values(), SIZES}:
        document.layers.add(name, color=colour, linetype=line)
    space = document.modelspace()
    views = drawing.views_at(scale)
    for view, (x, y) in zip(views, _apart(views), strict=True):
        for one in view.drawn:
            _add(space, one, x, y, _LETTERS / scale)
    return document


def write(drawing: Drawing, file: File, scale: float = 1.0) -> None:
    """Write the drawing to a file.

    Raises
    ------
    OSError : when it cannot be written.
    """
    written(drawing, scale).saveas(file)


def _apart(views: tuple[View, ...]) -> list[tuple[float, float]]:
    """Return by how much each view is moved so that they do not lie over one another."""
    places: list[tuple[float, float]] = []
    across = 0.0
    for view in views:
        low, high = bounds(view)
        places.append((across - low[0] if places else 0.0, 0.0))
        width = high[0] - low[0]
        across = (across if len(places) > 1 else high[0]) + (width if len(places) > 1 else 0.0)
        across += 0.25 * width + 10
    return places


def bounds(view: View) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return lowest and highest corner of a view's lines, mm."""
    points = []
    for one in view.primitives:
        if isinstance(one, Path):
            points.append(np.asarray(one.points, dtype=float))
        elif isinstance(one, (Circle, Arc)):
            centre = np.array(one.centre)
            points.append(np.array([centre - one.radius, centre + one.radius]))
    every = np.concatenate(points)
    low, high = every.min(axis=0), every.max(axis=0)
    return (float(low[0]), float(low[1])), (float(high[0]), float(high[1]))


def _add(space: Any, one: Any, x: float, y: float, letters: float) -> None:
    if isinstance(one, Outline):
        layer = {"layer": LAYERS[one.pen][0]}
        if _round(one):
            (ax, ay, _), (bx, by, _) = one.corners
            centre = ((ax + bx) / 2 + x, (ay + by) / 2 + y)
            space.add_circle(centre, abs(bx - ax) / 2, dxfattribs=layer)
            return
        corners = [(px + x, py + y, bulge) for px, py, bulge in one.corners]
        space.add_lwpolyline(corners, format="xyb", close=True, dxfattribs=layer)
    elif isinstance(one, Path):
        points = [(float(px) + x, float(py) + y) for px, py in one.points]
        space.add_lwpolyline(points, close=one.closed, dxfattribs={"layer": LAYERS[one.pen][0]})
    elif isinstance(one, Circle):
        centre = (one.centre[0] + x, one.centre[1] + y)
        space.add_circle(centre, one.radius, dxfattribs={"layer": LAYERS[one.pen][0]})
    elif isinstance(one, Arc):
        centre = (one.centre[0] + x, one.centre[1] + y)
        attributes = {"layer": LAYERS[one.pen][0]}
        space.add_arc(centre, one.radius, one.start, one.end, dxfattribs=attributes)
    elif isinstance(one, Label):
        lettered: dict[str, Any] = {"layer": SIZES[0], "height": letters}
        written_at = (one.at[0] + x, one.at[1] + y)
        space.add_text(told(one.text, "mm"), dxfattribs=lettered).set_placement(written_at)
        if one.leader is not None:
            ends = ((one.at[0] + x, one.at[1] + y), (one.leader[0] + x, one.leader[1] + y))
            space.add_line(*ends, dxfattribs={"layer": SIZES[0]})
    elif isinstance(one, Dimension):
        _dimension(space, one, x, y, letters)


def _round(one: Outline) -> bool:
    return len(one.corners) == 2 and all(bulge == 1.0 for *_, bulge in one.corners)


def _dimension(space: Any, one: Dimension, x: float, y: float, letters: float) -> None:
    start, end = (one.start[0] + x, one.start[1] + y), (one.end[0] + x, one.end[1] + y)
    if start == end:
        return
    made = space.add_aligned_dim(
        p1=start, p2=end, distance=one.offset or 1e-6, text=told(one.text, "mm") or "<>",
        override={"dimtxt": letters, "dimasz": letters, "dimexe": letters / 2, "dimtad": 1},
        dxfattribs={"layer": SIZES[0]},
    )  # fmt: skip
    made.render()
