"""A page as plain data: what the browser needs to draw one chapter, and nothing of the others."""

from __future__ import annotations

import logging
from typing import Any

from ..design.document import CHAPTERS
from ..design.sentences import in_unit
from ..findings import Finding, Suggestion
from ..pictures.scene import Picture
from .asking import answer_pictures, asking_payload, map_pictures
from .chapters import PAGES, QUESTIONS, WHOLE, pictures_of, sentence_unit, titled
from .desk import Desk
from .kinds import kinds_offered
from .margin import cautions_of, figures_payload, findings_payload, workings_payload
from .measuring import fit_payload
from .rows import Around, sizes_payload
from .spelling import as_written, spelt
from .whole import whole_payload
from .wire import Numbers, pictures_payload
from .workshop import CHAPTER, of_design_text, shop_payload

Payload = dict[str, Any]
_log = logging.getLogger(__name__)


def view(desk: Desk, *, going_on: bool = False) -> tuple[Payload, bytes]:
    """Return the chapter before the builder as plain data, and the points of its pictures.

    Parameters
    ----------
    desk : the session.
    going_on : a slider is being dragged; what only matters when it rests is left out.
    """
    numbers = Numbers()
    payload: Payload = {
        "chapter": desk.chapter,
        "title": titled(desk.chapter),
        "head": head(desk, going_on=going_on),
        "says": desk.says,
        "keep": None if going_on else kept(desk),
    }
    desk.says = ""
    if desk.chapter == WHOLE.key:
        payload["whole"] = whole_payload(desk)
    elif desk.chapter == QUESTIONS.key:
        payload.update(questions_payload(desk, numbers))
    else:
        payload.update(chapter_payload(desk, desk.chapter, numbers))
        payload["shop"] = shop_payload(desk) if desk.chapter == CHAPTER else None
        panel = {"pivots": search_payload, "bench": fit_payload}.get(desk.chapter)
        payload["search"] = panel(desk) if panel is not None else None
        payload["asks"] = asking_payload(desk, on_steam=True) if desk.chapter == "steam" else None
        payload["beat"] = beat_payload(desk) if desk.chapter == "steam" else None
    return payload, numbers.raw()


def questions_payload(desk: Desk, numbers: Numbers) -> Payload:
    """Return the sheet of questions: buttons, answer and its pictures."""
    asks = asking_payload(desk, on_steam=False)
    pictures = pictures_payload(answer_pictures(desk), desk.unit, numbers, desk.unit)
    empty: Payload = {name: [] for name in ("cautions", "figures", "findings", "workings")}
    return {"sizes": {"main": [], "groups": []}, "pictures": pictures, "asks": asks, **empty}


def chapter_payload(desk: Desk, chapter: str, numbers: Numbers) -> Payload:
    """Return sizes, pictures, figures, findings and workings of one chapter."""
    result = getattr(desk.work, chapter, None)
    own = findings_of(desk, chapter)
    around = Around(
        page=desk.unit,
        suggestions=suggestions_of(desk),
        findings=desk.work.findings,
        wrong=desk.wrong,
        lines=desk.lines,
        kinds=kinds_offered(desk.design),
    )
    return {
        "sizes": sizes_payload(desk.design, chapter, around),
        "pictures": pictures_payload(
            drawn(desk, chapter), desk.unit, numbers, sentence_unit(chapter, desk.unit)
        ),
        "cautions": cautions_of(result, desk.unit),
        "figures": figures_payload(result, desk.unit),
        "findings": findings_payload(desk.design, own, desk.unit),
        "workings": workings_payload(getattr(result, "workings", ()), desk.unit, desk.unfolded),
    }


