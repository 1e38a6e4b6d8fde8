"""What tests of drawings share: the designs worked, and what lies over what on a sheet."""

from __future__ import annotations

from functools import cache
from typing import Any

from tests.designs import ROOT
from weighshaft import job
from weighshaft.design import Design, read
from weighshaft.design.typed import LengthUnit
from weighshaft.pictures.drawings.sheet import Drawing
from weighshaft.pictures.lengths import told
from weighshaft.pictures.paper.drawing import _sheets, fitting
from weighshaft.pictures.paper.lettering import Box, size_of, text_box, wrapped


@cache
def worked(name: str) -> tuple[Design, Any]:
    """Return a sample and its work; worked once in a run."""
    design = read(ROOT / "sample_designs" / f"{name}.loco.json")
    return design, job.work(design)


def figures_over_figures(drawing: Drawing, unit: LengthUnit = "mm") -> list[tuple[str, str]]:
    """Return the pairs of words on a drawing that cover one another, view by view."""
    found = []
    for sheet in _sheets(drawing, fitting(drawing, "A4"), unit).values():
        boxes = [
            (text, text_box(at, text, anchor, turned=turned))
            for at, text, anchor, _, turned in sheet.words
        ]
        for n, (text, one) in enumerate(boxes):
            found += [(text, other) for other, box in boxes[n + 1 :] if _meet(one, box)]
    return found


def _meet(one: Box, other: Box) -> bool:
    wide = min(one.x1, other.x1) - max(one.x0, other.x0)
    high = min(one.y1, other.y1) - max(one.y0, other.y0)
    return wide > 0.05 and high > 0.05


def does_not_go_in_the_block(drawing: Drawing, unit: LengthUnit = "mm") -> list[str]:
    """Return what of title block and notes is too long for its place, measured as written."""
    wrong = []
    if size_of(drawing.title, 11.0, bold=True)[0] > 60.0:
        wrong.append(drawing.title)
    if size_of(f"{drawing.material}, {drawing.count} off")[0] > 59.0:
        wrong.append(drawing.material)
    if wrapped(told(drawing.tolerance, unit), 58.0, 6.5).count("\n") > 1:
        wrong.append(drawing.tolerance)
    wide = 297.0 - 20 - 10 - 120 - 8  # A4, the narrower
    lines = [wrapped(told(one, unit), wide, 7.0) for one in drawing.notes]
    if sum(one.count("\n") + 1 for one in lines) > 6:
        wrong.append(drawing.notes[0])
    return wrong
