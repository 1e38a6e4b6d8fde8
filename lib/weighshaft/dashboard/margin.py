"""What stands in the margin of a chapter: findings, key figures and the working behind them."""

from __future__ import annotations

import dataclasses
import logging
from collections.abc import Collection
from typing import Any

from ..design.document import Design, DesignRefused, described
from ..design.sentences import in_unit
from ..design.typed import LengthUnit
from ..findings import Finding, by_level
from ..sizes import Size, sizes_of
from ..working import Working
from .chapters import sentence_unit
from .spelling import spelt, unit_word, with_unit

Payload = dict[str, Any]
_log = logging.getLogger(__name__)
NOTHING = "–"
"""For a figure that is not known, or does not occur: "none" would read as a measure of nought."""


def about(design: Design, path: str) -> Size | None:
    """Return what is known of the decision at a path, or nothing where there is none."""
    try:
        return described(design, path)
    except (DesignRefused, KeyError, IndexError, TypeError):
        return None


def findings_payload(
    design: Design, findings: tuple[Finding, ...], page: LengthUnit
) -> list[Payload]:
    """Return findings as plain data, the worst first, each with what it lights on the page."""
    return [_finding(design, one, page) for one in by_level(findings)]


def _finding(design: Design, finding: Finding, page: LengthUnit) -> Payload:
    words = sentence_unit(finding.chapter, page)
    labels = [size.label for path in finding.fields if (size := about(design, path))]
    return {
        "level": finding.level,
        "chapter": finding.chapter,
        "says": in_unit(finding.says, words),
        "mend": in_unit(finding.mend, words),
        "source": finding.source,
        "fields": list(finding.fields),
        "labels": labels,
        "change": _change(design, finding, page),
    }


def _change(design: Design, finding: Finding, page: LengthUnit) -> Payload | None:
    if finding.change is None:
        return None
    path, value = finding.change
    size = about(design, path)
    if size is None:
        return None
    text = spelt(value, size.unit, page)
    says = f"Set {_lowered(size.label)} to {with_unit(value, size.unit, page)}"
    return {"path": path, "text": text, "says": says}


def _lowered(label: str) -> str:
    """Begin a label with a small letter, unless it begins with an abbreviation such as BA."""
    return label if label[:2].isupper() else label[:1].lower() + label[1:]


def cautions_of(result: Any, page: LengthUnit) -> list[str]:
    """Return what to heed before a chapter is put to use, where it says so."""
    return [in_unit(one, page) for one in getattr(result, "cautions", ())]


def figures_payload(result: Any, page: LengthUnit) -> list[Payload]:
    """Return the figures of a result, those that matter most marked as such."""
    if result is None or not dataclasses.is_dataclass(result):
        return []
    figures = []
    for name, size in sizes_of(type(result)).items():
        value = getattr(result, name)
        if value is None and not size.main:
            continue
        if isinstance(value, tuple) and (not value or not isinstance(value[0], (int, float, str))):
            continue
        shown = NOTHING if value is None else spelt(value, size.unit, page)
        figures.append(
            {
                "name": name, "label": size.label, "text": shown, "help": size.help,
                "unit": "" if value is None else unit_word(size.unit, page), "main": size.main,
            }
        )  # fmt: skip
    return figures


def workings_payload(
    workings: tuple[Working, ...], page: LengthUnit, unfolded: Collection[str]
) -> list[Payload]:
    """Return the workings; the mathematics only of those that the builder has unfolded."""
    return [
        {
            "label": one.label,
            "result": with_unit(one.result, one.unit, page),
            "source": one.relation.source,
            "math": _mathematics(one) if one.label in unfolded else None,
        }
        for one in workings
    ]


def _mathematics(working: Working) -> list[str]:
    """Return the relation in symbols and in numbers as MathML."""
    from latex2mathml.converter import convert

    try:
        return [
            str(convert(tex, display="block"))
            for tex in (working.in_symbols(), working.in_numbers())
        ]
    except Exception:
        # a working that cannot be set as mathematics must not take its chapter with it
        _log.exception("The working “%s” could not be set", working.label)
        return []
