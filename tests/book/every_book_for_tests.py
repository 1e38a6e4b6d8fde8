"""The book of a sample, made once, and what has to be true of every book.

Pages are looked at coarsely, one dot to a millimetre: enough to see ink where none may be.
To save time every second book has blanks in place of its pictures and drawings, the sheets with
their titles; all that is type is the same.
"""

from __future__ import annotations

import html
import io
import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from functools import lru_cache
from pathlib import Path
from typing import Any

import numpy as np
import pypdfium2
from numpy.typing import NDArray
from pypdf import PdfReader

from tests.designs import SAMPLES
from weighshaft.book.binding import Binding
from weighshaft.book.blocks import Book
from weighshaft.book.paged import html_of
from weighshaft.book.vectors import WIDE, Vector
from weighshaft.design import read

POINT = 25.4 / 72
A4, A3 = (210, 297), (297, 420)
SIDE, TOP, FOOT = 14, 8, 8
"""Edges of a page of type on which nothing stands, mm; its margins are 20 mm and more."""
BORDER = 8
"""The same of a drawing; its frame stands 10 mm within the paper (ISO 5457)."""
LEAST_INK = 0.002
"""Of a page that is not blank: three lines of type with its number and heading."""


@dataclass(frozen=True)
class Made:
    """A book as made: in blocks, what was drawn, and its pages as a reader finds them."""

    book: Book
    vectors: dict[int, Vector]
    reader: PdfReader
    words: tuple[str, ...]
    looks: tuple[NDArray[np.uint8], ...]


def blank(book: Book, titled: bool = False) -> dict[int, Vector]:
    """Return a blank of the right size for everything that is drawn: the drawing takes long.

    Parameters
    ----------
    titled : sheets have their titles, as drawings have.
    """

    def rectangle(wide: float, high: float, title: str = "") -> Vector:
        svg = (
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {wide} {high}">'
            f'<rect x="11" y="11" width="{wide - 22}" height="{high - 22}" fill="#ddd"/>'
            + (f'<text x="14" y="24" font-size="6">{html.escape(title)}</text>' if title else "")
            + "</svg>"
        )
        return Vector(svg.encode(), wide, high)

    blanks = {id(one): rectangle(WIDE, 90.0) for one in book.shown}
    return blanks | {
        id(one): rectangle(297.0, 210.0, one.drawing.title if titled else "") for one in book.drawn
    }


@lru_cache(maxsize=1)
def made(path: Path) -> Made:
    """Make the book of a sample; the checks of one sample follow one another."""
    place = SAMPLES.index(path)
    whole = (place // 4 + place) % 2 == 0  # one or two of the three books of a file
    binding = Binding(read(path), "PDF", "mm", "today")
    if whole:
        drawn = [binding.draw(n) for n in range(binding.count)]
    else:
        drawn = list(blank(binding.book, titled=True).values())
    data = binding.set(drawn)
    document = pypdfium2.PdfDocument(data)
    looks = tuple(
        np.atleast_3d(page.render(scale=POINT, grayscale=True).to_numpy())[:, :, 0].copy()
        for page in document
    )
    words = tuple(
        " ".join(page.get_textpage().get_text_bounded().replace("\ufffe", "").split())
        for page in document
    )
    blocks = (*binding.book.shown, *binding.book.drawn)
    vectors = dict(zip(map(id, blocks), drawn, strict=True))
    return Made(binding.book, vectors, PdfReader(io.BytesIO(data)), words, looks)


def _marks(reader: PdfReader) -> Iterator[tuple[str, int]]:
    """Yield every mark of a reader's side bar with its page, from 1."""

    def within(some: list[Any]) -> Iterator[tuple[str, int]]:
        for one in some:
            if isinstance(one, list):
                yield from within(one)
            else:
                number = reader.get_destination_page_number(one)
                assert number is not None
                yield str(one.title), number + 1

    yield from within(reader.outline)


def pages_are_a4_or_a3_and_as_many_as_a_book_has(one: Made) -> None:
    assert 100 < len(one.reader.pages) < 420
    for page in one.reader.pages:
        size = sorted(round(float(edge) * POINT) for edge in page.mediabox[2:])
        assert tuple(size) in (A4, A3)
    assert one.reader.metadata is not None
    assert one.reader.metadata.title == one.book.title


def no_page_is_blank(one: Made) -> None:
    for number, look in enumerate(one.looks, 1):
        ink = float((look < 250).mean())
        assert ink > LEAST_INK, f"page {number} has {ink:.3%} of ink"


def nothing_stands_on_the_edges(one: Made) -> None:
    sheets = {number for title, number in _marks(one.reader) if title.startswith("Sheet ")}
    for number, look in enumerate(one.looks, 1):
        drawn = number in sheets
        side, top, foot = (BORDER, BORDER, 0) if drawn else (SIDE, TOP, FOOT)
        inked = look < 250
        for edge in (inked[:, :side], inked[:, -side:], inked[:top], inked[len(look) - foot :]):
            assert not edge.any(), f"page {number}"
        # the number of the page stands below a drawing's frame
        assert not inked[-1].any(), f"page {number}"


def contents_name_the_pages_on_which_things_stand(one: Made) -> None:
    marks = list(_marks(one.reader))
    first = marks[0][1]
    contents = " ".join(one.words[1 : first - 1])
    assert contents.startswith("Contents")
    at = 0
    for title, number in marks:
        plain = " ".join(title.split())
        found = re.compile(rf"{re.escape(plain)} ?[. ]*{number}\b").search(contents, at)
        assert found, f"{plain}, page {number}"
        at = found.end()  # in their order
        if plain.startswith("Sheet "):
            plain = plain.split(": ", 1)[1]
        assert plain in one.words[number - 1], f"{plain}, page {number}"
        assert one.words[number - 1].split().count(str(number)), f"page {number} has no number"


def every_chapter_picture_and_drawing_is_there(one: Made) -> None:
    titles = [title for title, _ in _marks(one.reader)]
    assert all(section.title in titles for section in one.book.sections)
    sheets = [f"Sheet {sheet.number}: {sheet.drawing.title}" for sheet in one.book.drawn]
    assert len(sheets) >= 10
    assert [title for title in titles if title.startswith("Sheet ")] == sheets
    text = "".join("".join(one.words).split())
    for shown in one.book.shown:
        says = "".join(shown.says.split())[:40]
        assert says in text or shown is one.book.cover, shown.says
    for section in one.book.sections:
        assert "".join(section.title.split()) in text


def the_page_for_a_browser_fetches_nothing(one: Made) -> None:
    page = html_of(one.book, one.vectors)
    assert "default-src 'none'" in page
    assert not re.search(r"""(?:src|href|action|data)=["'](?!#|data:image/svg)""", page)
    assert "<script" not in page
    assert "@import" not in page
    for vector in one.vectors.values():
        text = vector.svg.decode()
        assert not re.search(r"""href=["'](?!#|data:)""", text)
        assert "<script" not in text
    assert page.count("<img") == len(one.vectors)
    assert all(html.escape(section.title) in page for section in one.book.sections)


CHECKS: tuple[Callable[[Made], None], ...] = (
    pages_are_a4_or_a3_and_as_many_as_a_book_has,
    no_page_is_blank,
    nothing_stands_on_the_edges,
    contents_name_the_pages_on_which_things_stand,
    every_chapter_picture_and_drawing_is_there,
    the_page_for_a_browser_fetches_nothing,
)
