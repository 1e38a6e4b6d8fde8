"""The book made and written: PDF, HTML, and the tables as CSV."""

from __future__ import annotations

import os
from collections.abc import Callable
from pathlib import Path

from ..design.document import Design
from ..design.typed import LengthUnit
from ..job import Work
from .binding import Form, bound
from .blocks import Book
from .contents import book_of
from .spreadsheets import csv_files

ENDINGS = (".pdf", ".html", ".htm")
_EVERY = 10
Say = Callable[[str], None]
"""Told what is being done, a line at a time."""


class BookRefused(ValueError):
    """A book that cannot be made or written; the text says why."""


def make(
    design: Design,
    work: Work,
    *,
    output: Path | None = None,
    tables: Path | None = None,
    unit: LengthUnit = "mm",
    made: str = "",
    say: Say = lambda _: None,
) -> None:
    """Write the book of a design, its tables, or both.

    Parameters
    ----------
    output : the book; its ending says whether it is PDF or HTML.
    tables : folder for the tables as CSV, made if it is not there.
    unit : in which lengths that were worked out are shown.
    made : when, for the title page.
    say : told how far it has come.

    Raises
    ------
    BookRefused : when a file cannot be written or its ending is not known.
    """
    if output is not None:
        look_at(output)
    book = book_of(design, work, unit=unit, made=made)
    if tables is not None:
        say(f"{_write_tables(book, tables)} tables written to {tables}")
    if output is not None:
        form: Form = "PDF" if output.suffix.lower() == ".pdf" else "HTML"
        pictures, sheets = len(tuple(book.shown)), len(tuple(book.drawn))
        say(f"drawing {pictures} pictures and {sheets} sheets")

        def told(done: int, of: int) -> None:
            if done % _EVERY == 0 or done == of:
                say(f"{done} of {of} drawn")
            if done == of:
                say("setting the type" if form == "PDF" else "writing the page")

        data = bound(design, form, unit=unit, made=made, told=told)
        _write(output, data)
        say(f"{output} written, {len(data) / 1e6:.1f} MB")


def look_at(output: Path) -> None:
    """Refuse a book whose ending is not known or that has no folder, before it is made.

    Raises
    ------
    BookRefused : saying what would do.
    """
    if output.suffix.lower() not in ENDINGS:
        raise BookRefused(f"{output}: a book ends in .pdf or .html")
    if output.is_dir():
        raise BookRefused(f"{output} is a folder; a book needs the name of a file")
    if not output.parent.is_dir():
        raise BookRefused(f"there is no folder {output.parent} to write the book to")


def _write_tables(book: Book, folder: Path) -> int:
    number = 0
    try:
        folder.mkdir(parents=True, exist_ok=True)
        for name, data in csv_files(book):
            (folder / name).write_bytes(data)
            number += 1
    except OSError as why:
        raise BookRefused(f"the tables cannot be written to {folder}: {_reason(why)}") from why
    return number


def _write(path: Path, data: bytes) -> None:
    """Write a file whole or not at all."""
    part = path.with_name(f".{path.name}.{os.getpid()}.part")
    try:
        part.write_bytes(data)
        os.replace(part, path)
    except OSError as why:
        part.unlink(missing_ok=True)
        raise BookRefused(f"{path} cannot be written: {_reason(why)}") from why


def _reason(why: OSError) -> str:
    return (why.strerror or str(why)).lower()
