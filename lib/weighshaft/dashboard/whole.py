"""The whole design on one page: leading particulars with their status, notes, changes, files."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

from ..design.changes import label_of
from ..design.file import LARGEST
from .chapters import CHAPTERS, sentence_unit
from .drafting import drafting_payload
from .margin import cautions_of, figures_payload, findings_payload
from .rows import Around, sizes_payload
from .wire import Numbers, pictures_payload

if TYPE_CHECKING:
    from .desk import Desk

Payload = dict[str, Any]


def whole_payload(desk: Desk) -> Payload:
    """Return the whole design as plain data."""
    return {
        "particulars": [particulars(desk, chapter.key) for chapter in CHAPTERS],
        "findings": findings_payload(desk.design, desk.work.findings, desk.unit),
        "notes": [
            {"path": path, "label": label_of(desk.design, path), "text": text}
            for path, text in desk.design.notes.items()
        ],
        "changes": [
            {"label": one.label, "before": one.before, "after": one.after}
            for one in desk.history.unsaved
        ],
        "files": files(desk),
        "drawings": drafting_payload(desk),
    }


def particulars(desk: Desk, chapter: str) -> Payload:
    """Return the decisions and the key figures of a chapter, each with its status."""
    from .view import suggestions_of

    around = Around(page=desk.unit, suggestions=suggestions_of(desk), findings=desk.work.findings)
    sizes = sizes_payload(desk.design, chapter, around)
    figures = figures_payload(getattr(desk.work, chapter, None), desk.unit)
    return {
        "key": chapter,
        "title": next(one.title for one in CHAPTERS if one.key == chapter),
        "rows": [_decision(row) for row in (*sizes["main"], *_all_rows(sizes["groups"]))],
        "main": len(sizes["main"]),
        "figures": [one for one in figures if one["main"]],
    }


def _all_rows(groups: list[Payload], heading: str = "") -> list[Payload]:
    rows = []
    for group in groups:
        title = group["title"] if group["title"] != "Further sizes" else heading
        rows += [{**row, "group": title} for row in group["rows"]]
        rows += _all_rows(group["groups"], title)
    return rows


def _decision(row: Payload) -> Payload:
    text = row["text"]
    if row["kind"] == "several":
        text = ", ".join(item["text"] for item in row["items"])
    elif row["kind"] == "yes/no":
        text = text or "no"
    unknown = text == ""
    if unknown and row["suggest"]:
        text = f"{row['suggest']['text']} (as suggested)"
    status = {"stop": "stop", "check": "check"}.get(row["level"], "")
    return {
        "path": row["path"],
        "label": row["label"],
        "group": row.get("group", ""),
        "text": text or "unknown",
        "unit": "" if unknown else row["unit"],
        "typed": row["typed"],
        "status": status or ("bought" if row["fixed"] else "open" if unknown else "decided"),
    }


def files(desk: Desk) -> Payload:
    """Return what can be opened, and where designs are saved."""
    return {
        "folder": str(desk.shelf.folder),
        "saved_as": desk.saved_as,
        "designs": [{"key": one.key, "saved": one.saved} for one in desk.shelf.designs()],
        "samples": [{"key": one.key, "name": one.name} for one in desk.shelf.samples()],
        "largest": LARGEST,
    }


def paper_payload(desk: Desk) -> tuple[Payload, bytes]:
    """Return the whole design for the printer: every chapter's figures, findings and pictures."""
    from .view import drawn, findings_of, head

    numbers = Numbers()
    chapters = [
        {
            **particulars(desk, chapter.key),
            "pictures": pictures_payload(
                drawn(desk, chapter.key),
                desk.unit,
                numbers,
                sentence_unit(chapter.key, desk.unit),
            ),
            "cautions": cautions_of(getattr(desk.work, chapter.key, None), desk.unit),
            "findings": findings_payload(desk.design, findings_of(desk, chapter.key), desk.unit),
        }
        for chapter in CHAPTERS
    ]
    notes = whole_payload(desk)["notes"]
    return {"head": head(desk), "chapters": chapters, "notes": notes}, numbers.raw()
