"""Drawings as files: true to scale on their paper, bound, read back, written whole or not."""

from __future__ import annotations

import io
import os
import re
import zipfile
from collections.abc import Iterator
from pathlib import Path
from typing import Any

import pypdfium2 as pdfium
import pypdfium2.raw as raw
import pytest
from ezdxf import recover

from tests.designs import ROOT
from tests.drawings_for_tests import worked
from weighshaft import cli, drawing_office, job
from weighshaft.drawing_office import BOOK, Sheet, keys_of, packed, sheets, write
from weighshaft.measures import INCH
from weighshaft.pictures import drawings
from weighshaft.pictures.dxf import written
from weighshaft.pictures.paper.drawing import SHEETS

POINT = float(INCH) / 72
"""A point of PDF, mm (ISO 32000-1, 8.3.2.3)."""
SAMPLE = "tansy"
EVERY = drawings.drawings_of


@pytest.fixture(scope="module", autouse=True)
def few() -> Iterator[None]:
    """Draw a few of the drawings, of every kind of paper and scale, for the time that it takes."""
    keys = ("general-arrangement", "frame-plate", "piston", "slide-bar", "slide-valve")
    some = tuple(one for one in EVERY(*worked(SAMPLE)) if one.key in keys)
    assert len(some) == len(keys)
    with pytest.MonkeyPatch.context() as patch:
        patch.setattr(drawings, "drawings_of", lambda *_: some)
        yield


@pytest.fixture(scope="module")
def made(few: None) -> tuple[Sheet, ...]:
    return tuple(sheets(*worked(SAMPLE)))


def page_size(page: Any) -> tuple[float, float]:
    return page.get_width() * POINT, page.get_height() * POINT


def bars(page: Any) -> list[float]:
    """Return the lengths of the level lines near the foot of a page, mm.

    From the points of each path, not from its bounds, which its width belongs to.
    """
    found = []
    for one in page.get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
        if raw.FPDFPath_CountSegments(one) != 2:
            continue
        ends = []
        for n in range(2):
            x, y = raw.c_float(), raw.c_float()
            raw.FPDFPathSegment_GetPoint(raw.FPDFPath_GetPathSegment(one, n), x, y)
            ends.append((x.value * POINT, y.value * POINT))
        (ax, ay), (bx, by) = ends
        if abs(ay - by) < 0.01 and ay < 20:
            found.append(abs(bx - ax))
    return found


def test_every_page_has_its_paper_and_a_bar_of_100_mm(made: tuple[Sheet, ...]) -> None:
    for sheet in made[:-1]:
        files = dict(sheet.files)
        with pdfium.PdfDocument(files[f"{sheet.key}.pdf"]) as document:
            assert len(document) == 1
            size = page_size(document[0])
            assert size == pytest.approx(SHEETS[sheet.says.split(",")[0]], abs=0.1)
            assert any(abs(one - 100.0) < 0.05 for one in bars(document[0])), sheet.key


def test_a_part_is_drawn_at_the_scale_that_the_sheet_names(made: tuple[Sheet, ...]) -> None:
    """The slide bar, the longest level lines of its sheet, against its length in the design."""
    _, work = worked(SAMPLE)
    sheet = next(one for one in made if one.key == "slide-bar")
    up, down = sheet.says.split(",")[-1].split(":")
    scale = float(up) / float(down)
    with pdfium.PdfDocument(dict(sheet.files)["slide-bar.pdf"]) as document:
        found = []
        for one in document[0].get_objects(filter=[raw.FPDF_PAGEOBJ_PATH]):
            left, _, right, _ = one.get_bounds()
            found.append((right - left) * POINT)
    # bounds of a path take in the width of its line, at corners of a closed one a little more
    wanted = scale * work.cylinders.axis.slide_bar
    assert any(abs(one - wanted) < 1.1 for one in found)


def test_the_book_holds_them_all_in_their_order(made: tuple[Sheet, ...]) -> None:
    *single, book = made
    assert (book.key, [name for name, _ in book.files]) == (BOOK, [f"{BOOK}.pdf"])
    with pdfium.PdfDocument(book.files[0][1]) as document:
        assert len(document) == len(single) == len(keys_of(*worked(SAMPLE)))
        for n, sheet in enumerate(single):
            text = document[n].get_textpage().get_text_bounded()
            assert sheet.title in text
            assert f"{n + 1} of {len(single)}" in text


def test_every_file_for_a_cutter_is_opened_again_without_an_error() -> None:
    every = EVERY(*worked(SAMPLE))
    assert len(every) > 10
    for drawing in every:
        text = io.StringIO()
        written(drawing, 0.5).write(text)
        document, auditor = recover.read(io.BytesIO(text.getvalue().encode("utf-8")))
        assert not auditor.has_errors, (drawing.key, auditor.errors)
        assert document.header["$INSUNITS"] == 4
        assert len(document.modelspace()) > 3


def test_the_file_for_a_cutter_that_is_kept_is_the_drawing(made: tuple[Sheet, ...]) -> None:
    valve = dict(next(one for one in made if one.key == "slide-valve").files)
    document, auditor = recover.read(io.BytesIO(valve["slide-valve.dxf"]))
    assert not auditor.has_errors
    assert len(document.modelspace().query('LWPOLYLINE[layer=="OUTLINE"]')) == 3


