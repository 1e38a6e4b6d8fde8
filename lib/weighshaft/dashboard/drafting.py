"""Drawings and books being made beside the page: how far they have come, and what to hand over."""

from __future__ import annotations

import logging
import threading
from typing import TYPE_CHECKING, Any

from ..design.document import Design, DesignRefused
from ..design.typed import LengthUnit
from .shelf import file_stem

if TYPE_CHECKING:
    from ..drawing_office import Sheet
    from .desk import Desk

_log = logging.getLogger(__name__)
Payload = dict[str, Any]
PIECE = 4_000_000
"""Bytes handed to the browser in one message; the line takes 16 MB, a book may have more."""


class Making:
    """Something made of one design in a thread, to be handed over as a file.

    Parameters
    ----------
    design, work : as they stood when it was asked for; it belongs to these.
    unit : of the sizes on the sheets.
    """

    what, ending, kind = "drawings", "zip", "application/zip"
    first = "Getting the drawing board ready"
    busy, dropped = "Drawings are being made", "Stopped; no drawings were kept."

    def __init__(self, design: Design, work: Any, unit: LengthUnit) -> None:
        self.design = design
        self.number, self.total = 0, 0
        self.sorry = ""
        self.stopped = False
        self.made = b""
        self._work, self._unit = work, unit
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._run, name=self.what, daemon=True)
        self._thread.start()

    @property
    def running(self) -> bool:
        """Whether it has not ended yet."""
        return self._thread.is_alive()

    @property
    def name(self) -> str:
        """Name of the file."""
        return f"{file_stem(self.design.name)} {self.what}.{self.ending}"

    @property
    def now(self) -> str:
        """How far it has come, in a sentence."""
        raise NotImplementedError

    @property
    def ready(self) -> str:
        """What is ready, the beginning of a sentence."""
        raise NotImplementedError

    def stop(self) -> None:
        """Ask it to end after what is in hand; what was made is dropped."""
        self._stop.set()

    def wait(self, seconds: float | None = None) -> bool:
        """Wait until it has ended; return whether it has."""
        self._thread.join(seconds)
        return not self.running

    def _run(self) -> None:
        try:
            self.made = self._make()
        except Exception:
            _log.exception("The %s failed", self.what)
            self.sorry = f"The {self.what} could not be made; the log says more."

    def _make(self) -> bytes:
        raise NotImplementedError


class Drafting(Making):
    """The drawings of one design, one after the other.

    The page itself draws in the browser, so nothing else in its kernel uses matplotlib.
    """

    title = ""

    @property
    def now(self) -> str:
        """The drawing made last."""
        return f"Drawn {self.number} of {self.total}: {self.title[:1].lower()}{self.title[1:]}"

    @property
    def ready(self) -> str:
        """How many drawings."""
        return f"{self.total} drawings are ready"

    def _make(self) -> bytes:
        # matplotlib is slow to come and is needed here alone
        from .. import drawing_office

        made: list[Sheet] = []
        for sheet in drawing_office.sheets(self.design, self._work, unit=self._unit):
            if self._stop.is_set():
                self.stopped = True
                return b""
            made.append(sheet)
            self.number, self.total, self.title = sheet.number, sheet.total, sheet.title
        if not made:
            self.sorry = "Nothing of this design can be drawn yet; the findings say why."
            return b""
        return drawing_office.packed(made)


class BookAsPdf(Making):
    """The builder's book, drawn and set by processes of its own so that no slider waits."""

    what, ending, kind = "book", "pdf", "application/pdf"
    first = "Putting the book together"
    busy, dropped = "A book is being made", "Stopped; no book was kept."

    @property
    def now(self) -> str:
        """How many of its pictures are drawn."""
        if self.number == self.total:
            return "Setting the type"
        return f"Drawn {self.number} of {self.total} pictures and sheets"

    @property
    def ready(self) -> str:
        """Which form of the book."""
        return f"The book ({self.ending.upper()}, {len(self.made) / 1e6:.1f} MB) is ready"

    def _make(self) -> bytes:
        from datetime import date

        from .. import book

        try:
            return book.bound(
                self.design, "PDF" if self.ending == "pdf" else "HTML", unit=self._unit,
                made=date.today().isoformat(), told=self._told, stopped=self._stop.is_set,
                beside=True,
            )  # fmt: skip
        except book.BookStopped:
            self.stopped = True
            return b""

    def _told(self, done: int, of: int) -> None:
        self.number, self.total = done, of


class BookAsHtml(BookAsPdf):
    """The same as one page for a browser."""

    ending, kind = "html", "text/html"


_KINDS: dict[str, type[Making]] = {
    "drawings": Drafting,
    "book.pdf": BookAsPdf,
    "book.html": BookAsHtml,
}


def begin(desk: Desk, what: str = "drawings") -> None:
    """Begin to make something of the design as it stands; one thing at a time.

    Parameters
    ----------
    what : "drawings", "book.pdf" or "book.html".
    """
    if what not in _KINDS:
        raise DesignRefused("That cannot be made here.")
    if desk.drafting is not None and desk.drafting.running:
        raise DesignRefused(f"{desk.drafting.busy}; stop that first.")
    desk.drafting = _KINDS[what](desk.design, desk.work, desk.unit)


def stop(desk: Desk) -> None:
    """End the making of what is being made."""
    if desk.drafting is not None:
        desk.drafting.stop()


def drafting_payload(desk: Desk) -> Payload:
    """Return how far it has come, in a sentence."""
    one: Making | None = desk.drafting
    payload: Payload = {"running": False, "number": 0, "total": 0, "says": "", "ready": False}
    if one is None:
        return payload
    if one.running:
        return payload | {
            "running": True, "number": one.number, "total": one.total,
            "says": one.now if one.total else one.first,
        }  # fmt: skip
    if one.sorry:
        return payload | {"says": one.sorry}
    if one.stopped or not one.made:
        return payload | {"says": one.dropped}
    older = "" if one.design == desk.design else ", of the design as it stood then"
    return payload | {"says": f"{one.ready}{older}.", "ready": True}


def taken(desk: Desk, start: int = 0) -> tuple[Payload, bytes]:
    """Return what is known of the file that is ready, and a piece of it.

    Parameters
    ----------
    start : where in the file the piece begins; the browser asks for one after the other.

    Raises
    ------
    DesignRefused : where there is none, or not so much of it.
    """
    one: Making | None = desk.drafting
    if one is None or one.running or not one.made:
        raise DesignRefused("Nothing is ready; make it first.")
    if not 0 <= start < len(one.made):
        raise DesignRefused("There is no more of that file.")
    about = {"name": one.name, "type": one.kind, "start": start, "size": len(one.made)}
    return about, one.made[start : start + PIECE]
