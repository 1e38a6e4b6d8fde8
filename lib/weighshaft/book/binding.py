"""A book drawn and set, by as many processors as there are.

Drawings are made of functions and cannot be sent from one process to another, so each process
works the design itself and is then told the numbers of the pictures that it is to draw.
"""

from __future__ import annotations

import multiprocessing
import os
import threading
from collections.abc import Callable, Iterator, Sequence
from concurrent.futures import Executor, Future, ProcessPoolExecutor, wait
from contextlib import contextmanager
from typing import Literal, TypeVar

from .. import job
from ..design import file
from ..design.document import Design
from ..design.typed import LengthUnit
from .contents import book_of
from .paged import html_of
from .typed import pdf_of
from .vectors import Vector, draw_picture, draw_sheet

_WORKERS = 8
_CHUNK = 2
"""Pictures told at once: few, so that no process is left with all the long ones."""
_PATIENT = 10
_LOOK = 0.3  # s between two looks at the one who waits
Form = Literal["PDF", "HTML"]
Progress = Callable[[int, int], None]
"""Told how many pictures of how many are drawn."""


_T = TypeVar("_T")


class BookStopped(Exception):
    """The one who asked for the book does not want it any more."""


class Binding:
    """One book on its way from a design to paper.

    Parameters
    ----------
    design : the design of the book.
    form : "PDF" or "HTML".
    unit : of the lengths shown.
    made : when, for the title page.
    """

    def __init__(self, design: Design, form: Form, unit: LengthUnit, made: str) -> None:
        self.book = book_of(design, job.work(design), unit=unit, made=made)
        self._form, self._unit = form, unit
        self._shown, self._drawn = tuple(self.book.shown), tuple(self.book.drawn)

    @property
    def count(self) -> int:
        """How many pictures and drawings it has."""
        return len(self._shown) + len(self._drawn)

    def draw(self, number: int) -> Vector:
        """Draw one of them, the pictures first."""
        # letters as such for a typesetter that has them, as their outlines for any browser
        letters: Literal["text", "path"] = "text" if self._form == "PDF" else "path"
        if number < len(self._shown):
            return draw_picture(self._shown[number].picture, self._unit, letters)
        sheet = self._drawn[number - len(self._shown)]
        return draw_sheet(sheet.drawing, self.book.title, sheet.number, self._unit, letters)

    def set(self, vectors: Sequence[Vector]) -> bytes:
        """Set the book with everything that was drawn, in its order."""
        drawn = dict(zip(map(id, (*self._shown, *self._drawn)), vectors, strict=True))
        if self._form == "PDF":
            return pdf_of(self.book, drawn)
        return html_of(self.book, drawn).encode()


def bound(
    design: Design,
    form: Form,
    *,
    unit: LengthUnit = "mm",
    made: str = "",
    told: Progress | None = None,
    stopped: Callable[[], bool] = lambda: False,
    beside: bool = False,
) -> bytes:
    """Return the book of a design, drawn and set.

    Parameters
    ----------
    design, form, unit, made : as `Binding` has them.
    told : told how many pictures of how many are drawn; the type is set after the last.
    stopped : asked now and then.
    beside : something else goes on meanwhile, which is not to wait for it.

    Raises
    ------
    BookStopped : when `stopped` says so.
    """
    with processes(file.to_bytes(design), form, unit, made, beside) as pool:
        if pool is None:
            here = Binding(design, form, unit, made)
            drawn = _gathered(map(here.draw, range(here.count)), here.count, told, stopped)
            return here.set(drawn)
        count = _waited(pool.submit(_count), stopped)
        coming = pool.map(draw_number, range(count), chunksize=_CHUNK)
        drawn = _gathered(coming, count, told, stopped)
        return _waited(pool.submit(_set, drawn), stopped)


def _gathered(
    coming: Iterator[Vector], count: int, told: Progress | None, stopped: Callable[[], bool]
) -> list[Vector]:
    made: list[Vector] = []
    for vector in coming:
        made.append(vector)
        if told is not None:
            told(len(made), count)
        if stopped():
            raise BookStopped
    return made


def _waited(asked: Future[_T], stopped: Callable[[], bool]) -> _T:
    while not asked.done():
        wait([asked], timeout=_LOOK)
        if stopped():
            raise BookStopped
    return asked.result()


@contextmanager
def processes(
    design: bytes, form: Form, unit: LengthUnit, made: str, beside: bool
) -> Iterator[Executor | None]:
    """Give the machine's processors, or nothing where there is one or none can be had.

    Beside something else, one stays free, and another process works even where there is but one.
    """
    count = os.cpu_count() or 1
    if count == 1 and not beside:
        yield None
        return
    try:
        # fresh processes: a fork of a process with threads may hang
        pool = ProcessPoolExecutor(
            min(max(count - beside, 1), _WORKERS),
            mp_context=multiprocessing.get_context("spawn"),
            initializer=_begin, initargs=(design, form, unit, made, beside),
        )  # fmt: skip
    except (OSError, ValueError, ImportError):
        yield None
        return
    try:
        yield pool
    finally:
        pool.shutdown(cancel_futures=True)


# --- in a process of its own ----------------------------------------------------------------

_in_hand: list[Binding] = []


def _begin(design: bytes, form: Form, unit: LengthUnit, made: str, beside: bool) -> None:
    parent = multiprocessing.parent_process()
    if beside and hasattr(os, "nice"):
        os.nice(_PATIENT)  # what a hand moves comes first

    def go_along() -> None:
        """End with the process that asked for this one, however that ends."""
        if parent is not None:
            parent.join()
            os._exit(1)

    threading.Thread(target=go_along, name="go along", daemon=True).start()
    _in_hand.append(Binding(file.from_bytes(design), form, unit, made))


def _count() -> int:
    return _in_hand[0].count


def draw_number(number: int) -> Vector:
    """Draw one of the pictures of the book that this process has in hand."""
    return _in_hand[0].draw(number)


def _set(vectors: Sequence[Vector]) -> bytes:
    return _in_hand[0].set(vectors)
