"""What a book is made of, described once: the typesetter, the page and the CSV read the same."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from ..findings import Level
from ..pictures.drawings import Drawing
from ..pictures.scene import Chart, Scene
from ..working import Working


@dataclass(frozen=True)
class Words:
    """A paragraph; `heed` is a caution, `small` a remark, `head` a heading of its own."""

    text: str
    manner: Literal["plain", "small", "heed", "head"] = "plain"


@dataclass(frozen=True)
class Grid:
    """A table of words.

    Parameters
    ----------
    title, note : above and below it.
    columns : headings.
    rows : cells, as many as there are headings; a row whose other cells are empty is a
        heading within the table.
    """

    title: str
    columns: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    note: str = ""


@dataclass(frozen=True)
class Judged:
    """A finding, in the builder's words."""

    level: Level
    text: str
    source: str


@dataclass(frozen=True)
class Formula:
    """A working, with its result as it is read."""

    working: Working
    result: str


@dataclass(frozen=True)
class Shown:
    """A picture to scale or a chart, with the sentence that says what is to be seen."""

    picture: Scene | Chart
    says: str


@dataclass(frozen=True)
class Drawn:
    """A shop drawing on a sheet of its own, true to scale; `number` is such as "3 of 14"."""

    drawing: Drawing
    number: str


@dataclass(frozen=True)
class Ticks:
    """Things to do, each with a box to tick and, small, the reason or a space to write in."""

    title: str
    items: tuple[tuple[str, str], ...]


Block = Words | Grid | Judged | Formula | Shown | Drawn | Ticks


@dataclass(frozen=True)
class Section:
    """A chapter of the book."""

    key: str
    title: str
    blocks: tuple[Block, ...]


@dataclass(frozen=True)
class Book:
    """A book of one design.

    Parameters
    ----------
    title, made : name of the engine; with what and when the book was made.
    cover : the general view, None where the engine could not be put together.
    particulars : label and value of the sizes on the title page.
    sections : chapters in their order.
    """

    title: str
    made: str
    cover: Shown | None
    particulars: tuple[tuple[str, str], ...]
    sections: tuple[Section, ...]

    @property
    def grids(self) -> Iterator[tuple[Section, Grid]]:
        """Yield every table with the chapter in which it stands."""
        for section in self.sections:
            for block in section.blocks:
                if isinstance(block, Grid):
                    yield section, block

    @property
    def shown(self) -> Iterator[Shown]:
        """Yield every picture, the title's first."""
        if self.cover is not None:
            yield self.cover
        for section in self.sections:
            yield from (block for block in section.blocks if isinstance(block, Shown))

    @property
    def drawn(self) -> Iterator[Drawn]:
        """Yield every drawing."""
        for section in self.sections:
            yield from (block for block in section.blocks if isinstance(block, Drawn))
