"""The pictures of widths and clearances: finite, drawn, and lit where it fouls."""

from __future__ import annotations

import numpy as np
import pytest

from tests.gauging_for_tests import sample
from weighshaft.frames import Bar, Part, Plate, Round, block
from weighshaft.gauging import Gauging
from weighshaft.pictures.gauging import least_gap, pictures
from weighshaft.pictures.gauging_shapes import clipped, cut
from weighshaft.pictures.gauging_tables import gap_table, row_table
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Dimension, Path, Scene, Table


@pytest.mark.parametrize("name", ["tansy", "whinchat"])
def test_pictures_are_finite_and_can_be_drawn(name: str) -> None:
    result = sample(name)
    for picture in pictures(Gauging(), result):
        if isinstance(picture, Scene):
            points = [one.points for one in picture.still if isinstance(one, Path)]
            assert all(np.isfinite(one).all() for one in points)
            assert sum(one.size for one in points) * 12 < 150_000  # bytes as text
            assert len(picture.says) > 60
        else:
            assert isinstance(picture, Table)
            assert picture.rows
            assert all(len(row) == len(picture.columns) for row in picture.rows)
            lengths = [c for row in picture.rows for c in row if isinstance(c, float)]
            assert all(cell >= 0 for cell in lengths)
        assert figure(picture) is not None


def test_a_foul_is_red_and_a_gap_is_dimensioned() -> None:
    foul = sample("tansy", ("frames.platework.board_height", 24.0))
    worst = foul.worst
    assert worst is not None
    scene = least_gap(foul, worst)
    red = {one.part for one in scene.still if isinstance(one, Path) and one.pen == "stop"}
    assert red == {worst.first, worst.second}
    assert "overlap" in scene.says
    clean = sample("merrow")
    passing = next(
        one for one in clean.near if one.wanted == clean.wanted and not one.told and one.gap > 0
    )
    scene = least_gap(clean, passing)
    assert not [one for one in scene.still if isinstance(one, Path) and one.pen == "stop"]
    for one in scene.still:
        if isinstance(one, Dimension):
            far = float(np.hypot(*np.subtract(one.start, one.end)))
            # seen from the side it may be less than across and along together
            assert far <= passing.gap + 0.05


def test_bodies_are_cut_as_they_stand() -> None:
    whole = sample("tansy").whole

    def of(*solids: Plate | Bar | Round) -> tuple[np.ndarray, ...]:
        part = Part("x", "frames", "frames", (), "mild steel", solids)
        return cut(part, whole, 3.0)

    (brick,) = of(block(0, 10, 2, 8, 5, 9))
    assert (brick.min(axis=0).tolist(), brick.max(axis=0).tolist()) == ([5, 2], [9, 8])
    (lying,) = of(Round((0.0, 20.0, 1.0), 10.0, 6.0))
    assert np.hypot(lying[:, 0] - 1, lying[:, 1] - 20) == pytest.approx(6.0)
    (upright,) = of(Round((0.0, 20.0, 0.0), 10.0, 5.0, 90.0))
    assert upright[:, 0].max() == pytest.approx(4.0)  # 3, 4, 5
    assert upright[:, 1].max() == pytest.approx(30.0)
    (bar,) = of(Bar((0.0, 0.0), (10.0, 0.0), 2.0, 0.0, 1.0))
    assert (bar[:, 1].min(), bar[:, 1].max()) == pytest.approx((-2.0, 2.0))
    assert of(block(4, 10, 2, 8, 5, 9)) == ()


def test_an_outline_is_cut_off_at_a_window() -> None:
    square = np.array([[0.0, 0.0], [10.0, 0.0], [10.0, 10.0], [0.0, 10.0]])
    seen = clipped(square, 5, -5, 20, 4)
    assert (seen.min(axis=0).tolist(), seen.max(axis=0).tolist()) == ([5, 0], [10, 4])
    assert len(clipped(square, 20, 20, 30, 30)) == 0


def test_tables_hold_what_the_result_holds() -> None:
    result = sample("merrow")
    table = gap_table(result)
    assert len(table.rows) == len(result.near)
    assert table.rows[0][1] == pytest.approx(result.near[0].gap)
    stations = {row[0] for row in row_table(result).rows if row[0]}
    assert "driving axle" in stations
