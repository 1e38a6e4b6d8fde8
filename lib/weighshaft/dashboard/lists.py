"""Lists that a builder lets grow and shrink: axles, notches, readings and the like."""

from __future__ import annotations

import dataclasses
from typing import Any

from ..design.document import CHAPTERS, Design, DesignRefused
from ..sizes import sizes_of
from .rows import LONGEST_TUPLE, element_of, is_open_tuple, least_of


def with_more(design: Design, path: str) -> tuple[Any, ...]:
    """Return a list with one more: a copy of the last, or what is usual where there is none.

    Raises
    ------
    DesignRefused : when there is no such list, or it is as long as it can be.
    """
    owner, name, several = _list(design, path)
    if len(several) >= LONGEST_TUPLE:
        raise DesignRefused("There are enough of these.")
    if several:
        return (*several, _another(several[-1]))
    kind, first = element_of(owner, name), getattr(sizes_of(owner).get(name), "first", None)
    if kind is None and first is None:
        raise DesignRefused("There is none to follow.")
    return (first if kind is None else kind(),)


def _another(last: Any) -> Any:
    """Return a copy of the last without what was measured of that one alone."""
    afresh = getattr(last, "afresh", ())
    return dataclasses.replace(last, **dict.fromkeys(afresh)) if afresh else last


def with_fewer(design: Design, path: str) -> tuple[str, tuple[Any, ...]]:
    """Return the path of a list and what is left of it, from the path of one in it.

    Raises
    ------
    DesignRefused : when there is no such one, or the list needs it.
    """
    place, _, index = path.rpartition(".")
    owner, name, several = _list(design, place)
    if (
        not index.isdigit()
        or not int(index) < len(several)
        or len(several) <= least_of(owner, name)
    ):
        raise DesignRefused("There is none to take away.")
    return place, (*several[: int(index)], *several[int(index) + 1 :])


def _list(design: Design, path: str) -> tuple[type, str, tuple[Any, ...]]:
    steps = path.split(".")
    if steps[0] in CHAPTERS and len(steps) > 1:
        owner, value = design.at(".".join(steps[:-1])), design.at(path)
        if (
            dataclasses.is_dataclass(owner)
            and isinstance(value, tuple)
            and is_open_tuple(type(owner), steps[-1])
        ):
            return type(owner), steps[-1], value
    raise DesignRefused(f"“{path[:60]}” is not a list that can grow or shrink.")
