"""Dimensions in rows beside a view, so that none covers another."""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise
from typing import Literal

from ..scene import Dimension, Point

Side = Literal["above", "below", "right", "left"]
ROW = 8.0
"""Distance between two rows of dimensions, mm on paper."""
_FIRST = 10.0
"""Distance of the first row from the part, mm on paper."""
_TEXT = 1.9
"""Room that a figure needs, mm on paper a character of body type; and one for either end."""


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
    spans : from, to and the figure in words of each, mm along the other axis.
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
        wide = (_TEXT * len(text) + 3.0) / scale
        # a figure that does not go between its arrows stands behind the second end
        reach = (low, high) if high - low > wide else (low - 6.0 / scale, high + wide + 6.0 / scale)
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
        made.append(_placed(side, edge, away, low, high, text, starts[n]))
    return made


def _placed(
    side: Side, edge: float, away: float, low: float, high: float, text: str, start: float
) -> Dimension:
    if side in ("above", "below"):
        sign = 1 if side == "above" else -1
        ends: tuple[Point, Point] = ((low, start), (high, start))
        return Dimension(*ends, text, sign * away + (edge - start))
    sign = -1 if side == "right" else 1
    ends = ((start, low), (start, high))
    return Dimension(*ends, text, sign * away - (edge - start))


def chain(places: Sequence[float], digits: int = 2) -> list[tuple[float, float, str]]:
    """Return the spans between neighbours."""
    ordered = sorted(places)
    return [(a, b, f"{b - a:.{digits}f}") for a, b in pairwise(ordered)]


def overall(low: float, high: float, digits: int = 2) -> tuple[float, float, str]:
    """Return one span with its figure."""
    return (low, high, f"{high - low:.{digits}f}")
