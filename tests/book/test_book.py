"""The book of a design: what stands in it, on which pages, and that nothing is cut off."""

from __future__ import annotations

import csv
import dataclasses
import io
import os
import re
from functools import cache
from pathlib import Path

import numpy as np
import pypdfium2
import pytest
from numpy.typing import NDArray

from tests.book.every_book_for_tests import blank
from tests.designs import SAMPLES
from weighshaft import cli, job
from weighshaft.book import BookRefused, BookStopped, book_of, bound, look_at
from weighshaft.book.binding import Binding, draw_number, processes
from weighshaft.book.blocks import Book, Drawn, Formula, Grid, Shown, Words
from weighshaft.book.chapters import signed
from weighshaft.book.paged import html_of
from weighshaft.book.spreadsheets import csv_files
from weighshaft.book.typed import pdf_of
from weighshaft.book.vectors import draw_sheet
from weighshaft.book.widths import LANDSCAPE, laid
from weighshaft.design import Design, read
from weighshaft.design.file import to_bytes
from weighshaft.pictures.scene import Chart, Dimension, Scene
from weighshaft.sheet import TITLES

PATH = next(one for one in SAMPLES if one.name.startswith("hartfell"))
HOSTILE = (
    '#import "@x/y:1.0.0": *', "$ sum_x $", "] #panic() [", "<script>alert(1)</script>",
    "=1+1", "\\u{1F600} \\ ` * _ @ref <label> // no /* comment", "L" * 100,
)  # fmt: skip
POINT = 25.4 / 72


def _hostile(design: Design) -> Design:
    paths = ("cylinders.bore", "scale.ratio", "wheels.driving_diameter", "motion.gear",
             "nozzle.diameter", "threads.chosen", "cylinders.stroke")  # fmt: skip
    notes = dict(zip(paths, HOSTILE, strict=True))
    return dataclasses.replace(design, name=HOSTILE[0] + HOSTILE[3], notes=notes)


@cache
def _design() -> Design:
    return read(PATH)


@cache
def _book() -> Book:
    return book_of(_design(), job.work(_design()), made="today")


@cache
def _hostile_book() -> Book:
    """Return a book with hostile words, and without formulas, whose signs stand over others."""
    design = _hostile(_design())
    book = book_of(design, job.work(design))
    return dataclasses.replace(
        book,
        sections=tuple(
            dataclasses.replace(
                one, blocks=tuple(b for b in one.blocks if not isinstance(b, Formula))
            )
            for one in book.sections
        ),
    )


@cache
def _pdf(hostile: bool = False) -> pypdfium2.PdfDocument:
    book = _hostile_book() if hostile else _book()
    return pypdfium2.PdfDocument(pdf_of(book, blank(book)))


@cache
def _pages(hostile: bool = False) -> tuple[str, ...]:
    return tuple(page.get_textpage().get_text_bounded() for page in _pdf(hostile))


def test_title_contents_and_every_chapter_in_its_order() -> None:
    pages = _pages()
    assert _design().name in pages[0]
    assert "approves nothing" in pages[0]
    contents = "".join(pages[1:6])
    places = [contents.index(one.title) for one in _book().sections]
    assert places == sorted(places)
    for key in ("cylinders", "erection", "screwcutting"):
        assert TITLES[key] in contents
    assert "Building order" in contents
    # the page that the contents name is the page where it stands
    for section in _book().sections:
        found = re.search(rf"{re.escape(section.title)} ?[. ]*(\d+)", contents)
        assert found is not None, section.title
        assert section.title in pages[int(found[1]) - 1]


