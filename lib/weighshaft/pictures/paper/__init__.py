"""Pictures on paper and in notebooks: scenes, charts and tables drawn by matplotlib.

Only `Figure` objects are made, never pyplot's: nothing is kept open and nothing is shared.
"""

from __future__ import annotations

from matplotlib.figure import Figure

from ...design.typed import LengthUnit
from ..scene import Chart, Picture, Scene, Table
from .chart import chart_figure
from .scene import scene_figure
from .table import table_figure

__all__ = ["figure"]


def figure(
    picture: Picture,
    *,
    width_mm: float = 180.0,
    scale: float | None = None,
    frame: int = 0,
    unit: LengthUnit = "mm",
) -> Figure:
    """Return a picture drawn on light paper.

    Parameters
    ----------
    picture : a scene, a chart or a table.
    width_mm : width of the paper; a scene asked for at a scale that needs more gets more.
    scale : for a scene, mm on paper for one mm of the model (0.5 draws it at half size); None
        takes the largest usual scale that fits.  The scale is written under the drawing.
    frame : position of what moves, counted round from the first.
    unit : "mm" or "in", in which lengths in a table are shown.

    Raises
    ------
    ValueError : for a width or scale that is not positive, or a point that is not a number.
    """
    if not 40 <= width_mm <= 5000:
        raise ValueError(f"Paper {width_mm:g} mm wide cannot be drawn on; 40 to 5000 mm would do.")
    if scale is not None and not 1e-4 <= scale <= 1e4:
        raise ValueError(f"A drawing scale of {scale:g} is out of range; 0.0001 to 10000 would do.")
    if isinstance(picture, Scene):
        return scene_figure(picture, width_mm, scale, frame, unit)
    if isinstance(picture, Chart):
        return chart_figure(picture, width_mm, frame)
    if isinstance(picture, Table):
        return table_figure(picture, width_mm, unit)
    raise TypeError(f"{type(picture).__name__} is not a picture")
