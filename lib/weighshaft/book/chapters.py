"""One chapter of the design as a chapter of the book: decisions, numbers, findings, working."""

from __future__ import annotations

import dataclasses
import importlib
import re
from collections.abc import Iterator
from typing import Any

from ..design.changes import label_of, spelt
from ..design.document import Design, DesignRefused, described
from ..design.sentences import in_unit
from ..design.typed import LengthUnit, coordinate, spell
from ..findings import Finding
from ..job import Work
from ..pictures.scene import Picture, Table
from ..sheet import MEASURED, TITLES, figures_of, heading_of
from ..sizes import SizeError, sizes_of
from .blocks import Block, Formula, Grid, Judged, Section, Shown, Words
from .inches import read_out

LEFT_OPEN = "Left open, and what is proposed"
_DIGITS = 6
_POWER = re.compile(r"\b(mm|cm|m)([23])\b")
_DEGREES = re.compile(r"\bdegC\b")


def chapter(design: Design, work: Work, key: str, unit: LengthUnit) -> Section:
    """Return a chapter of the design.

    Parameters
    ----------
    key : such as "cylinders".
    unit : of the lengths shown, "mm" or "in"; what the builder typed stays as typed.
    """
    result = getattr(work, key)
    blocks: list[Block] = [*_decided(design, key, unit)]
    if result is None:
        blocks.append(Words("This chapter cannot be worked: see the findings."))
    else:
        blocks += [Words(_said(one, key, unit), "heed") for one in getattr(result, "cautions", ())]
        blocks += _left_open(design, result, unit)
        rows = tuple((label, signed(value)) for label, value in figures_of(result, unit))
        if rows:
            blocks.append(Grid("Numbers", ("figure", "value"), rows))
    blocks += [
        judged(one, unit) for one in work.findings if one.chapter == key and one.level != "fine"
    ]
    fine = [judged(one, unit) for one in work.findings if (one.chapter, one.level) == (key, "fine")]
    if result is not None:
        made = importlib.import_module(f"weighshaft.pictures.{key}").pictures(
            getattr(design, key), result
        )
        blocks += [_pictured(one, key, unit) for one in made]
    blocks += fine
    workings = tuple(getattr(result, "workings", ()))
    if workings:
        blocks.append(Words("Working", "head"))
        blocks += [Formula(one, with_unit(one.result, one.unit, unit)) for one in workings]
    return Section(key, TITLES[key], tuple(blocks))


def judged(finding: Finding, unit: LengthUnit, about: str = "") -> Judged:
    """Return a finding as it stands in the book."""
    parts = [part for part in (finding.says, finding.mend) if part]
    said = " ".join(part if part.endswith((".", "!", "?")) else f"{part}." for part in parts)
    text = about + _said(said, finding.chapter, unit)
    return Judged(finding.level, signed(text), signed(finding.source))


def _said(text: str, key: str, unit: LengthUnit) -> str:
    return in_unit(text, unit) if key in MEASURED else text


def with_unit(value: float, about: str, unit: LengthUnit) -> str:
    """Return a worked-out value with its unit."""
    if about == "mm":
        return f"{spell(value, unit, None if unit == 'in' else 3)} {unit}"
    text = f"{value:.{_DIGITS - 1}g}"
    if "e" in text:
        text = f"{value:.4g}"
    words = {"deg": "°", "ratio": "", "count": "", "scale": "", "text": ""}
    return f"{text}{words.get(about, f' {signed(about)}')}"


def signed(text: str) -> str:
    """Return words whose units are spelt with the signs that print has."""
    return _DEGREES.sub("°C", _POWER.sub(lambda found: found[1] + "²³"[int(found[2]) - 2], text))


def _pictured(picture: Picture, key: str, unit: LengthUnit) -> Block:
    picture = read_out(picture, key, unit)
    if isinstance(picture, Table):
        return gridded(picture, unit)
    return Shown(picture, _said(picture.says, key, unit))


