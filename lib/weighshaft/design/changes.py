"""What differs between two designs, field by field, in the builder's words."""

from __future__ import annotations

import dataclasses
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from ..sizes import Size, sizes_of
from .document import CHAPTERS, Design
from .typed import Angle, Length, LengthUnit, ScaleRatio, spell

UNKNOWN = "not known"
_BARE = ("ratio", "count", "scale", "text", "choice", "yes/no")


@dataclass(frozen=True)
class Change:
    """One decision that differs.

    Parameters
    ----------
    path : of the decision, such as "motion.gear.advance".
    label : its name in the trade's words.
    before, after : the two values as the builder would write them.
    """

    path: str
    label: str
    before: str
    after: str

    def __str__(self) -> str:
        return f"{self.label}: {self.before} → {self.after}"


def changes(before: Design, after: Design) -> tuple[Change, ...]:
    """Return every decision, note and mark in which two designs differ, in the page's order.

    A size that was only spelt anew (7.9375 mm as 5/16 in) counts: the file changes by it.
    """
    found: list[Change] = []
    if before.name != after.name:
        found.append(Change("name", "Name", before.name, after.name))
    for chapter in CHAPTERS:
        found += _between(chapter, chapter, getattr(before, chapter), getattr(after, chapter))
    for path in sorted({*before.notes, *after.notes}):
        old, new = before.notes.get(path, ""), after.notes.get(path, "")
        if old != new:
            label = f"Note on {label_of(after, path)}"
            found.append(Change(f"notes.{path}", label, old or "none", new or "none"))
    for path in sorted({*before.fixed} ^ {*after.fixed}):
        words = ("free", "fixed by a part")
        old, new = words if path in after.fixed else words[::-1]
        found.append(Change(f"fixed.{path}", label_of(after, path), old, new))
    return tuple(found)


def label_of(design: Design, path: str) -> str:
    """Return the name of the decision at `path` in the trade's words; the path if it has none."""
    *chain, last = path.split(".")
    while last.isdigit() and chain:
        *chain, last = chain
    place: Any = design
    try:
        for step in chain:
            place = place[int(step)] if isinstance(place, tuple) else getattr(place, step)
        return _label(place, last)
    except (AttributeError, IndexError, ValueError):
        return path


def spelt(value: Any, about: Size | None = None, unit: LengthUnit = "mm") -> str:
    """Return a value as a builder writes it: as typed, or with its unit.

    Parameters
    ----------
    value : a decision or a figure.
    about : what is known of its field.
    unit : in which lengths that were not typed are shown, "mm" or "in".
    """
    if value is None:
        return UNKNOWN
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, str):
        return value
    if isinstance(value, tuple):
        return ", ".join(spelt(one, about, unit) for one in value) or "none"
    if dataclasses.is_dataclass(value):
        return title_of(value)
    typed = value.typed if isinstance(value, (Length, Angle, ScaleRatio)) else None
    if typed is not None and not _is_bare(typed):
        return typed
    if about is None or about.unit in _BARE:
        if about is not None and about.unit == "scale":
            return f"1:{typed or format(value, '.6g')}"
        return typed or f"{value:.6g}"
    if about.unit == "mm" and typed is None:
        return f"{spell(value, unit, None if unit == 'in' else 3)} {unit}"
    sign = "°" if about.unit == "deg" else f" {about.unit}"
    return f"{typed or format(value, '.6g')}{sign}"


def title_of(value: Any) -> str:
    """Return what a group of decisions is called."""
    kind = type(value)
    return str(getattr(kind, "title", None) or getattr(kind, "kind", None) or kind.__name__)


def _is_bare(typed: str) -> bool:
    return all(sign in "0123456789.+-/ " for sign in typed)


def _label(place: Any, name: str) -> str:
    about = sizes_of(type(place)).get(name)
    if about is not None:
        return about.label
    inner = getattr(place, name)
    if dataclasses.is_dataclass(inner) and getattr(type(inner), "title", None):
        return title_of(inner)
    return name.replace("_", " ").capitalize()


def _between(
    path: str, label: str, old: Any, new: Any, about: Size | None = None
) -> Iterator[Change]:
    if dataclasses.is_dataclass(old) and type(old) is type(new):
        for one in dataclasses.fields(old):
            yield from _between(
                f"{path}.{one.name}",
                _label(new, one.name),
                getattr(old, one.name),
                getattr(new, one.name),
                sizes_of(type(old)).get(one.name),
            )
    elif _is_list(old) and _is_list(new) and len(old) == len(new):
        for i, pair in enumerate(zip(old, new, strict=True)):
            yield from _between(f"{path}.{i}", f"{label} {i + 1}", *pair, about)
    elif _differ(old, new):
        yield Change(path, label, spelt(old, about), spelt(new, about))


def _is_list(value: Any) -> bool:
    return isinstance(value, tuple) and any(map(dataclasses.is_dataclass, value))


def _differ(old: Any, new: Any) -> bool:
    if isinstance(old, tuple) and isinstance(new, tuple):
        return len(old) != len(new) or any(map(_differ, old, new))
    return bool(old != new) or getattr(old, "typed", None) != getattr(new, "typed", None)
