"""Widths of a table's columns, so that every word goes in and nothing is cut off."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable
from dataclasses import dataclass, replace
from functools import cache

from matplotlib.font_manager import FontProperties, findfont, get_font

from ..pictures.paper.pens import MM_PER_POINT
from .blocks import Grid

POINTS = 11.0
"""Size of the lettering in tables."""
PORTRAIT, LANDSCAPE = 170.0, 257.0
"""Room across a page, upright and lying down, mm."""
PADDING = 3.4
"""Beside the words of a cell, both sides together, mm."""
_LONGEST = 26
"""Letters in a word after which it may be broken."""
OPEN = "\u200b"
"""A space of no width, at which a line may break."""
CLOSE = "\u00a0"
"""A space at which no line breaks."""
_BOUND = re.compile(
    r"(?<=\d) (?=(?:mm|in|thou|%|kg|g|N|bar|s|°C|N/mm²|N/mm|N mm|km/h|m/s|cm²|mm²)(?![\w/²³]))"
    r"|(?<=\d) (?=× \d)|(?<=\d.×) (?=\d)"
)
"""Between a figure and its unit, and within "2 × 330", no line breaks."""
_SURE = 1.03
_BOLD = 1.08
"""Headings are bold, and so broader."""
_NUMBER = re.compile(r"[+\-−–—]?[\d.,/ ]*\d[^A-Za-z]{0,3}( ?[a-zA-Z°%′″/²³]{1,5}\d?)?")


@dataclass(frozen=True)
class Laid:
    """A table with its columns laid out.

    Parameters
    ----------
    grid : with words that may be broken where they are too long.
    widths : of the columns, mm, padding included.
    right : which of them hold numbers, and stand to the right.
    lying : whether the page has to lie down.
    """

    grid: Grid
    widths: tuple[float, ...]
    right: tuple[bool, ...]
    lying: bool


def laid(grid: Grid) -> tuple[Laid, ...]:
    """Return a table laid out; in several parts, each with its first column, if it is too wide."""
    rows = tuple(tuple(breakable(_BOUND.sub(CLOSE, cell)) for cell in row) for row in grid.rows)
    grid = replace(grid, columns=tuple(map(breakable, grid.columns)), rows=rows)
    least = _across(grid, _longest_word)
    if sum(least) <= LANDSCAPE:
        return (_one(grid, least),)
    parts, begun = [], [0]
    for i in range(1, len(grid.columns)):
        if len(begun) > 1 and sum(least[j] for j in (*begun, i)) > LANDSCAPE:
            parts.append(begun)
            begun = [0]
        begun.append(i)
    parts.append(begun)
    return tuple(
        _one(_of_columns(grid, part, n), [least[i] for i in part]) for n, part in enumerate(parts)
    )


def _of_columns(grid: Grid, part: list[int], number: int) -> Grid:
    title = grid.title if number == 0 else f"{grid.title}, continued"
    return Grid(
        title, tuple(grid.columns[i] for i in part),
        tuple(tuple(row[i] for i in part) for row in grid.rows),
        grid.note,
    )  # fmt: skip


def _one(grid: Grid, least: list[float]) -> Laid:
    natural = _across(grid, width_of)
    upright = sum(least) <= PORTRAIT and not _cramped(grid, natural, least)
    room = PORTRAIT if upright else LANDSCAPE
    rows = [row for row in grid.rows if not is_heading(row)]
    right = tuple(_numbers(row[i] for row in rows) for i in range(len(grid.columns)))
    return Laid(grid, tuple(_shared(natural, least, room)), right, not upright)


def _cramped(grid: Grid, natural: list[float], least: list[float]) -> bool:
    """Return whether a wide table would run down an upright page a word at a time."""
    if len(grid.columns) < 5:
        return False
    widths = _shared(natural, least, PORTRAIT)
    lines = [
        max(-(-width_of(cell) // max(wide - PADDING, 1.0)) for cell, wide in zip(row, widths,
                                                                                strict=True))
        for row in grid.rows
    ]  # fmt: skip
    return bool(lines) and sum(lines) / len(lines) > 2.6


def _across(grid: Grid, measure: Callable[[str], float]) -> list[float]:
    """Return for each column the most that a measure gives of its cells, with padding."""
    rows = [row for row in grid.rows if not is_heading(row)]
    return [
        max(_BOLD * measure(name), *(measure(row[i]) for row in rows), 0.0) + PADDING
        for i, name in enumerate(grid.columns)
    ]


def is_heading(row: tuple[str, ...]) -> bool:
    """Return whether a row is a heading within its table."""
    return len(row) > 1 and bool(row[0]) and not any(row[1:])


def _shared(natural: list[float], least: list[float], room: float) -> list[float]:
    """Return widths that fill no more than the room; what has more to say gets more of it."""
    spare, wanted = room - sum(least), sum(natural) - sum(least)
    if wanted <= spare:
        return natural
    share = max(spare, 0.0) / wanted
    return [low + share * (wide - low) for wide, low in zip(natural, least, strict=True)]


def _numbers(cells: Iterable[str]) -> bool:
    filled = [cell.strip() for cell in cells if cell.strip() not in ("", "–", "—", "none")]
    return bool(filled) and all(_NUMBER.fullmatch(one) for one in filled)


def _longest_word(text: str) -> float:
    words = re.split(rf"[ \t\n{OPEN}]+", text)  # a space that no line breaks at binds a word
    return max((width_of(word) for word in words), default=0.0)


def breakable(text: str) -> str:
    """Return text in which no word is so long that it could stand over the edge of a page."""
    return re.sub(
        rf"[^\s{OPEN}]{{{_LONGEST},}}",
        lambda found: OPEN.join(
            found[0][i : i + _LONGEST // 2] for i in range(0, len(found[0]), _LONGEST // 2)
        ),
        text,
    )


def width_of(text: str) -> float:
    """Return the width of a line of a table, mm, a little more than it comes out."""
    return _SURE * sum(map(_advance, text)) * POINTS * MM_PER_POINT


@cache
def _advance(letter: str) -> float:
    """Return how far a letter moves on, for letters 1 high.

    Taken from the letters of the pictures, and how much narrower the book's own are at most,
    measured letter by letter.
    """
    if letter == OPEN:
        return 0.0
    font = get_font(findfont(FontProperties()))
    font.set_size(100, 72)
    if not font.get_char_index(ord(letter)):
        return 1.0
    ratio = 0.74 if letter in "0123456789" else 0.93 if letter.islower() else 1.1
    ratio = 1.4 if letter in "←↑→↓" else ratio
    return ratio * float(font.load_char(ord(letter)).linearHoriAdvance) / 65536 / 100
