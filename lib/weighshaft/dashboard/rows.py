"""The sizes of a chapter as the page lists them: plain data, made from the decisions' metadata."""

from __future__ import annotations

import dataclasses
import types
import typing
from collections.abc import Iterator, Mapping, MutableMapping
from dataclasses import dataclass, field
from functools import cache
from typing import Any, Union

from ..design.document import Design
from ..design.sentences import in_unit
from ..design.typed import LengthUnit
from ..findings import Finding, Suggestion
from ..sizes import Size, sizes_of
from .chapters import sentence_unit
from .motion import idle
from .sliders import Slider, shown, slider
from .spelling import as_typed, in_box, names_unit, unit_word, with_unit

Payload = dict[str, Any]
MOST_MAIN = 6
LONGEST_TUPLE = 60
ACTS = {
    "motion.wanted": {"do": "fit", "says": "Fit the gear to these events"},
    "pivots.mapped": {"do": "draw_map", "says": "Draw the map over these"},
    "beside.gear": {"do": "copy_gear", "says": "Begin with a copy of the engine's gear"},
}
"""What a group of sizes can be told to do: the message and the words of its button."""
LONGEST_OWNER = 12  # letters; the title of a longer group would drown the size's own name


@dataclass(frozen=True)
class Wrong:
    """What was typed for a size and could not be used, and the sentence about it."""

    text: str
    says: str


@dataclass(frozen=True, kw_only=True)
class Around:
    """What surrounds the sizes of a chapter on the page."""

    page: LengthUnit
    suggestions: Mapping[str, Suggestion] = field(default_factory=dict)
    findings: tuple[Finding, ...] = ()
    wrong: Mapping[str, Wrong] = field(default_factory=dict)
    lines: MutableMapping[tuple[str, LengthUnit], Slider] = field(default_factory=dict)
    kinds: Mapping[str, tuple[tuple[str, str], ...]] = field(default_factory=dict)


def sizes_payload(design: Design, chapter: str, around: Around) -> Payload:
    """Return the sizes of a chapter: the main ones, then the groups that the page folds."""
    whole = _group(design, design.at(chapter), chapter, "", around)
    main = [row for row in _rows_of(whole) if row["main"]][:MOST_MAIN]
    for row in main:
        # "Track gauge" alone would not say that it is the prototype's
        row["group"] = _owner(whole, row["path"])
    chosen = {row["path"] for row in main}
    _without(whole, chosen)
    groups = whole["groups"]
    if whole["rows"]:
        rest = {**whole, "title": "Further sizes", "groups": [], "path": f"{chapter}:rest"}
        groups = [rest, *groups]
    for group in groups:
        _count(group)
    kept = [one for one in groups if one["count"] or one["kinds"] or one["more"]]
    return {"main": main, "groups": kept}


def _group(design: Design, decisions: Any, path: str, title: str, around: Around) -> Payload:
    rows: list[Payload] = []
    groups: list[Payload] = []
    owner = type(decisions)
    abouts = sizes_of(owner)
    without = idle(design)
    for one in dataclasses.fields(decisions):
        value, place = getattr(decisions, one.name), f"{path}.{one.name}"
        if place in without:
            continue
        about = abouts.get(one.name)
        if dataclasses.is_dataclass(value):
            name = about.label if about else _title(value, one.name)
            groups.append(_group(design, value, place, name, around))
        elif isinstance(value, tuple) and element_of(owner, one.name):
            least = least_of(owner, one.name)
            groups.append(_series(design, value, place, one.name, about, around, least))
        elif about is not None:
            optional = _optional(owner, one.name)
            growing = isinstance(value, tuple) and is_open_tuple(owner, one.name)
            rows.append(_row(design, place, value, about, optional, growing, around))
    return {
        "title": title,
        "path": path,
        "rows": rows,
        "groups": groups,
        "kind": getattr(decisions, "kind", ""),
        "kinds": [{"kind": kind, "label": label} for kind, label in around.kinds.get(path, ())],
        "more": "",
        "fewer": "",
        "act": ACTS.get(path),
    }


def _series(
    design: Design,
    several: tuple[Any, ...],
    path: str,
    name: str,
    about: Size | None,
    around: Around,
    least: int,
) -> Payload:
    """A tuple of groups, such as the collars along an axle: one folded group each."""
    title = about.label if about else _words(name)
    groups = []
    for index, one in enumerate(several):
        named = getattr(one, "name", None)
        heading = str(named) if named else f"{_title(one, name)} {index + 1}"
        if told := getattr(one, "told", ""):
            heading = f"{heading}: {in_unit(told, around.page)}"
        group = _group(design, one, f"{path}.{index}", heading, around)
        group["fewer"] = f"{path}.{index}" if len(several) > least else ""
        groups.append(group)
    more = path if len(several) < LONGEST_TUPLE else ""
    return {
        "title": title, "path": path, "rows": [], "groups": groups, "kind": "", "kinds": [],
        "more": more, "fewer": "",
    }  # fmt: skip


