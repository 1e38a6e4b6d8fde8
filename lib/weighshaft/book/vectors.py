"""Pictures and drawings as SVG, drawn by as many processors as there are."""

from __future__ import annotations

import io
import multiprocessing
import os
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor, ProcessPoolExecutor
from contextlib import contextmanager
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
_FEW = 12
"""Pictures up to which other processes are not worth the seconds that they take to start."""
_WORKERS = 8
Letters = Literal["text", "path"]
"""Letters as such, for a typesetter that has them, or as their outlines, for any browser."""
Progress = Callable[[int, int], None]
"""Told how many pictures of how many are drawn."""


@dataclass(frozen=True)
class Vector:
    """A picture as SVG and its size on paper, mm."""

    svg: bytes
    wide: float
    high: float


def draw(
    pictures: Sequence[Scene | Chart],
    sheets: Sequence[Callable[[], Vector]],
    unit: LengthUnit,
    letters: Letters,
    told: Progress | None = None,
) -> tuple[list[Vector], list[Vector]]:
    """Return pictures drawn for a page, and sheets, each in their order.

    Parameters
    ----------
    sheets : what draws each; they are drawn here while other processes draw the pictures.
    told : called after each picture and sheet.
    """
    made: list[Vector] = []
    drawn: list[Vector] = []
    total = len(pictures) + len(sheets)

    def count() -> None:
        if told is not None:
            told(len(made) + len(drawn), total)

    with _processes(len(pictures)) as pool:
        jobs = [(one, unit, letters) for one in pictures]
        # asked for before the sheets are begun; a plain map draws as it is read
        coming = map(_picture, jobs) if pool is None else pool.map(_picture, jobs, chunksize=2)
        for sheet in sheets:
            drawn.append(sheet())
            count()
        for vector in coming:
            made.append(vector)
            count()
    return made, drawn


def _picture(job: tuple[Scene | Chart, LengthUnit, Letters]) -> Vector:
    picture, unit, letters = job
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


@contextmanager
def _processes(pictures: int) -> Iterator[Executor | None]:
    """Give the machine's processors, or nothing where one is enough or none can be had."""
    workers = min((os.cpu_count() or 1) - 1 or 1, _WORKERS)  # this process draws the sheets
    if os.cpu_count() == 1 or pictures <= _FEW:
        yield None
        return
    try:
        # fresh processes: a fork of a process with threads may hang
        pool = ProcessPoolExecutor(workers, mp_context=multiprocessing.get_context("spawn"))
    except (OSError, ValueError, ImportError):
        yield None
        return
    try:
        yield pool
    finally:
        pool.shutdown(cancel_futures=True)