def test_svg_has_its_paper_in_points(made: tuple[Sheet, ...]) -> None:
    for sheet in made[:-1]:
        text = dict(sheet.files)[f"{sheet.key}.svg"].decode("utf-8")
        size = re.search(r'<svg[^>]* width="([\d.]+)pt"', text)
        assert size
        assert float(size[1]) * POINT == pytest.approx(SHEETS[sheet.says.split(",")[0]][0], abs=0.1)
        assert "NaN" not in text


def test_one_alone_has_no_book_and_keeps_its_number(made: tuple[Sheet, ...]) -> None:
    design, work = worked(SAMPLE)
    (alone,) = sheets(design, work, only=("piston",), paper="A3", unit="in")
    assert alone.says.startswith("A3")
    place = [one.key for one in made].index("piston") + 1
    with pdfium.PdfDocument(alone.files[0][1]) as document:
        text = document[0].get_textpage().get_text_bounded()
    assert f"{place} of {len(made) - 1}" in text
    assert "First angle, in" in text
    with pytest.raises(KeyError):
        list(sheets(design, work, only=("nothing",)))


def test_the_same_design_gives_the_same_files(made: tuple[Sheet, ...]) -> None:
    (again,) = sheets(*worked(SAMPLE), only=("piston",))
    before = dict(next(one for one in made if one.key == "piston").files)
    for name, data in again.files:
        if name.endswith(("pdf", "svg")):
            assert data == before[name], name


def test_a_file_is_written_whole_or_not_at_all(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    one = Sheet(1, 1, "a", "A", "A4", (("a.pdf", b"first"),))
    write(tmp_path / "new" / "folder", one)
    file = tmp_path / "new" / "folder" / "a.pdf"
    assert file.read_bytes() == b"first"

    def fails(*_: object) -> None:
        raise OSError("power cut")

    monkeypatch.setattr(os, "replace", fails)
    with pytest.raises(OSError, match="power cut"):
        write(file.parent, Sheet(1, 1, "a", "A", "A4", (("a.pdf", b"second"),)))
    assert file.read_bytes() == b"first"
    assert [one.name for one in file.parent.iterdir()] == ["a.pdf"]


def test_packed_sheets_come_out_of_the_zip_as_they_went_in() -> None:
    some = [Sheet(1, 2, "a", "A", "A4", (("a.pdf", b"1"), ("a.dxf", b"2"))),
            Sheet(2, 2, "b", "B", "A4", (("b.pdf", b"3"),))]  # fmt: skip
    data = packed(some)
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        assert archive.testzip() is None
        assert {name: archive.read(name) for name in archive.namelist()} == {
            "a.pdf": b"1", "a.dxf": b"2", "b.pdf": b"3",
        }  # fmt: skip
    assert packed(some) == data


# --- the command --------------------------------------------------------------------------

FILE = ROOT / "sample_designs" / f"{SAMPLE}.loco.json"


@pytest.fixture
def at_hand(monkeypatch: pytest.MonkeyPatch) -> None:
    """Have the sample worked already."""
    monkeypatch.setattr(job, "work", lambda _: worked(SAMPLE)[1])


def test_the_command_writes_what_is_asked_for(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], at_hand: None
) -> None:
    stops = any(one.level == "stop" for one in worked(SAMPLE)[1].findings)
    asked = ["drawings", str(FILE), "-o", str(tmp_path / "out"), "--only", "piston"]
    assert cli.main([*asked, "--only", "slide-valve", "--unit", "in"]) == int(stops)
    printed = capsys.readouterr()
    assert printed.err == ""
    assert [line.split()[:2] for line in printed.out.splitlines()] == [
        ["1/2", "piston"], ["2/2", "slide-valve"],
    ]  # fmt: skip
    names = {one.name for one in (tmp_path / "out").iterdir()}
    assert names == {f"{key}.{kind}" for key in ("piston", "slide-valve")
                     for kind in ("pdf", "svg", "dxf")}  # fmt: skip


def test_the_command_makes_the_book_last(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], at_hand: None, made: tuple[Sheet, ...],
    monkeypatch: pytest.MonkeyPatch,
) -> None:  # fmt: skip
    monkeypatch.setattr(drawing_office, "sheets", lambda *_, **__: iter(made))
    cli.main(["drawings", str(FILE), "-o", str(tmp_path)])
    lines = capsys.readouterr().out.splitlines()
    assert len(lines) == len(made)
    assert lines[-1].split()[0] == BOOK
    assert (tmp_path / f"{BOOK}.pdf").read_bytes() == made[-1].files[0][1]


@pytest.mark.parametrize("case", ["no such drawing", "a file in the way", "no file"])
def test_what_cannot_be_drawn_is_refused_in_a_line(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], at_hand: None, case: str
) -> None:
    (tmp_path / "taken").write_text("x", "utf-8")
    file = tmp_path / "none.loco.json" if case == "no file" else FILE
    folder = tmp_path / ("taken" if case == "a file in the way" else "out")
    key = "teapot" if case == "no such drawing" else "piston"
    assert cli.main(["drawings", str(file), "-o", str(folder), "--only", key]) == 2
    printed = capsys.readouterr()
    assert printed.out == ""
    assert printed.err.startswith("weighshaft: ")
    assert printed.err.count("\n") == 1
    if case == "no such drawing":
        assert "slide-valve" in printed.err


@pytest.mark.parametrize("more", [["--unit", "ft"], ["--paper", "A0"], []])
def test_a_command_that_is_not_understood_is_refused(
    more: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    asked = ["drawings", "a.loco.json", *(["-o", "x", *more] if more else [])]
    with pytest.raises(SystemExit) as ended:
        cli.main(asked)
    assert ended.value.code == 2
    assert capsys.readouterr().err.count("\n") == 1
