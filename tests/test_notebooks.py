"""The notebooks as they are committed: thin, valid, without outputs."""

from __future__ import annotations

from pathlib import Path

import nbformat
import pytest

from tests.designs import ROOT

NOTEBOOKS = sorted((ROOT / "workbook").glob("*.ipynb"))
CHAPTERS = (
    "scale", "cylinders", "motion", "beside", "reversing", "pivots", "tolerances", "axlebox",
    "clearance", "valve_setting", "wheels", "threads", "nozzle",
    "frames", "boiler", "gauging", "weights", "springing", "curving", "rods", "erection",
    "machines", "slots", "patterns", "eccentrics", "screwcutting", "fitting",
    "steam", "firing", "bench", "draught", "running", "whole",
)  # fmt: skip


def test_there_is_one_a_chapter_and_the_dashboard() -> None:
    names = [f"{number:02}_{chapter}.ipynb" for number, chapter in enumerate(CHAPTERS, 1)]
    assert [path.name for path in NOTEBOOKS] == [*names, "workbook.ipynb"]


@pytest.mark.parametrize("path", NOTEBOOKS, ids=lambda path: path.name)
def test_a_notebook_is_thin_and_clean(path: Path) -> None:
    book = nbformat.read(path, as_version=nbformat.NO_CONVERT)
    nbformat.validate(book)
    assert (book.nbformat, book.nbformat_minor) == (4, 5)
    assert book.metadata.kernelspec.name == "python3"
    ids = [cell.id for cell in book.cells]
    assert len(set(ids)) == len(ids)
    code = [cell for cell in book.cells if cell.cell_type == "code"]
    assert len(code) == 1
    for cell in code:
        assert cell.outputs == []
        assert cell.execution_count is None
        assert len(cell.source.splitlines()) <= 3, "one call a cell"
    chapter = path.stem.partition("_")[2]
    assert code[0].source.endswith(f'show("{chapter}")' if chapter else "show()")
    if chapter:
        assert book.cells[0].cell_type == "markdown"
