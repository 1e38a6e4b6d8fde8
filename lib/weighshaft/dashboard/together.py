"""Decisions that have to change at the same moment, since one without the other is refused."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping
from typing import Any

from ..design.document import CHAPTERS, Design, DesignRefused
from ..sizes import SizeError


def put(design: Design, changes: Mapping[str, Any]) -> Design:
    """Return the design with several decisions replaced, those of a chapter all at once.

    Parameters
    ----------
    changes : by path; values as the engineering takes them.

    Raises
    ------
    DesignRefused : when together they do not agree either.
    """
    try:
        for chapter in CHAPTERS:
            if own := _under(chapter, changes):
                made = _replaced(getattr(design, chapter), own)
                design = dataclasses.replace(design, **{chapter: made})
    except SizeError as refused:
        raise DesignRefused(str(refused)) from refused
    return design


def _under(name: str, changes: Mapping[str, Any]) -> dict[str, Any]:
    start = f"{name}."
    return {p.removeprefix(start): one for p, one in changes.items() if p.startswith(start)}


def _replaced(decisions: Any, changes: Mapping[str, Any]) -> Any:
    made: dict[str, Any] = {}
    for path, value in changes.items():
        name, _, rest = path.partition(".")
        if not rest:
            made[name] = value
        elif name not in made:
            made[name] = _replaced(getattr(decisions, name), _under(name, changes))
    return dataclasses.replace(decisions, **made)
