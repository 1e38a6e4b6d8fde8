"""A workshop in words: its lists as a builder would write them on a sheet."""

from __future__ import annotations

import dataclasses
import textwrap
from collections.abc import Iterator
from typing import Any

from ..sizes import sizes_of
from .changes import spelt, title_of
from .typed import LengthUnit
from .workshop import Workshop

_WIDE = 92
_LABEL = 48
_TIED = "\N{NO-BREAK SPACE}"


def workshop_text(workshop: Workshop, unit: LengthUnit = "mm") -> str:
    """Return the lists of a workshop as text; what was typed keeps its spelling.

    Parameters
    ----------
    unit : in which lengths that were not typed are shown, "mm" or "in".
    """
    lines = [workshop.name, "=" * min(len(workshop.name), _WIDE)]
    groups = [workshop.drills]
    groups += [getattr(workshop.machines, f.name) for f in dataclasses.fields(workshop.machines)]
    for group in groups:
        lines += ["", title_of(group), *_lines(group, unit)]
    return "\n".join(lines) + "\n"


def _lines(group: Any, unit: LengthUnit) -> Iterator[str]:
    abouts = sizes_of(type(group))
    for one in dataclasses.fields(group):
        value, about = getattr(group, one.name), abouts.get(one.name)
        if about is not None:
            several = value if isinstance(value, tuple) else (value,)
            # a size stays on one line with its unit
            told = ", ".join(spelt(each, about, unit).replace(" ", _TIED) for each in several)
            wrapped = textwrap.wrap(told or "not told", _WIDE - _LABEL - 3)
            yield f"  {about.label:<{_LABEL}} {wrapped[0]}".replace(_TIED, " ")
            yield from (f"  {'':<{_LABEL}} {more}".replace(_TIED, " ") for more in wrapped[1:])
        else:  # pieces of metal, one a line
            for n, piece in enumerate(value, 1):
                yield f"  {n:>3}. {_piece(piece, unit)}"
            if not value:
                yield f"  {one.name.capitalize():<{_LABEL}} not told"


def _piece(piece: Any, unit: LengthUnit) -> str:
    abouts = sizes_of(type(piece))

    def told(name: str) -> str:
        return spelt(getattr(piece, name), abouts[name], unit)

    second = "" if piece.second is None else f" × {told('second')}"
    return (
        f"{piece.number} of {piece.shape}, {piece.metal}, {told('across')}{second}, "
        f"{told('length')} long"
    )
