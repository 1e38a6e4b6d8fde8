"""Decisions of several kinds, such as the gear or the wheel seat, and how to change over."""

from __future__ import annotations

import dataclasses
import typing
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

from ..design.document import CHAPTERS, Design, DesignRefused
from ..design.typed import Length
from ..sizes import Size, SizeError, sizes_of
from . import motion, wheels
from .rows import kinds_of
from .shelf import Shelf


def kinds_offered(design: Design) -> dict[str, tuple[tuple[str, str], ...]]:
    """Return the decisions that come in several kinds, by path, each with its (word, title)s."""
    return {
        path: tuple((str(kind.kind), _heading(kind)) for kind in kinds)  # type: ignore[attr-defined]
        for chapter in CHAPTERS
        for path, kinds in _choices(design.at(chapter), chapter)
    }


def changed_kind(design: Design, path: str, kind: str, shelf: Shelf) -> dict[str, Any]:
    """Return the changes, by path, that make a decision one of another kind.

    A gear is laid out for this engine, a wheel seat from its axle.  Anything else keeps the
    sizes that both kinds have, takes what is usual for the rest, and where nothing is usual
    follows a sample engine, brought to this track.

    Raises
    ------
    DesignRefused : when there is no such kind, or nothing to follow.
    """
    chosen = _kind(design, path, kind)
    if path == motion.GEAR:
        return motion.proposed_gear(design, kind)
    if path == motion.OTHER and kind != "none":
        return motion.proposed_other(design, kind)
    values = _kept(design.at(path), chosen)
    if path == wheels.SEAT:
        values |= wheels.usual_seat(design, kind)
    if missing := [one.name for one in _needed(chosen) if one.name not in values]:
        values |= _followed(design, path, kind, missing, shelf)
    try:
        return {path: chosen(**values)}
    except SizeError as refused:
        raise DesignRefused(str(refused)) from refused


def _kind(design: Design, path: str, kind: str) -> type:
    owner, _, name = path.rpartition(".")
    if path.split(".")[0] in CHAPTERS and owner:
        for one in kinds_of(type(design.at(owner)), name):
            if getattr(one, "kind", None) == kind:
                return one
    raise DesignRefused(f"“{kind[:60]}” is not one of the kinds offered here.")


def _choices(decisions: Any, path: str) -> Iterator[tuple[str, tuple[type, ...]]]:
    for one in dataclasses.fields(decisions):
        value, place = getattr(decisions, one.name), f"{path}.{one.name}"
        if not dataclasses.is_dataclass(value):
            continue
        if kinds := kinds_of(type(decisions), one.name):
            yield place, kinds
        yield from _choices(value, place)


def _heading(kind: Any) -> str:
    title = getattr(kind, "title", "") or str(kind.kind)
    return str(title[:1].upper() + title[1:])


def _kept(old: Any, kind: type) -> dict[str, Any]:
    """Return the sizes that mean the same in both kinds: same name, same words, same unit."""
    mine, theirs = sizes_of(kind), sizes_of(type(old))
    return {
        name: getattr(old, name)
        for name, about in mine.items()
        if name in theirs and _same(about, theirs[name])
    }


def _same(one: Size, other: Size) -> bool:
    return (one.label, one.unit) == (other.label, other.unit)


def _needed(kind: type) -> list[dataclasses.Field[Any]]:
    return [
        one
        for one in dataclasses.fields(typing.cast(Any, kind))
        if one.default is dataclasses.MISSING and one.default_factory is dataclasses.MISSING
    ]


def _followed(
    design: Design, path: str, kind: str, missing: list[str], shelf: Shelf
) -> dict[str, Any]:
    """Return sizes as they are on a sample engine with that kind, brought to this track."""
    best = min(
        (one for one in _samples(shelf) if getattr(_at(one, path), "kind", None) == kind),
        key=lambda one: abs(one.scale.track_gauge - design.scale.track_gauge),
        default=None,
    )
    if best is None:
        raise DesignRefused(f"No engine at hand shows how “{kind}” would be laid out here.")
    share = design.scale.track_gauge / best.scale.track_gauge
    model = best.at(path)
    abouts = sizes_of(type(model))
    return {
        name: round(float(value) * share, 2) if isinstance(value, Length) else value
        for name in missing
        if name in abouts
        for value in (getattr(model, name),)
    }


def _at(design: Design, path: str) -> Any:
    try:
        return design.at(path)
    except DesignRefused:
        return None


@lru_cache(maxsize=2)
def _samples(shelf: Shelf) -> tuple[Design, ...]:
    return tuple(shelf.sample(one.key) for one in shelf.samples())