def gridded(table: Table, unit: LengthUnit) -> Grid:
    """Return a table of the page with its lengths spelt in a unit."""
    lengths = [
        any(not isinstance(row[i], str) for row in table.rows) for i in range(len(table.columns))
    ]

    def cell(value: str | float) -> str:
        if isinstance(value, str):
            return value
        return coordinate(float(value), unit) if table.fine else spell(float(value), unit)

    columns = tuple(
        (f"{name}, {unit}" if name else unit) if one and not name.endswith((" mm", " in")) else name
        for name, one in zip(table.columns, lengths, strict=True)
    )
    rows = tuple(tuple(map(cell, row)) for row in table.rows)
    return Grid(table.title, columns, rows, table.note)


# --- what was decided -----------------------------------------------------------------------


def _decided(design: Design, key: str, unit: LengthUnit) -> Iterator[Grid]:
    rows = tuple(_rows(design, getattr(design, key), key, unit))
    if rows:
        yield reasoned("Decided", rows)


def reasoned(title: str, rows: tuple[tuple[str, str, str], ...]) -> Grid:
    """Return a table of decisions, with a column for the reasons where there are any."""
    if any(why for *_, why in rows):
        return Grid(title, ("decision", "value", "why"), rows)
    return Grid(title, ("decision", "value"), tuple(row[:2] for row in rows))


def _rows(
    design: Design, group: Any, path: str, unit: LengthUnit
) -> Iterator[tuple[str, str, str]]:
    """Yield the decisions of a group; those of a group within it under its heading."""
    groups: list[tuple[str, str, Any]] = []
    abouts = sizes_of(type(group))
    for one in dataclasses.fields(group):
        value, at = getattr(group, one.name), f"{path}.{one.name}"
        if dataclasses.is_dataclass(value):
            groups.append((heading_of(value), at, value))
        elif isinstance(value, tuple) and any(map(dataclasses.is_dataclass, value)):
            name = abouts[one.name].label if one.name in abouts else heading_of(value[0])
            groups += [(f"{name} {n + 1}", f"{at}.{n}", part) for n, part in enumerate(value)]
        elif one.name in abouts and value not in (None, "", ()):
            about = abouts[one.name]
            yield about.label, signed(spelt(value, about, unit)), reason(design, at)
        elif at in design.notes:
            yield label_of(design, at), "left open", reason(design, at)
    titles = [heading for heading, *_ in groups]
    for heading, at, inner in groups:
        if titles.count(heading) > 1:  # two trucks, the leading and the trailing
            heading = named_apart(heading, at)
        rows = list(_rows(design, inner, at, unit))
        if rows:
            yield heading, "", design.notes.get(at, "")
            yield from rows


def _within(design: Design, chain: list[str]) -> str:
    """Return the heading of the group at a path, told apart from others that are called alike."""
    outer = design.at(".".join(chain[:-1]))
    named = dataclasses.fields(outer) if dataclasses.is_dataclass(outer) else ()
    within = [getattr(outer, one.name) for one in named]
    titles = [heading_of(one) for one in within if dataclasses.is_dataclass(one)]
    heading = heading_of(design.at(".".join(chain)))
    return named_apart(heading, chain[-1]) if titles.count(heading) > 1 else heading


def named_apart(heading: str, path: str) -> str:
    """Return the heading of a group with the name of its field, such as "Truck, leading"."""
    return f"{heading}, {path.rpartition('.')[2].replace('_', ' ')}"


def reason(design: Design, path: str) -> str:
    """Return why the builder decided so, as noted."""
    note = design.notes.get(path, "")
    bought = "settled by a bought part" if path in design.fixed else ""
    return "; ".join(one for one in (note, bought) if one)


def _left_open(design: Design, result: Any, unit: LengthUnit) -> Iterator[Grid]:
    """Yield what was taken for sizes that the builder left empty."""
    rows = []
    for one in getattr(result, "suggestions", ()):
        try:
            if design.at(one.field) is not None:
                continue
            about = described(design, one.field)
        except (DesignRefused, SizeError, KeyError):
            continue
        *chain, _ = one.field.split(".")
        # several joints have a thread, and several parts a length
        within = f"{_within(design, chain)}: " if len(chain) > 1 else ""
        why = _said(one.why, one.field.split(".")[0], unit)
        value = signed(spelt(one.value, about, unit))
        rows.append((f"{within}{about.label}", value, signed(why)))
    if rows:
        yield Grid(LEFT_OPEN, ("decision", "value", "why"), tuple(rows))
