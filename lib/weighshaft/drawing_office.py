"""The drawing office: every shop drawing of a design as PDF, SVG and DXF, and all in one book."""

from __future__ import annotations

import io
import os
import secrets
import zipfile
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from .design import Design
from .design.typed import LengthUnit

BOOK = "drawings"
"""File name, without its ending, of the book with all sheets."""


@dataclass(frozen=True)
class Sheet:
    """A drawing as files.

    Parameters
    ----------
    number, total : which of how many sheets it is; the book comes after the last.
    key, title : of the drawing.
    says : paper and scale, for the one who waits.
    files : name and content of each file.
    """

    number: int
    total: int
    key: str
    title: str
    says: str
    files: tuple[tuple[str, bytes], ...]


def keys_of(design: Design, work: Any) -> tuple[str, ...]:
    """Return the keys of the drawings that the decisions made so far allow."""
    from .pictures.drawings import drawings_of

    return tuple(one.key for one in drawings_of(design, work))


def sheets(
    design: Design,
    work: Any,
    *,
    unit: LengthUnit = "mm",
    paper: str | None = None,
    only: Sequence[str] = (),
) -> Iterator[Sheet]:
    """Yield the drawings one after the other, and the book of them all at the end.

    Parameters
    ----------
    work : the design worked (`job.work`).
    unit : of the lengths on the sheets; DXF is in mm whatever it is.
    paper : "A4" or "A3" for all; None takes for each what suits it.
    only : keys of those wanted; then there is no book.

    Raises
    ------
    KeyError : for a key in `only` that no drawing of this design has.
    """
    from .pictures.drawings import drawings_of
    from .pictures.dxf import written
    from .pictures.paper.drawing import About, best, drawing_figure, fitting
    from .pictures.paper.files import as_pdf, as_svg
    from .pictures.paper.scene import spell_scale

    every = drawings_of(design, work)
    for key in only:
        if key not in {one.key for one in every}:
            raise KeyError(key)
    bound = []
    wanted = [(n, one) for n, one in enumerate(every, 1) if not only or one.key in only]
    for count, (number, one) in enumerate(wanted, 1):
        name, scale = (paper, fitting(one, paper)) if paper else best(one)
        about = About(design.name, f"{number} of {len(every)}")
        figure = drawing_figure(one, about, unit=unit, paper=name)
        title = f"{one.title}, {design.name}"
        text = io.StringIO()
        written(one, scale).write(text)
        if not only:
            bound.append(figure)
        yield Sheet(
            count, len(wanted), one.key, one.title, f"{name}, {spell_scale(scale)}",
            (
                (f"{one.key}.pdf", as_pdf([figure], title)),
                (f"{one.key}.svg", as_svg(figure, title)),
                (f"{one.key}.dxf", text.getvalue().encode("utf-8", "replace")),
            ),
        )  # fmt: skip
    if bound:
        book = as_pdf(bound, f"Drawings, {design.name}")
        yield Sheet(
            len(wanted), len(wanted), BOOK, "All drawings", f"{len(bound)} pages",
            ((f"{BOOK}.pdf", book),),
        )  # fmt: skip


def write(folder: Path, sheet: Sheet) -> None:
    """Write the files of a sheet; a crash leaves each as it was or whole.

    Raises
    ------
    OSError : where they cannot be written.
    """
    folder.mkdir(parents=True, exist_ok=True)
    for name, data in sheet.files:
        path = folder / name
        part = path.with_name(f".{name}.{secrets.token_hex(4)}.part")
        try:
            with open(part, "xb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            os.replace(part, path)
        finally:
            part.unlink(missing_ok=True)


def packed(made: Sequence[Sheet]) -> bytes:
    """Return sheets as one ZIP file."""
    out = io.BytesIO()
    with zipfile.ZipFile(out, "w", zipfile.ZIP_DEFLATED) as archive:
        for sheet in made:
            for name, data in sheet.files:
                # a fixed date: the same drawings make the same file
                about = zipfile.ZipInfo(name, (1980, 1, 1, 0, 0, 0))
                about.compress_type = zipfile.ZIP_DEFLATED
                about.external_attr = 0o644 << 16
                archive.writestr(about, data)
    return out.getvalue()
