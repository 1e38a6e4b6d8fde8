"""The book set in type, as PDF."""

from __future__ import annotations

import json
from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any

import matplotlib

from ..working import Working
from .blocks import Block, Book, Drawn, Formula, Grid, Judged, Shown, Ticks, Words
from .chapters import LEFT_OPEN, signed
from .checks import DEFERS
from .formulas import Untranslated, shortened, typeset
from .vectors import Vector
from .widths import CLOSE, OPEN, Laid, breakable, is_heading, laid

UNLISTED = ("Decided", "Numbers", LEFT_OPEN)
"""Tables that every chapter has, and that would only fill the contents."""
Vectors = Mapping[int, Vector]
"""Pictures and drawings as SVG, by the `id` of their block."""


def pdf_of(book: Book, vectors: Vectors) -> bytes:
    """Return the book as PDF.

    Parameters
    ----------
    vectors : every picture and drawing of the book.

    Raises
    ------
    RuntimeError : when the typesetter cannot do it.
    """
    import typst

    parts = {
        "main.typ": files(__package__).joinpath("book.typ").read_bytes(),
        "book.json": json.dumps(_data(book, vectors), ensure_ascii=True).encode(),
        **{_file(number): vector.svg for number, vector in vectors.items()},
    }
    # the library takes several files at once, which its own types do not say
    compile_files: Any = typst.compile
    made = compile_files(parts, format="pdf", font_paths=[_fonts()], ignore_system_fonts=True)
    if not isinstance(made, bytes):
        raise RuntimeError("the typesetter made no single PDF")
    return made


@cache
def _fonts() -> str:
    """Return where the letters of the pictures lie, for signs that the book's own lack."""
    return str(Path(matplotlib.get_data_path()) / "fonts" / "ttf")


def _file(number: int) -> str:
    return f"{number}.svg"


def printable(text: str) -> str:
    """Return text without signs that steer what they stand in."""
    return "".join(map(_sign, text))


def _sign(one: str) -> str:
    if one.isprintable() or one in (OPEN, CLOSE):
        return one
    return " " if one.isspace() else "�"


def _data(book: Book, vectors: Vectors) -> dict[str, Any]:
    cover = None if book.cover is None else _shown(book.cover, book.title, vectors)
    sections = []
    for one in book.sections:
        blocks = list(_grouped(one.blocks, vectors))
        # a heading before pages that lie down would stand on a page alone
        lying = bool(blocks) and blocks[0]["kind"] == "lying"
        if lying:
            blocks[0]["heading"] = one.title
        sections.append({"title": "" if lying else one.title, "blocks": blocks})
    data: dict[str, Any] = {
        "title": breakable(book.title), "made": book.made, "cover": cover,
        "particulars": book.particulars, "warning": DEFERS, "sections": sections,
    }  # fmt: skip
    return {key: _clean(one) for key, one in data.items()}


def _clean(value: Any) -> Any:
    if isinstance(value, str):
        return printable(value)
    if isinstance(value, dict):
        return {key: _clean(one) for key, one in value.items()}
    if isinstance(value, (list, tuple)):
        return [_clean(one) for one in value]
    return value


def _grouped(blocks: tuple[Block, ...], vectors: Vectors) -> Iterator[dict[str, Any]]:
    """Yield the blocks as data, tables that lie down together on pages of their own."""
    lying: list[dict[str, Any]] = []
    for block in blocks:
        for one, down in _made(block, vectors):
            if down:
                lying.append(one)
                continue
            if lying:
                yield {"kind": "lying", "heading": "", "blocks": lying}
                lying = []
            yield one
    if lying:
        yield {"kind": "lying", "heading": "", "blocks": lying}


def _made(block: Block, vectors: Vectors) -> Iterator[tuple[dict[str, Any], bool]]:
    if isinstance(block, Grid):
        # a table without a row would be headings of nothing
        for one in laid(_clean_grid(block)) if block.rows else ():
            yield _grid(one), one.lying
    else:
        made = _plain(block, vectors)
        if made is not None:
            yield made, False


def _clean_grid(grid: Grid) -> Grid:
    rows = tuple(tuple(map(printable, row)) for row in grid.rows)
    return replace(grid, rows=rows, columns=tuple(map(printable, grid.columns)))


def _grid(one: Laid) -> dict[str, Any]:
    return {
        "kind": "grid", "title": one.grid.title, "note": one.grid.note,
        "listed": one.grid.title not in UNLISTED,
        "columns": one.grid.columns, "widths": one.widths, "right": one.right,
        "rows": [{"heading": is_heading(row), "cells": row} for row in one.grid.rows],
    }  # fmt: skip


def _plain(block: Block, vectors: Vectors) -> dict[str, Any] | None:
    if isinstance(block, Words):
        return {"kind": "words", "text": breakable(block.text), "manner": block.manner}
    if isinstance(block, Judged):
        return {"kind": "judged", "level": block.level, "text": breakable(block.text),
                "source": block.source}  # fmt: skip
    if isinstance(block, Formula):
        working = block.working
        return {"kind": "formula", "label": working.label, "result": block.result,
                "source": signed(working.relation.source), "lines": lines_of(working)}  # fmt: skip
    if isinstance(block, Shown):
        return {"kind": "picture", **_shown(block, block.picture.title, vectors)}
    if isinstance(block, Drawn):
        return {"kind": "drawn", "title": f"Sheet {block.number}: {block.drawing.title}",
                "file": _file(id(block))}  # fmt: skip
    if isinstance(block, Ticks):
        return {"kind": "ticks", "title": block.title,
                "items": [{"does": does, "why": why} for does, why in block.items]}  # fmt: skip
    return None


def _shown(block: Shown, alt: str, vectors: Vectors) -> dict[str, Any]:
    vector = vectors[id(block)]
    return {"file": _file(id(block)), "says": breakable(block.says), "alt": alt,
            "wide": vector.wide, "high": vector.high}  # fmt: skip


def lines_of(working: Working) -> list[str]:
    """Return the relation in symbols and in numbers, for the typesetter."""
    try:
        return [
            typeset(shortened(tex)) for tex in (working.in_symbols(), working.in_numbers())
        ]  # fmt: skip
    except Untranslated:
        return []  # its name, result and source stand all the same
