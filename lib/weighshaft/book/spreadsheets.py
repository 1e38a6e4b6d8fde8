"""Every table of the book as a CSV file."""

from __future__ import annotations

import csv
import io
import re
import unicodedata
from collections.abc import Iterator

from .blocks import Book
from .typed import printable
from .widths import CLOSE

_NUMBER = re.compile(r"[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?")
_FORMULA = ("=", "+", "-", "@", "＝", "＋", "－", "＠")
"""What a formula begins with; some spreadsheets take the wide forms of the Far East as well."""


def csv_files(book: Book) -> Iterator[tuple[str, bytes]]:
    """Yield name and content of a CSV file for every table, in the order of the book.

    UTF-8 with a mark at its start, by which spreadsheets know it; commas between cells.
    """
    for number, (section, grid) in enumerate(book.grids, 1):
        text = io.StringIO()
        write = csv.writer(text, lineterminator="\r\n")
        write.writerow(map(_cell, grid.columns))
        write.writerows(map(_cell, row) for row in grid.rows)
        name = f"{number:03d}-{section.key}-{_slug(grid.title)}.csv"
        yield name, text.getvalue().encode("utf-8-sig")


def _cell(text: str) -> str:
    text = printable(text).replace(CLOSE, " ")
    # a spreadsheet would take a name such as "=1+1" for something to be worked
    if text.lstrip().startswith(_FORMULA) and not _NUMBER.fullmatch(text):
        return f"'{text}"
    return text


def _slug(title: str) -> str:
    plain = unicodedata.normalize("NFKD", title).encode("ascii", "ignore").decode("ascii")
    return re.sub(r"[^a-z0-9]+", "-", plain.lower()).strip("-")[:60] or "table"
