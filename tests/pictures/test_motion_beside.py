"""Two gears over each other, their curves and their columns show what was compared."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from tests.motion.gears_for_tests import ALL, CRANK, DIRECT, INSIDE, OUTSIDE, SLIP
from tests.motion.test_beside import CHANGE_OVER, side_by_side
from weighshaft.motion.beside_sides import FRAMES
from weighshaft.pictures.motion_beside import (
    cutoffs_over_notches,
    events_table,
    lead_over_cutoff,
    measures_table,
    overlay,
    pictures,
    valves_over_the_turn,
)
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Path, Scene


@pytest.mark.parametrize("other", [*ALL.values(), CHANGE_OVER])
def test_all_is_numbers_and_goes_on_paper(other: Any) -> None:
    for made in pictures(side_by_side(DIRECT, other)):
        if isinstance(made, Scene):
            assert all(np.isfinite(one.points).all() for one in made.moving)
            assert all(len(one.points) == len(FRAMES) for one in made.moving)
            assert all(np.isfinite(one.points).all() for one in made.still if isinstance(one, Path))
        elif isinstance(made, Chart):
            assert all(np.isfinite(one.x).all() and np.isfinite(one.y).all() for one in made.curves)
        figure(made)


def test_grey_is_the_other_gear_alone() -> None:
    scene = overlay(side_by_side(DIRECT, OUTSIDE))
    grey = {one.part for one in scene.moving if one.pen == "behind"}
    assert grey == {f"{part.name}, beside" for part in OUTSIDE.parts}
    (rod,) = [m for m in scene.moving if m.part == "forward rod" and m.shape == "path"]
    assert np.linalg.norm(np.diff(rod.points, axis=1), axis=-1) == pytest.approx(
        DIRECT.eccentric_rod
    )
    (beside,) = [m for m in scene.moving if m.part == "union link, beside" and m.shape == "path"]
    assert np.linalg.norm(np.diff(beside.points, axis=1), axis=-1) == pytest.approx(
        OUTSIDE.union_link
    )
    # both on one crank
    (crank,) = [m for m in scene.moving if m.part == "crank" and m.shape == "path"]
    assert np.linalg.norm(crank.points[:, 1], axis=-1) == pytest.approx(CRANK.throw)


def test_valves_of_both_admissions_go_the_same_way() -> None:
    beside = side_by_side(OUTSIDE, INSIDE)
    chart = valves_over_the_turn(beside)
    first, other = chart.curves
    assert chart.follows == (0, 1)
    assert np.ptp(first.y) == pytest.approx(beside.first.alike.travel, abs=5e-3)
    assert np.ptp(other.y) == pytest.approx(beside.other.alike.travel, abs=5e-3)
    assert np.corrcoef(first.y, other.y)[0, 1] > 0.9
    assert "turned about" in chart.says


def test_a_gear_without_notches_is_level_on_either_side() -> None:
    beside = side_by_side(DIRECT, SLIP)
    chart = cutoffs_over_notches(beside)
    *_, curve, _ = chart.curves
    forward, backward = beside.other.events
    assert curve.x == pytest.approx([-1, 0, 0, 1])
    assert curve.y == pytest.approx(
        [backward.front.cutoff.percent] * 2 + [forward.front.cutoff.percent] * 2  # type: ignore[union-attr]
    )
    assert lead_over_cutoff(beside) is None


def test_lead_is_drawn_over_cut_off() -> None:
    beside = side_by_side(DIRECT, OUTSIDE)
    chart = lead_over_cutoff(beside)
    assert chart is not None
    link, level = chart.curves
    assert np.all(np.diff(link.x) > 0)
    # the lead of a link motion with open rods grows as it is linked up
    assert np.all(np.diff(link.y) < 0)
    assert np.ptp(level.y) < 0.01
    assert "throughout with Walschaerts' gear" in chart.says


def test_columns_hold_the_measures_and_the_events() -> None:
    beside = side_by_side(DIRECT, OUTSIDE)
    table = measures_table(beside)
    assert [row[0] for row in table.rows] == [one.name for one in beside.measures]
    for row, one in zip(table.rows, beside.measures, strict=True):
        if one.unit == "mm":
            assert row[1:3] == (one.first, one.other)
        assert one.says.endswith(str(row[3]))
    events = events_table(beside)
    places = {beside.reverser_other, *(one.reverser for one in beside.other.events)}
    rows = [row for row in events.rows if row[0] == "Walschaerts' gear"]
    assert len(rows) == 2 * len(places)
