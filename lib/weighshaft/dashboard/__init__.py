"""The page: chapters as steps on one drawing sheet, live in the browser.

Nothing heavy is imported here.  matplotlib and sympy stay away until somebody needs them,
since a page that waits for them comes up half a second later.
"""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from ..design.document import Design
    from .sheet import Sheet

__all__ = ["show"]

FIRST_SAMPLE = "hartfell"


def show(chapter: str | None = None, design: Design | str | None = None) -> Sheet:
    """Return the page, or one chapter of it, as a widget for the last line of a cell.

    Parameters
    ----------
    chapter : "scale", "cylinders", "motion", "wheels", "threads", "nozzle" or "whole" to show
        that chapter alone; None for the whole page.
    design : a design, or the key of a sample; None for the first sample.

    Raises
    ------
    DesignRefused : when there is no such chapter or sample.
    """
    from .. import places
    from ..design.document import Design
    from .desk import Desk
    from .sheet import Sheet
    from .shelf import Shelf

    shelf = Shelf(samples=places.samples())
    if not isinstance(design, Design):
        if design is None:
            keys = [one.key for one in shelf.samples()]
            design = FIRST_SAMPLE if FIRST_SAMPLE in keys else next(iter(keys), FIRST_SAMPLE)
        design = shelf.sample(design)
    desk = Desk(design, shelf)
    if chapter is not None:
        desk.go(chapter)
    return Sheet(desk, alone=chapter or "")
