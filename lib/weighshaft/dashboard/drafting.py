"""Drawings being made beside the page: how far they have come, a stop, and what to hand over."""

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
LARGEST = 15_000_000
"""Of what is handed to the browser in one message, bytes; the line takes 16 MB."""


class Drafting:
    """The drawings of one design, made one after the other in a thread.

    The page itself draws in the browser, so nothing else in its kernel uses matplotlib.

    Parameters
    ----------
    design, work : as they stood when the drawings were asked for; they belong to these.
    unit : of the sizes on the sheets.
    """

    def __init__(self, design: Design, work: Any, unit: LengthUnit) -> None:
        self.design = design
        self.number, self.total = 0, 0
        self.now = ""
        self.sorry = ""
        self.stopped = False
        self.archive = b""
        self._work, self._unit = work, unit
        self._stop = threading.Event()
        self._thread = threading.Thread(target=self._run, name="drawings", daemon=True)
        self._thread.start()

    @property
    def running(self) -> bool:
        """Whether it has not ended yet."""
        return self._thread.is_alive()

    def stop(self) -> None:
        """Ask it to end after the drawing in hand; what was made is dropped."""
        self._stop.set()

    def wait(self, seconds: float | None = None) -> bool:
        """Wait until it has ended; return whether it has."""
        self._thread.join(seconds)
        return not self.running

    def _run(self) -> None:
        # matplotlib is slow to come and is needed here alone
        from .. import drawing_office

        made: list[Sheet] = []
        try:
            for sheet in drawing_office.sheets(self.design, self._work, unit=self._unit):
                if self._stop.is_set():
                    self.stopped = True
                    return
                made.append(sheet)
                self.number, self.total, self.now = sheet.number, sheet.total, sheet.title
            if not made:
                self.sorry = "Nothing of this design can be drawn yet; the findings say why."
                return
            archive = drawing_office.packed(made)
        except Exception:
            _log.exception("The drawings failed")
            self.sorry = "The drawings could not be made; the log says more."
            return
        if len(archive) > LARGEST:
            self.sorry = "The drawings are too many for the browser: use “weighshaft drawings”."
        else:
            self.archive = archive


def begin(desk: Desk) -> None:
    """Begin to make the drawings of the design as it stands; one batch at a time."""
    if desk.drafting is not None and desk.drafting.running:
        raise DesignRefused("Drawings are being made; stop that first.")
    desk.drafting = Drafting(desk.design, desk.work, desk.unit)


def stop(desk: Desk) -> None:
    """End the making of drawings."""
    if desk.drafting is not None:
        desk.drafting.stop()


def drafting_payload(desk: Desk) -> Payload:
    """Return how far the drawings have come, in a sentence."""
    one: Drafting | None = desk.drafting
    payload: Payload = {"running": False, "number": 0, "total": 0, "says": "", "ready": False}
    if one is None:
        return payload
    if one.running:
        says = "Getting the drawing board ready"
        if one.total:
            says = f"Drawn {one.number} of {one.total}: {one.now[:1].lower()}{one.now[1:]}"
        return payload | {
            "running": True, "number": one.number, "total": one.total, "says": says,
        }  # fmt: skip
    if one.sorry:
        return payload | {"says": one.sorry}
    if one.stopped or not one.archive:
        return payload | {"says": "Stopped; no drawings were kept."}
    older = "" if one.design == desk.design else ", of the design as it stood then"
    return payload | {"says": f"{one.total} drawings are ready{older}.", "ready": True}


def taken(desk: Desk) -> tuple[str, bytes]:
    """Return file name and content of the drawings that are ready.

    Raises
    ------
    DesignRefused : where there are none.
    """
    one: Drafting | None = desk.drafting
    if one is None or one.running or not one.archive:
        raise DesignRefused("There are no drawings ready; make them first.")
    return f"{file_stem(one.design.name)} drawings.zip", one.archive