def drawn(desk: Desk, chapter: str) -> tuple[Picture, ...]:
    """Return the pictures of a chapter; none, and a line in the log, where they cannot be drawn."""
    result = getattr(desk.work, chapter, None)
    if result is None:
        return ()
    try:
        own = (desk.found.found, desk.found.map) if chapter == "pivots" and desk.found else ()
        mapped = map_pictures(desk) if chapter == "steam" else ()
        return (*pictures_of(chapter, desk.design.at(chapter), result, *own), *mapped)
    except Exception:
        # sizes and findings must stay in reach even when a drawing fails
        _log.exception("The pictures of %s could not be drawn", chapter)
        desk.says = "This chapter's pictures cannot be drawn with these sizes."
        return ()


def search_payload(desk: Desk) -> Payload:
    """Return how far a search has come, and in a sentence what it found."""
    one, found = desk.searching, desk.found
    payload: Payload = {"running": False, "tried": 0, "total": 0, "says": "", "takes": False}
    payload["may"] = getattr(desk.work.pivots, "moving", 0) > 0
    if found is not None and found.found is not None:
        result = found.found
        early = " Stopped before the end." if result.stopped else ""
        told = f"{result.tried:,} gears tried.{early} {result.worth.says}"
        if not result.tried:
            told = "Stopped before a gear was tried."
        payload |= {
            "says": in_unit(told, desk.unit),
            "takes": bool(result.moved),
        }
    elif one is not None and one.running:
        best = "" if one.best is None else f"; best so far {one.best:.2f} faults"
        payload |= {
            "running": True, "tried": one.tried, "total": one.total,
            "says": f"{one.tried:,} of {one.total:,} gears tried{best}" if one.tried
            else f"Getting ready to try {one.total:,} gears",
        }  # fmt: skip
    elif one is not None and one.sorry and one.belongs_to(desk.design):
        payload["says"] = one.sorry
    return payload


def beat_payload(desk: Desk) -> Payload | None:
    """Return the flow through the nozzle over a turn, from which the browser makes a sound."""
    result = getattr(desk.work, "steam", None)
    if result is None or not float(result.blast.max()) > 0:
        return None
    count = len(result.beats.at)
    return {
        "flow": [round(max(float(one), 0.0), 5) for one in result.blast],
        "turns": result.revolutions / 60,
        "says": f"{count} {'beat' if count == 1 else 'beats'} a turn, "
        f"{result.revolutions:.0f} turns a minute; how even it is, not how loud.",
    }


def findings_of(desk: Desk, chapter: str) -> tuple[Finding, ...]:
    """Return the findings that a chapter owns."""
    return tuple(one for one in desk.work.findings if one.chapter == chapter)


def suggestions_of(desk: Desk) -> dict[str, Suggestion]:
    """Return all suggestions by the path of the size that they are for."""
    return {
        one.field: one
        for chapter in CHAPTERS
        for one in getattr(getattr(desk.work, chapter, None), "suggestions", ())
    }


def head(desk: Desk, *, going_on: bool = False) -> Payload:
    """Return what stands on the tabs and in the title block."""
    counts = {page.key: {"stop": 0, "check": 0, "fine": 0} for page in PAGES}
    for one in desk.work.findings:
        if one.chapter in counts:
            counts[one.chapter][one.level] += 1
    scale = desk.design.scale
    track = as_written(scale.track_gauge, desk.unit)
    payload: Payload = {
        "name": desk.design.name,
        "scale": f"{spelt(scale.ratio, 'scale', desk.unit)} on {track}",
        "unit": desk.unit,
        "tabs": [
            {"key": page.key, "tab": page.tab, "within": page.within, **counts[page.key]}
            for page in PAGES
        ],
        "undoes": desk.history.undoes,
        "redoes": desk.history.redoes,
        "saved_as": desk.saved_as,
        "saved_at": desk.saved_at,
    }
    if not going_on:  # comparing two designs is not for every pixel of a drag
        payload["unsaved"] = len(desk.history.unsaved)
    return payload


def kept(desk: Desk) -> Payload:
    """Return what the browser keeps, so that the design comes back after it was closed."""
    return {
        "design": desk.autosaved(),
        "saved_as": desk.saved_as,
        "unit": desk.unit,
        "chapter": desk.chapter,
        "lists": of_design_text(desk),
    }
