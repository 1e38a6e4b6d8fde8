"""A table on paper."""

from __future__ import annotations

from matplotlib.collections import LineCollection
from matplotlib.figure import Figure

from ...design.typed import LengthUnit, coordinate, spell
from ...measures import INCH
from ..scene import Table
from .lettering import BODY, HEADING, LINE, SMALL, size_of, wrapped
from .pens import HAIR, INK, MM_PER_POINT, PAPER, SOFT, THIN

_MARGIN, _GAP, _PAD = 5.0, 5.0, 1.3  # mm: round the table, between columns, above a row
_NARROWEST = 12.0


def table_figure(table: Table, width: float, unit: LengthUnit) -> Figure:
    """Return the table on paper, lengths in `unit`; see `figure`."""
    for row in table.rows:
        if len(row) != len(table.columns):
            raise ValueError(
                f"{table.title}: a row has {len(row)} cells for {len(table.columns)} columns."
            )
    numbers = [_is_number_column(table, i) for i in range(len(table.columns))]
    lines = [tuple(map(str, table.columns))]
    lines += [tuple(_cell(cell, unit, table.fine) for cell in row) for row in table.rows]
    widths = _widths(lines, width - 2 * _MARGIN)
    lines = [
        tuple(wrapped(cell, wide + 0.1) for cell, wide in zip(line, widths, strict=True))
        for line in lines
    ]
    heights = [max((size_of(c)[1] for c in line), default=0) + 2 * _PAD for line in lines]
    title = wrapped(table.title, width - 2 * _MARGIN, HEADING)
    note = wrapped(table.note, width - 2 * _MARGIN, SMALL) if table.note else ""
    head = size_of(title, HEADING)[1] + 4
    foot = size_of(note, SMALL)[1] + 3 if note else 0.0
    height = 2 * _MARGIN + head + sum(heights) + foot

    figure = Figure(figsize=(width / INCH, height / INCH), facecolor=PAPER)
    axes = figure.add_axes((0.0, 0.0, 1.0, 1.0))
    axes.set_axis_off()
    axes.set_xlim(0, width)
    axes.set_ylim(height, 0)  # mm down from the top
    axes.text(
        _MARGIN, _MARGIN, title, color=SOFT, fontsize=HEADING, weight="bold", va="top",
        linespacing=LINE, parse_math=False,
    )  # fmt: skip
    y, right = _MARGIN + head, _MARGIN + sum(widths) + _GAP * (len(widths) - 1)
    rules = []
    for n, (line, tall) in enumerate(zip(lines, heights, strict=True)):
        x = _MARGIN
        for cell, wide, number in zip(line, widths, numbers, strict=True):
            for k, words in enumerate(cell.split("\n")):  # line by line, on one base line a row
                axes.text(
                    x + wide if number else x,
                    y + _PAD + (0.85 + LINE * k) * BODY * MM_PER_POINT,
                    words, ha="right" if number else "left", va="baseline", fontsize=BODY,
                    color=SOFT if n == 0 else INK, parse_math=False,
                )  # fmt: skip
            x += wide + _GAP
        y += tall
        rules.append([(_MARGIN, y), (right, y)])
    colours = [INK, *[HAIR] * (len(rules) - 1)]
    axes.add_collection(
        LineCollection(rules, colors=colours, linewidth=THIN / MM_PER_POINT), autolim=False
    )
    if note:
        axes.text(
            _MARGIN, y + 2, note, va="top", fontsize=SMALL, color=SOFT, linespacing=LINE,
            parse_math=False,
        )  # fmt: skip
    return figure


def _cell(cell: str | float, unit: LengthUnit, fine: bool) -> str:
    if isinstance(cell, str):
        return cell
    return coordinate(float(cell), unit) if fine else spell(float(cell), unit)


def _is_number_column(table: Table, i: int) -> bool:
    cells = [row[i] for row in table.rows]
    return bool(cells) and all(
        not isinstance(cell, str) or cell[:1].isdigit() or cell[:1] in "+-−–—." for cell in cells
    )


def _widths(lines: list[tuple[str, ...]], room: float) -> list[float]:
    """Return widths of the columns, the widest made narrower until all fit."""
    widths = [
        max(3.0, *(size_of(cell)[0] for cell in column)) for column in zip(*lines, strict=True)
    ]
    excess = sum(widths) + _GAP * (len(widths) - 1) - room
    while excess > 0.01:
        widest = max(range(len(widths)), key=widths.__getitem__)
        others = [w for i, w in enumerate(widths) if i != widest]
        least = max([*others, _NARROWEST])
        less = min(excess, widths[widest] - least)
        if less <= 0:  # two equally wide, or nothing left to give: share what is over
            less = min(excess, widths[widest] - _NARROWEST, 2.0)
            if less <= 0:
                break
        widths[widest] -= less
        excess -= less
    return widths
