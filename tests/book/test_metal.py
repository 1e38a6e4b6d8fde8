"""What parts are cut from, and how bars are laid out."""

from __future__ import annotations

import math
from collections import Counter
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString
from shapely.ops import unary_union

from tests.designs import SAMPLES
from weighshaft import job
from weighshaft.book.blanks import Blank, blanks_of
from weighshaft.book.metal import bar_for, metal
from weighshaft.book.nesting import nested
from weighshaft.design import read
from weighshaft.frames.solids import Bar
from weighshaft.workshop.machines import Rack

LENGTHS = st.lists(st.floats(5, 400), min_size=1, max_size=40)


@given(LENGTHS, st.sampled_from([(330.0,), (330.0, 1000.0), (200.0, 330.0)]), st.floats(0.5, 5))
def test_every_piece_is_cut_once_from_a_bar_that_holds_it(
    pieces: list[float], owned: tuple[float, ...], kerf: float
) -> None:
    bars, long = nested(pieces, owned, kerf)
    cut = [piece for bar in bars for piece in bar.pieces]
    assert Counter([*cut, *long]) == Counter(pieces)
    assert all(piece > max(owned) for piece in long)
    for bar in bars:
        used = sum(bar.pieces) + kerf * (len(bar.pieces) - 1)
        assert bar.length in owned
        assert used <= bar.length + 1e-6
        assert bar.left == pytest.approx(max(bar.length - used - kerf, 0), abs=1e-6)
        # no bar where a shorter one would do
        assert not any(used <= one < bar.length - 1e-6 for one in owned)


@given(LENGTHS)
def test_first_fit_decreasing_keeps_its_bound(pieces: list[float]) -> None:
    """At most 11/9 of the fewest bars and 6/9 (Dosa, 2007); the fewest are at least the sum's."""
    bars, _ = nested(pieces, (400.0,), 0.0)
    fewest = math.ceil(sum(pieces) / 400 - 1e-9)
    assert fewest <= len(bars)
    over_half = sum(one > 200 for one in pieces)
    small = sum(one for one in pieces if one <= 200)
    # bars that are not more than half full can at most be one, if none is left to be joined
    assert len(bars) <= max(over_half + math.ceil(small / 200), 1)


def test_four_pieces_by_hand() -> None:
    bars, long = nested([150, 150, 100, 500], (330.0,), 2.0)
    assert [one.pieces for one in bars] == [(150, 150), (100,)]
    assert bars[0].left == pytest.approx(330 - 302 - 2)
    assert long == (500,)


def _volume(blank: Blank) -> float:
    first = blank.section[0]
    if blank.form == "round bar":
        area = math.pi * first**2 / 4
    elif blank.form == "tube":
        area = math.pi * blank.section[1] * (first - blank.section[1])
    elif blank.form in ("plate", "block"):
        area = first * blank.width
    else:
        area = first * blank.section[-1]
    return area * blank.length * blank.count


@pytest.mark.parametrize("name", ["hartfell", "tansy"])
def test_no_part_is_larger_than_what_it_is_cut_from(name: str) -> None:
    path = next(one for one in SAMPLES if one.name.startswith(name))
    whole = job.work(read(path)).frames.whole
    blanks = blanks_of(whole)
    for part in whole.parts:
        mine = [one for one in blanks if one.part == part.name]
        if part.kind == "water" or part.material in ("lagging", "water", "coal"):
            assert not mine
            continue
        assert mine, part.name
        bars = [one for one in part.solids if isinstance(one, Bar)]
        if len(bars) > 1 and mine[0].form == "flat bar":
            # bars of a rod lie over one another, so that their volumes do not add up
            seen = unary_union([LineString([a.start, a.end]).buffer(a.half, 64) for a in bars])
            box = seen.minimum_rotated_rectangle
            thick = max(one.outer for one in bars) - min(one.inner for one in bars)
            edges = sorted([thick, *_edges(box)])
            assert sorted([*mine[0].section, mine[0].length]) == pytest.approx(edges, rel=5e-3)
        elif "spindle" not in part.name:  # round, where the planes of the gear have it flat
            # a bent strip is measured along its middle
            assert sum(map(_volume, mine)) >= 0.97 * part.volume, part.name


def _edges(box: Any) -> list[float]:
    x, y = box.exterior.coords.xy
    return [math.dist((x[n], y[n]), (x[n + 1], y[n + 1])) for n in (0, 1)]


def test_bar_is_the_next_that_leaves_something_to_turn() -> None:
    drawn, turned = bar_for(6.0, True), bar_for(16.7, True)
    assert drawn is not None
    assert turned is not None
    assert drawn.diameter == 6
    assert turned.diameter == 18  # 17 is not kept
    assert bar_for(400, True) is None


def test_lengths_carry_facing_and_kerf() -> None:
    axles = Blank("axle", "mild steel", "round bar", (6.0,), 100.0, 0.0, 4)
    rack = Rack(lengths=(330.0,), parting=2.0, facing=1.0)
    _, cut, bars, _ = metal((axles,), rack, True, "mm")
    assert cut.rows[0][3:6] == ("100", "102", "4")  # type: ignore[union-attr]
    assert bars.rows == (  # type: ignore[union-attr]
        ("mild steel", "round 6 mm", "1 × 330", "3 × 102", "18"),
        ("mild steel", "round 6 mm", "1 × 330", "1 × 102", "226"),
    )  # fmt: skip
