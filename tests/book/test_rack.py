"""Metal from the rack: every piece is cut once, of what serves, and from no more than is there."""

from __future__ import annotations

import itertools
from collections import Counter
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely.geometry import box

from tests.designs import ROOT
from weighshaft import job
from weighshaft.book.blanks import Blank, Form
from weighshaft.book.blocks import Grid
from weighshaft.book.contents import book_of
from weighshaft.book.metal import metal
from weighshaft.book.rack import from_rack, serves
from weighshaft.design import read, with_workshop
from weighshaft.design import workshop as own
from weighshaft.workshop.machines import FLAT, HEXAGON, PLATE, ROUND, TUBE, Piece, Rack

STEEL = "mild steel"


def bar(length: float, count: int = 1, across: float = 10.0) -> Blank:
    return Blank("pins", STEEL, "round bar", (across,), length, 0.0, count)


def sheet(length: float, width: float, count: int = 1) -> Blank:
    return Blank("stays", STEEL, "plate", (2.0,), length, width, count)


BLANKS = st.lists(
    st.one_of(
        st.builds(bar, st.floats(5, 400), st.integers(1, 6), st.sampled_from([6.0, 10.0])),
        st.builds(sheet, st.floats(5, 300), st.floats(5, 120), st.integers(1, 5)),
    ),
    max_size=12,
)
PIECES = st.lists(
    st.one_of(
        st.builds(
            lambda across, length, number: Piece(across=across, length=length, number=number),
            st.sampled_from([6.0, 8.0, 10.0, 12.0]), st.floats(20, 500), st.integers(1, 3),
        ),
        st.builds(
            lambda wide, length, number: Piece(
                shape=PLATE, across=2.0, second=wide, length=length, number=number
            ),
            st.floats(20, 200), st.floats(20, 500), st.integers(1, 2),
        ),
    ),
    max_size=8,
)  # fmt: skip


@given(BLANKS, PIECES, st.floats(0.3, 4))
def test_every_piece_is_cut_once_or_bought(
    blanks: list[Blank], pieces: list[Piece], kerf: float
) -> None:
    rack = Rack(pieces=tuple(pieces), parting=kerf, facing=1.0, edge=1.5)
    taken, bought = from_rack(blanks, rack)
    wanted = Counter(one for blank in blanks for one in [_size(blank)] * blank.count)
    left = Counter(one for blank in bought for one in [_size(blank)] * blank.count)
    cut = Counter(
        ("bar", round(one.length, 6)) if not one.width
        else ("plate", *sorted((round(one.length, 6), round(one.width, 6))))
        for length in taken for one in length.cut
    )  # fmt: skip
    assert cut + left == wanted
    owned = Counter(dict.fromkeys(pieces, 0))
    for piece in pieces:
        owned[piece] += piece.number
    assert all(n <= owned[piece] for piece, n in Counter(one.piece for one in taken).items())
    for one in taken:
        if one.piece.shape == ROUND:
            used = sum(cut.length for cut in one.cut) + kerf * (len(one.cut) - 1)
            assert used <= one.piece.length + 1e-6
            assert one.left == pytest.approx(max(one.piece.length - used - kerf, 0), abs=1e-6)
        else:
            _laid_within(one, kerf)


def _size(blank: Blank) -> tuple[Any, ...]:
    if blank.form == "plate":
        return ("plate", *sorted((round(blank.length + 3, 6), round(blank.width + 3, 6))))
    return ("bar", round(blank.length + 2, 6))


def _laid_within(one: Any, kerf: float) -> None:
    plate = box(0, 0, one.piece.length, one.piece.second).buffer(1e-6)
    laid = [box(*cut.at, cut.at[0] + cut.length, cut.at[1] + cut.width) for cut in one.cut]
    assert all(plate.contains(each) for each in laid)
    for a, b in itertools.combinations(laid, 2):
        assert a.distance(b) >= kerf - 1e-6