def test_pages_are_a4_numbered_and_none_isblank() -> None:
    document, pages = _pdf(), _pages()
    assert 100 < len(pages) < 400
    lying = 0
    for number, (page, text) in enumerate(zip(document, pages, strict=True), 1):
        size = tuple(round(one * POINT) for one in page.get_size())
        assert size in ((210, 297), (297, 210))
        lying += size[0] > size[1]
        objects = sum(one.type != pypdfium2.raw.FPDF_PAGEOBJ_TEXT for one in page.get_objects())
        assert len(text.split()) > 8 or objects, f"page {number} is blank"
        if number > 1:
            assert str(number) in text.split(), f"page {number} has no number"
    assert lying >= sum(1 for _ in _book().drawn)


@pytest.mark.parametrize("hostile", [False, True])
def test_no_word_stands_over_the_edge(hostile: bool) -> None:
    for number, page in enumerate(_pdf(hostile), 1):
        wide, high = page.get_size()
        text = page.get_textpage()
        for n in range(text.count_rects()):
            left, bottom, right, top = text.get_rect(n)
            assert left * POINT > 15, f"page {number}"
            assert right < wide - 15 / POINT, (
                f"page {number}: {text.get_text_bounded(left, bottom, right, top)}"
            )
            assert bottom > 2 / POINT, f"page {number}"
            assert top < high - 5 / POINT, f"page {number}"


def test_no_cell_runs_into_the_next() -> None:
    for number, page in enumerate(_pdf(hostile=True), 1):
        text = page.get_textpage()
        boxes = np.array([text.get_rect(n) for n in range(text.count_rects())]).reshape(-1, 4)
        low = np.maximum(boxes[:, None, :2], boxes[None, :, :2])
        high = np.minimum(boxes[:, None, 2:], boxes[None, :, 2:])
        over = np.triu(((high - low) >= (1, 3)).all(axis=2), 1)
        for n in np.flatnonzero(over.any(axis=1)):
            raise AssertionError(f"page {number}: {text.get_text_bounded(*boxes[n])}")


def test_decisions_stand_with_their_reasons_and_numbers_with_their_working() -> None:
    text = " ".join(" ".join(_pages()).split())
    reasons = {note[:25] for note in _design().notes.values()}
    assert reasons
    assert all(one in text for one in reasons)
    assert "Tractive effort" in text
    assert "HEED" in text.upper()
    assert "tapping 6BA" in text
    assert "Raising steam" in text


@pytest.mark.parametrize("words", HOSTILE[:5])
def test_what_a_builder_writes_is_printed_and_never_obeyed(words: str) -> None:
    text = " ".join(_pages(hostile=True))
    plain = text.replace("\u200b", "").replace("\ufffe", "").split()
    assert "".join(words.split()) in "".join(plain)
    page = html_of(_hostile_book(), blank(_hostile_book()))
    assert "<script" not in page
    assert words in page or words.replace("<", "&lt;").replace(">", "&gt;").replace(
        '"', "&quot;"
    ) in page  # fmt: skip


def test_the_page_holds_everything_and_fetches_nothing() -> None:
    page = html_of(_book(), blank(_book()))
    assert "default-src 'none'" in page
    outside = re.findall(r"""(?:src|href)=["'](?!#|data:)([^"']*)""", page)
    assert not outside
    assert page.count("<math") > 100
    assert page.count("<img") == sum(1 for _ in (*_book().shown, *_book().drawn))
    assert page.count("<table") > 100


def test_every_table_is_a_csv_file_that_reads_back() -> None:
    files = dict(csv_files(_book()))
    grids = [grid for _, grid in _book().grids]
    assert len(files) == len(grids)
    for data, grid in zip(files.values(), grids, strict=True):
        rows = list(csv.reader(io.StringIO(data.decode("utf-8-sig"), newline="")))
        assert len(rows) == 1 + len(grid.rows)
        assert {len(row) for row in rows} == {len(grid.columns)}
    assert any("bar-and-tube" in name for name in files)


