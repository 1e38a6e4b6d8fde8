"""What many drawings share: rectangles, turned parts, diameters, middle lines."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from ..lengths import length
from ..scene import Fill, Label, Path, Pen, Primitive
from .dimensions import chain, overall, rows
from .sheet import Outline, polygon

Drawn = list[Primitive | Outline]
Step = tuple[float, float, float]
"""From, to and diameter of a length of a turned part, mm."""
DIAMETER = "⌀<>"


def within(by: float) -> str:
    """Return a tolerance either way."""
    return f"±{length(by)}"


def block(
    x0: float, x1: float, y0: float, y1: float, fill: Fill = "metal", pen: Pen = "outline"
) -> Outline:
    """Return a rectangle."""
    made = polygon([(x0, y0), (x1, y0), (x1, y1), (x0, y1)], fill)
    return Outline(made.corners, pen, fill)


def line(x0: float, y0: float, x1: float, y1: float, pen: Pen = "centre") -> Path:
    """Return a straight line."""
    return Path(np.array([[x0, y0], [x1, y1]]), pen)


def middle(x0: float, x1: float, scale: float, y: float = 0.0) -> Path:
    """Return a level centre line a little longer than what it goes through."""
    return line(x0 - 4 / scale, y, x1 + 4 / scale, y)


def turned(steps: Sequence[Step], scale: float) -> Drawn:
    """Return a turned part from the side with its lengths below and its diameters at its ends.

    Parameters
    ----------
    steps : along the axis from left to right, each beginning where the one before ends, mm.
    scale : mm on paper for a mm of the part.
    """
    left, right, most = steps[0][0], steps[-1][1], max(one[2] for one in steps)
    drawn: Drawn = [block(a, b, -d / 2, d / 2) for a, b, d in steps]
    drawn.append(middle(left, right, scale))
    places = [left, *(b for _, b, _ in steps)]
    spans = [overall(left, right)] + (chain(places) if len(steps) > 1 else [])
    drawn += rows("below", -most / 2, spans, scale)
    return [*drawn, *diameters(steps, scale)]


def diameters(steps: Sequence[Step], scale: float) -> Drawn:
    """Return the diameters of a turned part: at its ends, or named where others hide them."""
    left, right, most = steps[0][0], steps[-1][1], max(one[2] for one in steps)
    drawn: Drawn = []
    sides: dict[bool, list[Step]] = {True: [], False: []}
    told: set[float] = set()
    for n in sorted(range(len(steps)), key=lambda n: min(n, len(steps) - 1 - n)):
        a, b, d = steps[n]
        if round(d, 6) in told:
            continue
        told.add(round(d, 6))
        before = max((one[2] for one in steps[:n]), default=0.0)
        behind = max((one[2] for one in steps[n + 1 :]), default=0.0)
        if before <= d and n <= len(steps) / 2:
            sides[True].append((a, b, d))
        elif behind <= d:
            sides[False].append((a, b, d))
        elif before <= d:
            sides[True].append((a, b, d))
        else:
            up = most / 2 + 6 / scale
            drawn.append(Label(f"⌀{length(d)}", ((a + b) / 2, up), "middle", ((a + b) / 2, d / 2)))
    for at_left, found in sides.items():
        spans = [(-d / 2, d / 2, DIAMETER) for *_, d in found]
        at = [a if at_left else b for a, b, _ in found]
        edge = left if at_left else right
        drawn += rows("left" if at_left else "right", edge, spans, scale, at)
    return drawn