def _row(
    design: Design,
    path: str,
    value: Any,
    about: Size,
    optional: bool,
    growing: bool,
    around: Around,
) -> Payload:
    suggestion = around.suggestions.get(path)
    wrong = around.wrong.get(path)
    text = in_box(value, about, around.page)
    row: Payload = {
        "path": path,
        "label": about.label,
        "unit": "" if names_unit(text, about) else unit_word(about.unit, around.page),
        "kind": _kind(about, value),
        "main": about.main,
        "help": about.help,
        "text": text,
        "typed": as_typed(value, about, around.page),
        "optional": optional,
        "choices": list(about.choices),
        "suggest": _suggested(suggestion, about, value, around.page, path),
        "line": None,
        "wrong": {"text": wrong.text, "says": wrong.says} if wrong else None,
        "fixed": path in design.fixed,
        "note": design.notes.get(path, ""),
        "level": _level(path, around.findings),
    }
    if row["kind"] == "several":
        row["items"] = [_item(path, i, one, about, around) for i, one in enumerate(value)]
        begun = bool(value) or about.first is not None
        row["open"] = growing and begun and len(value) < LONGEST_TUPLE
        row["least"] = 1 if about.first is None else 0
        row["words"] = about.unit == "text"
    elif row["kind"] == "yes/no":
        row["text"] = "yes" if value else ""
    elif row["kind"] == "number":
        row["line"] = _line(path, value, about, suggestion, around)
    return row


def _item(path: str, index: int, value: Any, about: Size, around: Around) -> Payload:
    place = f"{path}.{index}"
    wrong = around.wrong.get(place)
    return {
        "path": place,
        "text": in_box(value, about, around.page),
        "wrong": {"text": wrong.text, "says": wrong.says} if wrong else None,
    }


def _kind(about: Size, value: Any) -> str:
    if isinstance(value, tuple):
        return "several"
    if about.unit in ("choice", "text", "yes/no"):
        return about.unit
    return "number"


def _suggested(
    suggestion: Suggestion | None, about: Size, value: Any, page: LengthUnit, path: str
) -> Payload | None:
    if suggestion is None or isinstance(value, tuple):
        return None
    text = with_unit(suggestion.value, about.unit, page)
    same = value is not None and with_unit(value, about.unit, page) == text
    number = isinstance(suggestion.value, (int, float)) and not isinstance(suggestion.value, bool)
    at = shown(float(suggestion.value), about, page) if number else None
    why = in_unit(suggestion.why, sentence_unit(path.split(".")[0], page))
    return {"text": text, "at": at, "why": why, "same": same}


def _line(
    path: str, value: Any, about: Size, suggestion: Suggestion | None, around: Around
) -> Payload | None:
    near = suggestion.value if suggestion else None
    near = float(near) if isinstance(near, (int, float)) else None
    base = near if value is None else float(value)
    if base is None:
        return None
    at = shown(base, about, around.page)
    key = (path, around.page)
    line = around.lines.get(key)
    # a line keeps its limits while it is dragged, else the handle would run away
    if line is None or not line.holds(at):
        line = slider(base, about, around.page, near)
        if line is None:
            return None
        around.lines[key] = line
    return {"low": line.low, "high": line.high, "step": line.step, "at": at}


def _level(path: str, findings: tuple[Finding, ...]) -> str:
    levels = {finding.level for finding in findings if path in finding.fields}
    return next((level for level in ("stop", "check") if level in levels), "")


# --- the tree of groups ------------------------------------------------------------------


def _rows_of(group: Payload) -> Iterator[Payload]:
    yield from group["rows"]
    for inner in group["groups"]:
        yield from _rows_of(inner)


def _owner(group: Payload, path: str) -> str:
    for inner in group["groups"]:
        if any(row["path"] == path for row in inner["rows"]):
            return inner["title"] if len(inner["title"]) <= LONGEST_OWNER else ""
        if owner := _owner(inner, path):
            return owner
    return ""


def _without(group: Payload, paths: set[str]) -> None:
    group["rows"] = [row for row in group["rows"] if row["path"] not in paths]
    for inner in group["groups"]:
        _without(inner, paths)


def _count(group: Payload) -> int:
    group["groups"] = [
        inner for inner in group["groups"] if _count(inner) or inner["kinds"] or inner["more"]
    ]
    group["count"] = len(group["rows"]) + sum(inner["count"] for inner in group["groups"])
    return int(group["count"])


def _title(decisions: Any, name: str) -> str:
    return str(getattr(type(decisions), "title", "") or _words(name))


def _words(name: str) -> str:
    return name.replace("_", " ").capitalize()


@cache
def _hints(kind: type) -> dict[str, Any]:
    return typing.get_type_hints(kind)


def _optional(kind: type, name: str) -> bool:
    return type(None) in typing.get_args(_hints(kind)[name])


def kinds_of(kind: type, name: str) -> tuple[type, ...]:
    """Return the dataclasses among which a field of decisions chooses; empty for one kind."""
    hint = _hints(kind)[name]
    if typing.get_origin(hint) not in (Union, types.UnionType):
        return ()
    kinds = tuple(one for one in typing.get_args(hint) if dataclasses.is_dataclass(one))
    return kinds if len(kinds) > 1 else ()  # type: ignore[return-value]


def element_of(kind: type, name: str) -> type | None:
    """Return the dataclass of which a field of decisions holds a list, if it holds one."""
    args = typing.get_args(_hints(kind)[name])
    if typing.get_origin(_hints(kind)[name]) is tuple and dataclasses.is_dataclass(args[0]):
        return typing.cast(type, args[0])
    return None


def least_of(kind: type, name: str) -> int:
    """Return how many a list has to keep: none where a design may do without any."""
    (field_,) = (one for one in dataclasses.fields(kind) if one.name == name)
    return 0 if field_.default == () else 1


def is_open_tuple(kind: type, name: str) -> bool:
    """Whether a field is a tuple of any length, so that the page may add to it."""
    hint = _hints(kind)[name]
    args = typing.get_args(hint)
    return typing.get_origin(hint) is tuple and args[-1] is Ellipsis
