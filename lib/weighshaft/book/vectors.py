"""Pictures and drawings as SVG, for a page of the book."""

from __future__ import annotations

import io
from dataclasses import dataclass
from typing import Literal

import matplotlib
from matplotlib.figure import Figure

from ..design.typed import LengthUnit
from ..measures import INCH
from ..pictures.drawings import Drawing
from ..pictures.paper import figure
from ..pictures.paper.drawing import About, drawing_figure
from ..pictures.paper.pens import PAPER
from ..pictures.scene import Chart, Scene

WIDE, HIGH = 170.0, 215.0
"""Room for a picture on a page, mm."""
Letters = Literal["text", "path"]
"""Letters as such, for a typesetter that has them, or as their outlines, for any browser."""


@dataclass(frozen=True)
class Vector:
    """A picture as SVG and its size on paper, mm."""

    svg: bytes
    wide: float
    high: float


def draw_picture(picture: Scene | Chart, unit: LengthUnit, letters: Letters) -> Vector:
    """Return a picture drawn for a page."""
    drawn = figure(picture, width_mm=WIDE, unit=unit)
    for _ in range(2):  # a picture drawn narrower is less high, if not quite in proportion
        high = drawn.get_figheight() * INCH
        if high <= HIGH:
            break
        width = drawn.get_figwidth() * INCH
        drawn = figure(picture, width_mm=max(0.97 * width * HIGH / high, 60.0), unit=unit)
    return _vector(drawn, letters)


def draw_sheet(
    drawing: Drawing, design: str, number: str, unit: LengthUnit, letters: Letters
) -> Vector:
    """Return a drawing on A4, true to scale.

    Parameters
    ----------
    design, number : for the title block.
    """
    return _vector(drawing_figure(drawing, About(design, number), unit=unit, paper="A4"), letters)


def _vector(drawn: Figure, letters: Letters) -> Vector:
    wide, high = (float(one) * INCH for one in drawn.get_size_inches())
    out = io.BytesIO()
    # names within the file are made of its content, so that the same book is the same file
    kind = "path" if letters == "path" else "none"
    with matplotlib.rc_context({"svg.hashsalt": "weighshaft", "svg.fonttype": kind}):
        drawn.savefig(out, format="svg", metadata={"Date": None, "Creator": None})
    # on white paper the ground of a screen would only waste ink
    return Vector(out.getvalue().replace(PAPER.encode(), b"#ffffff"), wide, high)