def test_no_cell_begins_as_a_formula_of_a_spreadsheet() -> None:
    """A cell that is no number never begins as a formula, whatever a builder writes."""
    begins = ("=1+1", "+1+1", "-1+cmd|' /C calc'!A0", "@SUM(A1)", " =1+1", "\t=1+1", "＝1+1")
    notes = dict(zip(_hostile(_design()).notes, begins, strict=True))
    book = book_of(dataclasses.replace(_design(), name="=1+1", notes=notes), job.work(_design()))
    cells = [
        cell
        for _, data in csv_files(book)
        for row in csv.reader(io.StringIO(data.decode("utf-8-sig"), newline=""))
        for cell in row
    ]
    for one in begins:
        assert f"'{one}".replace("\t", " ") in cells
    signs = tuple("=+-@＝＋－＠\t\r")
    odd = [cell for cell in cells if cell.lstrip().startswith(signs)]
    assert all(re.fullmatch(r"[+-]?[\d.]+(e[+-]?\d+)?", one) for one in odd), odd


def test_a_table_too_wide_for_a_page_is_set_in_parts() -> None:
    columns = tuple(f"column{n}" + "x" * 14 for n in range(12))
    parts = laid(Grid("Wide", columns, (tuple(map(str, range(12))),)))
    assert len(parts) > 1
    assert all(sum(part.widths) <= LANDSCAPE + 1e-6 for part in parts)
    assert all(part.grid.columns[0] == columns[0] for part in parts)
    shown = [name for part in parts for name in part.grid.columns[1:]]
    assert [one.replace("\u200b", "") for one in shown] == list(columns[1:])


def _longest_run(dark: NDArray[np.bool_]) -> int:
    edges = np.flatnonzero(np.diff(np.concatenate([[0], dark.astype(int), [0]])))
    return int((edges[1::2] - edges[::2]).max(initial=0))


def test_a_sheet_is_true_to_scale() -> None:
    """The bar that a printer is checked with is 100 mm long on the page of the book."""
    book = _book()
    first = next(book.drawn)
    sheet = draw_sheet(first.drawing, book.title, first.number, "mm", "text")
    only = dataclasses.replace(
        book, cover=None, sections=(dataclasses.replace(book.sections[0], blocks=(first,)),)
    )
    document = pypdfium2.PdfDocument(pdf_of(only, {id(first): sheet}))
    page = document[len(document) - 1]
    fine = 8.0
    seen = page.render(scale=fine, grayscale=True).to_numpy()
    per_mm = fine / POINT
    foot = seen[-round(32 * per_mm) : -round(11 * per_mm), round(21 * per_mm) : round(150 * per_mm)]
    runs = [_longest_run(row < 200) / per_mm for row in foot]
    assert any(abs(one - 100) < 0.3 for one in runs), max(runs)  # and the pens of its end marks
    assert "Scale" in page.get_textpage().get_text_bounded()


