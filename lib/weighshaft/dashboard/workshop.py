"""The builder's own workshop on the page: kept by the browser, taken for every design opened."""

from __future__ import annotations

from dataclasses import dataclass
from typing import TYPE_CHECKING, Any

from ..design import workshop as own
from ..design.document import Design, DesignRefused
from ..design.file import LARGEST
from ..design.workshop import Workshop, with_workshop, workshop_of
from .shelf import file_stem

if TYPE_CHECKING:
    from .desk import Desk

Payload = dict[str, Any]
CHAPTER = "machines"
"""The sheet on which the lists stand."""


@dataclass
class Shop:
    """What the desk knows of workshops.

    Parameters
    ----------
    kept : this visitor's own; None while none has been kept.
    of_design : the lists that the design had before the workshop's were taken; None where
        they were not.
    """

    kept: Workshop | None = None
    of_design: Workshop | None = None


def greeted(desk: Desk, kept: str, of_design: str, *, restored: bool) -> str:
    """Take up what the browser had kept; return what is wrong with it, in a sentence.

    Parameters
    ----------
    kept, of_design : workshop files as text; empty for none.
    restored : the design came back as it was left, with whatever lists were in use.
    """
    try:
        desk.shop = Shop(_read(kept), _read(of_design) if restored else None)
    except DesignRefused as refused:
        desk.shop = Shop()
        return f"The workshop that this browser had kept cannot be used: {refused}"
    if not restored:
        began(desk)
    return ""


def _read(text: str) -> Workshop | None:
    return own.from_bytes(text.encode("utf-8", "surrogatepass")) if text else None


def began(desk: Desk) -> None:
    """Lay the kept workshop's lists beside a design that has just been opened."""
    desk.shop.of_design = None
    says = desk.says
    if desk.shop.kept is None or _same(desk.design, desk.shop.kept):
        return
    try:
        use(desk)
    except DesignRefused:
        # with the design's own lists it worked, so it is not lost
        desk.says = "This design cannot be worked with your workshop's lists; it keeps its own."
        return
    desk.says = f"{says} With the lists of your workshop; Undo brings its own back.".strip()


def use(desk: Desk) -> None:
    """Take the lists of the kept workshop."""
    if desk.shop.kept is None:
        raise DesignRefused("No workshop has been kept yet.")
    before = workshop_of(desk.design)
    desk.take(with_workshop(desk.design, desk.shop.kept), "Lists of your workshop")
    desk.shop.of_design = before
    desk.says = "These are the lists of your workshop."


def use_of_design(desk: Desk) -> None:
    """Go back to the lists that the design had."""
    if desk.shop.of_design is None:
        raise DesignRefused("This design has no other lists of its own.")
    desk.take(with_workshop(desk.design, desk.shop.of_design), "Lists of this design")
    desk.shop.of_design = None
    desk.says = "These are the lists of this design again."


def keep(desk: Desk) -> str:
    """Keep the lists in use as this visitor's workshop; return its file for the browser."""
    name = desk.shop.kept.name if desk.shop.kept else Workshop.name
    desk.shop.kept = workshop_of(desk.design, name)
    return own.to_bytes(desk.shop.kept).decode()


def forget(desk: Desk) -> None:
    """Keep no workshop any more; the lists in use stay."""
    desk.shop.kept = None
    desk.says = "No workshop is kept any more; the lists in use stay with this design."


def upload(desk: Desk, text: str) -> str:
    """Take a workshop file that the builder brought, and keep it; return it for the browser."""
    brought = own.from_bytes(text.encode("utf-8", "surrogatepass"))
    before = desk.shop.kept
    desk.shop.kept = brought
    try:
        if not _same(desk.design, brought):
            use(desk)
    except DesignRefused:
        desk.shop.kept = before
        raise
    desk.says = f"Opened “{brought.name}”: its lists are in use, and kept as your workshop."
    return own.to_bytes(brought).decode()


def download(desk: Desk) -> tuple[str, str]:
    """Return the name of a workshop file with the lists in use, and what stands in it."""
    name = desk.shop.kept.name if desk.shop.kept else Workshop.name
    text = own.to_bytes(workshop_of(desk.design, name)).decode()
    return f"{file_stem(name)}{own.SUFFIX}", text


def shop_payload(desk: Desk) -> Payload:
    """Return which lists are in use, and what can be done about it."""
    kept, yours = desk.shop.kept, False
    if kept is None:
        says = "Lists of this design. No workshop of yours has been kept."
    elif _same(desk.design, kept):
        yours = True
        says = "Lists of your workshop."
    else:
        says = "Lists of this design; those of your workshop are others."
    other = desk.shop.of_design
    return {
        "says": says,
        "kept": kept is not None,
        "use": kept is not None and not yours,
        "back": yours and other is not None and not _same(desk.design, other),
        "largest": LARGEST,
    }


def of_design_text(desk: Desk) -> str:
    """Return the design's own lists for the browser to keep; empty where they are in use."""
    one = desk.shop.of_design
    return "" if one is None else own.to_bytes(one).decode()


def _same(design: Design, workshop: Workshop) -> bool:
    return (design.machines, design.threads.rack) == (workshop.machines, workshop.drills)
