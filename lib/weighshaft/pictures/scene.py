"""A picture, described once: primitives in model millimetres, charts and tables as data.

Whoever needs the picture renders it: the browser live, matplotlib on paper and in
notebooks, and later the drawings.  Nothing here knows how.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

import numpy as np
from numpy.typing import NDArray

Array = NDArray[np.float64]
Point = tuple[float, float]

Pen = Literal["outline", "thin", "hidden", "centre", "behind", "changed", "trace", "crank", "stop"]
"""Line types after ISO 128: outline thick; thin; hidden dashed; centre long-dash-dot thin.
"behind" is a part further off, in grey; "changed" the part in hand, in blue; "trace" the
path of a point, in brass; "crank" the present crank position, in red; "stop" a foul."""

Fill = Literal["none", "paper", "metal", "section", "steam", "exhaust", "water", "tint"]
""""section" is hatched; "tint" a pale ground for a band."""


@dataclass(frozen=True)
class Path:
    """A polyline, closed or open, through points (n, 2) in mm."""

    points: Array
    pen: Pen = "outline"
    closed: bool = False
    fill: Fill = "none"
    part: str = ""


@dataclass(frozen=True)
class Circle:
    """A circle; `part` names the piece it belongs to, so that a finding can light it."""

    centre: Point
    radius: float
    pen: Pen = "outline"
    fill: Fill = "none"
    part: str = ""


@dataclass(frozen=True)
class Arc:
    """A circular arc from `start` to `end` degrees, anticlockwise from +x."""

    centre: Point
    radius: float
    start: float
    end: float
    pen: Pen = "outline"
    part: str = ""


@dataclass(frozen=True)
class Label:
    """Text at a point; with `leader` a thin line runs from there to the thing named."""

    text: str
    at: Point
    anchor: Literal["start", "middle", "end"] = "middle"
    leader: Point | None = None
    pen: Pen = "thin"


@dataclass(frozen=True)
class Dimension:
    """A dimension line between two points, standing `offset` mm to the left of the way."""

    start: Point
    end: Point
    text: str
    offset: float = 0.0


Primitive = Path | Circle | Arc | Label | Dimension


@dataclass(frozen=True)
class Moving:
    """A primitive whose points follow the crank: (frames, n, 2) in mm.

    `shape` says what is drawn through the points of a frame: "path" and "outline" the
    polyline (closed for "outline"), "circle" a circle of `radius` at the one point.
    """

    points: Array
    shape: Literal["path", "outline", "circle"] = "path"
    pen: Pen = "outline"
    fill: Fill = "none"
    radius: float = 0.0
    part: str = ""


@dataclass(frozen=True)
class Scene:
    """A drawing to scale.

    Parameters
    ----------
    title : heading of the drawing.
    says : one sentence for those who cannot see it.
    still : what does not move.
    moving : what follows the crank; all with the same number of frames.
    angles : (frames,) crank angles in degrees, empty where nothing moves.
    to_scale : whether its lengths are those of things; a diagram has none.
    """

    title: str
    says: str
    still: tuple[Primitive, ...]
    moving: tuple[Moving, ...] = ()
    angles: Array | None = None
    to_scale: bool = True


@dataclass(frozen=True)
class Curve:
    """One curve of a chart, labelled at the curve; x and y are (n,)."""

    x: Array
    y: Array
    label: str = ""
    pen: Pen = "outline"


@dataclass(frozen=True)
class Band:
    """A tinted band between two values of x or of y, with its name."""

    low: float
    high: float
    label: str = ""
    axis: Literal["x", "y"] = "y"


@dataclass(frozen=True)
class Chart:
    """A chart as data.

    Parameters
    ----------
    follows : curve on which the present crank position is marked in red, by its index,
        its points being evenly spaced in crank angle from 0; None for a chart that stands still.
    equal : same scale on both axes, as polar diagrams need.
    """

    title: str
    says: str
    x_label: str
    y_label: str
    curves: tuple[Curve, ...]
    bands: tuple[Band, ...] = ()
    follows: tuple[int, ...] = ()
    equal: bool = False


@dataclass(frozen=True)
class Table:
    """A small table: one row a thing, cells as text already in the unit of its heading.

    A cell that is a float is a length in mm and is shown in the unit of the page.

    Parameters
    ----------
    fine : coordinates for a machine: every float to 0.001 mm or 0.0001 in, and no fractions.
    """

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str | float, ...], ...]
    note: str = ""
    fine: bool = False


Picture = Scene | Chart | Table


def parted(table: Table, keys: int, at: int, title: str) -> tuple[Table, Table]:
    """Return a wide table as two that a narrow page has room for.

    Parameters
    ----------
    keys : columns that name a row and stand in both.
    at : column from which on the second table has them.
    title : of the second; the note stays under it.
    """
    first = Table(
        table.title, table.columns[:at], tuple(row[:at] for row in table.rows), fine=table.fine
    )
    second = Table(
        title, (*table.columns[:keys], *table.columns[at:]),
        tuple((*row[:keys], *row[at:]) for row in table.rows), table.note, table.fine,
    )  # fmt: skip
    return first, second


def box(x0: float, y0: float, x1: float, y1: float) -> Array:
    """Return the four corners of a rectangle, (4, 2), for a closed path."""
    return np.array([[x0, y0], [x1, y0], [x1, y1], [x0, y1]], dtype=float)