def test_by_hand() -> None:
    rack = Rack(
        pieces=(Piece(across=12.0, length=100.0), Piece(across=10.0, length=60.0)),
        parting=2.0, facing=1.0,
    )  # fmt: skip
    taken, bought = from_rack([bar(38.0, 3)], rack)
    # 40 mm as cut: one from the bar of the very size, two of the thicker (40 + 2 + 40 <= 100)
    assert {one.piece.across: len(one.cut) for one in taken} == {10.0: 1, 12.0: 2}
    assert {one.piece.across: one.left for one in taken} == {10.0: 18.0, 12.0: 16.0}
    assert bought == ()


@pytest.mark.parametrize(
    ("piece", "form", "section", "does"),
    [
        (Piece(across=10.0), "round bar", (10.0,), True),
        (Piece(across=10.2), "round bar", (10.0,), False),  # too little to be turned off
        (Piece(across=10.5), "round bar", (10.0,), True),
        (Piece(across=15.6), "round bar", (10.0,), False),  # kept for something else
        (Piece(across=10.0, metal="brass"), "round bar", (10.0,), False),
        (Piece(shape=HEXAGON, across=8.0), "hexagon bar", (8.0,), True),
        (Piece(shape=HEXAGON, across=9.0), "hexagon bar", (8.0,), False),
        (Piece(shape=TUBE, across=8.0, second=0.9), "tube", (8.0, 0.9), True),
        (Piece(shape=TUBE, across=8.0), "tube", (8.0, 0.9), False),
        (Piece(shape=FLAT, across=3.0, second=16.0), "flat bar", (3.0, 15.0), True),
        (Piece(shape=FLAT, across=3.0, second=14.0), "flat bar", (3.0, 15.0), False),
        (Piece(shape=PLATE, across=2.0, second=100.0), "plate", (2.0,), True),
        (Piece(shape=PLATE, across=3.0, second=100.0), "plate", (2.0,), False),
        (Piece(across=10.0), "hexagon bar", (10.0,), False),
    ],
)
def test_what_serves(piece: Piece, form: Form, section: tuple[float, ...], does: bool) -> None:
    assert serves(piece, Blank("part", STEEL, form, section, 50.0, 20.0)) is does


def test_nothing_told_leaves_the_tables_as_they_were() -> None:
    blanks = (bar(50.0, 2), sheet(100.0, 40.0))
    titles = [one.title for one in metal(blanks, Rack(), True, "mm") if isinstance(one, Grid)]
    assert "From the rack, before anything is bought" not in titles
    assert from_rack(blanks, Rack()) == ((), blanks)


def test_the_book_says_what_is_there_and_what_to_get() -> None:
    shed = own.read(ROOT / "sample_designs" / "lime_kiln_lane.workshop.json")
    design = with_workshop(read(ROOT / "sample_designs" / "rowan.loco.json"), shed)
    grids = {
        block.title: block
        for section in book_of(design, job.work(design)).sections
        for block in section.blocks
        if isinstance(block, Grid)
    }
    rack = grids["From the rack, before anything is bought"]
    assert any("plate 2 mm × 100 mm" in row[2] and "frame plates" in row[3] for row in rack.rows)
    plates = grids["Plate and blocks to buy"]
    assert not any(row[:2] == ("mild steel", "2 mm") for row in plates.rows)
    threads = grids["Threads: a die, a taper and a plug tap of each"]
    assert threads.columns[-2:] == ("tap", "die")
    said = {row[0]: row[-2:] for row in threads.rows}
    assert said["M3"] == ("you have it", "you have it")
    assert said["M5 × 0.5"] == ("you have it", "to buy or borrow")
    assert said["M2"] == ("you have it", "none needed")
    assert {row[-1] for row in grids["Drills"].rows} <= {"you have it", "to buy or borrow"}
    reamers = {row[0]: row[-1] for row in grids["Reamers"].rows}
    assert reamers["3 mm"] == "you have it"
    assert reamers["3.5 mm"].startswith("to buy or borrow; nearest ")