def test_a_book_is_drawn_alike_here_and_by_other_processes(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(os, "cpu_count", lambda: 1)
    seen: list[tuple[int, int]] = []
    monkeypatch.setattr(Binding, "count", 2)
    monkeypatch.setattr(Binding, "set", lambda _, drawn: b"".join(one.svg for one in drawn))
    here = bound(_design(), "PDF", told=lambda done, of: seen.append((done, of)))
    assert seen == [(1, 2), (2, 2)]
    with pytest.raises(BookStopped):
        bound(_design(), "PDF", stopped=lambda: True)
    with processes(to_bytes(_design()), "PDF", "mm", "", beside=True) as pool:
        assert pool is not None
        there = list(pool.map(draw_number, range(2)))
    assert b"".join(one.svg for one in there) == here


def test_what_cannot_be_written_is_refused_before_the_work(tmp_path: Path) -> None:
    for wrong in ("book.txt", "book"):
        with pytest.raises(BookRefused, match=r"ends in \.pdf or \.html"):
            look_at(tmp_path / wrong)
    with pytest.raises(BookRefused, match="no folder"):
        look_at(tmp_path / "none" / "book.pdf")


@pytest.mark.parametrize("asked", [["-o", "book.doc"], ["-o", "no/such/folder/book.pdf"], []])
def test_the_command_refuses_on_one_line(
    asked: list[str], capsys: pytest.CaptureFixture[str]
) -> None:
    assert cli.main(["book", str(PATH), *asked]) == cli.REFUSED
    said = capsys.readouterr()
    assert said.out == ""
    assert said.err.count("\n") == 1
    assert said.err.startswith("weighshaft: ")


def test_the_command_writes_tables_and_says_so(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    folder = tmp_path / "tables"
    assert cli.main(["book", str(PATH), "--csv", str(folder), "--inch"]) == cli.WORKED
    assert "tables written" in capsys.readouterr().err
    names = sorted(one.name for one in folder.iterdir())
    assert names[0].startswith("001-job-")
    cut = next(one for one in folder.iterdir() if "cut-from" in one.name)
    assert "finished, in" in cut.read_text(encoding="utf-8-sig")


def test_every_block_that_is_drawn_has_its_picture() -> None:
    with pytest.raises(KeyError):
        pdf_of(_book(), {})
    assert all(isinstance(one, (Shown, Drawn)) for one in (*_book().shown, *_book().drawn))


def test_a_note_stands_with_the_last_row_of_its_table() -> None:
    """However far down a page the table begins."""
    note = "This note stands under its table."
    grid = Grid("", ("one", "two"), tuple((f"row{n}", "x") for n in range(6)), note)
    for lines in range(28, 44):
        blocks = (*(Words(f"line {n}") for n in range(lines)), grid)
        section = dataclasses.replace(_book().sections[0], blocks=blocks)
        book = dataclasses.replace(_book(), cover=None, sections=(section,))
        pages = [
            " ".join(one.get_textpage().get_text_bounded().split())
            for one in pypdfium2.PdfDocument(pdf_of(book, {}))
        ]
        assert all("row5" in page for page in pages if note in page), lines
        assert any(note in page for page in pages)


def test_a_book_in_inches_has_its_pictures_and_tables_in_inches() -> None:
    book = book_of(_design(), job.work(_design()), unit="in")
    shown = {one.picture.title: one.picture for one in book.shown}
    charts = [one for one in shown.values() if isinstance(one, Chart)]
    in_mm = [one for one in _book().shown if "mm" in getattr(one.picture, "y_label", "")]
    assert in_mm
    labels = [label for one in charts for label in (one.x_label, one.y_label)]
    assert not any(re.fullmatch(r"(.*, |)mm", one) for one in labels)
    before = next(
        one.picture for one in _book().shown if one.picture.title == "Valve against piston"
    )
    after = shown["Valve against piston"]
    assert isinstance(before, Chart)
    assert isinstance(after, Chart)
    assert after.y_label.endswith(", in")
    np.testing.assert_allclose(after.curves[0].y * 25.4, before.curves[0].y)
    assert before.curves[0].x is after.curves[0].x or np.array_equal(
        before.curves[0].x, after.curves[0].x
    )
    dimensions = [
        one.text
        for picture in shown.values()
        if isinstance(picture, Scene)
        for one in picture.still
        if isinstance(one, Dimension)
    ]
    assert len(dimensions) > 10
    assert not any(" mm" in one for one in dimensions)
    tables = {grid.title: grid for section, grid in book.grids if section.key == "tolerances"}
    cells = [cell for grid in tables.values() for row in grid.rows for cell in row]
    assert any(cell.endswith(" in") for cell in cells)
    assert "Of all chapters" in html_of(book, blank(book))


def test_units_are_spelt_with_the_signs_of_print() -> None:
    assert signed("1.5 N/mm2, 3 cm2 at 80 degC, 5 mm3, M2 and R2") == (
        "1.5 N/mm², 3 cm² at 80 °C, 5 mm³, M2 and R2"
    )
    cells = [cell for _, grid in _book().grids for row in grid.rows for cell in row]
    assert not [one for one in cells if re.search(r"\bdegC\b|\bmm[23]\b", one)]
