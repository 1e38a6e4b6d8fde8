"""Dimensions in rows beside a view, so that none covers another."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from ..lengths import MEASURED
from ..scene import Dimension, Point

Side = Literal["above", "below", "right", "left"]
ROW = 8.0
"""Distance between two rows of dimensions, mm on paper."""
_FIRST = 10.0
"""Distance of the first row from the part, mm on paper."""
_TEXT = 1.9
"""Room that a figure needs, mm on paper a character of body type; and one for either end."""
_FIGURE = "0.0000"
"""What a length takes at most, in mm or inches."""


def rows(
    side: Side,
    edge: float,
    spans: Sequence[tuple[float, float, str]],
    scale: float,
    at: Sequence[float] | None = None,
    first: int = 0,
) -> list[Dimension]:
    """Return dimensions stacked in rows away from the part, the shortest nearest.

    Two share a row only where neither they nor their figures meet.

    Parameters
    ----------
    side : on which side of the part.
    edge : where the part ends on that side, mm.
    spans : from, to and the figure in words of each, mm along the other axis; empty, or with
        "<>" in it, where the length is spelt in the unit of the sheet.
    scale : mm on paper for one mm of the part.
    at : where on the other axis the extension lines begin, mm; the edge where not given.
    first : rows left free next to the part.
    """
    starts = [edge] * len(spans) if at is None else list(at)
    taken: list[list[tuple[float, float]]] = []
    made: list[Dimension] = []
    order = sorted(range(len(spans)), key=lambda n: abs(spans[n][1] - spans[n][0]))
    for n in order:
        one, other, text = spans[n]
        low, high = min(one, other), max(one, other)
        wide = (_TEXT * len((text or MEASURED).replace(MEASURED, _FIGURE)) + 3.0) / scale
        reach, first_end = (low, high), low
        if high - low <= wide:
            # a figure that does not go between its arrows stands behind the second end, where
            # fewer lines of longer dimensions cross it
            others = [x for m, span in enumerate(spans) if m != n for x in span[:2]]
            after = sum(high < x < high + wide + 6.0 / scale for x in others)
            before = sum(low - wide - 6.0 / scale < x < low for x in others)
            first_end = high if before < after else low
            reach = (low - 6.0 / scale, high + wide + 6.0 / scale)
            if before < after:
                reach = (low - wide - 6.0 / scale, high + 6.0 / scale)
        row = next(
            (
                r for r, others in enumerate(taken)
                if all(reach[1] <= a or b <= reach[0] for a, b in others)
            ),
            len(taken),
        )  # fmt: skip
        if row == len(taken):
            taken.append([])
        taken[row].append(reach)
        away = (_FIRST + ROW * (row + first)) / scale
        second = low + high - first_end
        made.append(_placed(side, edge, away, first_end, second, text, starts[n]))
    return made


def _placed(
    side: Side, edge: float, away: float, one: float, other: float, text: str, start: float
) -> Dimension:
    turned = -1 if other < one else 1
    if side in ("above", "below"):
        sign = 1 if side == "above" else -1
        ends: tuple[Point, Point] = ((one, start), (other, start))
        return Dimension(*ends, text, turned * (sign * away + (edge - start)))
    sign = -1 if side == "right" else 1
    ends = ((start, one), (start, other))
    return Dimension(*ends, text, turned * (sign * away - (edge - start)))


def chain(places: Sequence[float], text: str = "") -> list[tuple[float, float, str]]:
    """Return the spans between neighbours."""
    return [(a, b, text) for a, b in pairwise(sorted(places))]


def overall(low: float, high: float, text: str = "") -> tuple[float, float, str]:
    """Return one span; its figure is its length, or words with "<>" for it."""
    return (low, high, text)
