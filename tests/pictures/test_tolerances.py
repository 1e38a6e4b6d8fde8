"""The pictures of the tolerances: to scale, complete, and drawable."""

from __future__ import annotations

import numpy as np
import pytest

from tests.tolerances_for_tests import worked
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Label, Path, Scene, Table
from weighshaft.pictures.tolerances import (
    beat_chart,
    cutoff_chart,
    pictures,
    ranking,
    scatter_table,
    sensitivity_table,
)
from weighshaft.tolerances import Tolerances

NAMES = ["slip eccentric, outside", "Stephenson, outside", "Walschaerts, inside",
         "oscillating, outside"]  # fmt: skip


@pytest.mark.parametrize("name", NAMES)
def test_every_picture_is_finite_says_something_and_can_be_drawn(name: str) -> None:
    for picture in pictures(Tolerances(), worked(name)):
        if isinstance(picture, Scene):
            for one in picture.still:
                assert np.isfinite(one.points if isinstance(one, Path) else one.at).all()
        elif isinstance(picture, Table):
            assert picture.rows
            assert all(len(row) == len(picture.columns) for row in picture.rows)
        if isinstance(picture, Scene | Chart):
            assert len(picture.says) > 60
            assert "nan" not in picture.says
        assert figure(picture).get_axes() or isinstance(picture, Table)


def test_the_bars_are_as_long_as_their_figures() -> None:
    result = worked()
    scene = ranking(result)
    bars = [one.points for one in scene.still if isinstance(one, Path) and one.closed]
    first = result.ranked[0]
    lengths = [np.ptp(bar[:, 0]) for bar in bars]
    wide = [one.points for one in scene.still if isinstance(one, Path) and one.fill == "metal"]
    assert np.ptp(wide[0][:, 0]) == max(lengths)
    for bar, one in zip(wide, result.ranked, strict=False):
        share = abs(one.running / first.running)
        assert np.ptp(bar[:, 0]) == pytest.approx(max(share * max(lengths), 0.15))
    names = [one.text for one in scene.still if isinstance(one, Label) and one.anchor == "end"]
    assert names == [one.dimension.label for one in result.ranked[: len(names)]]
    assert f"{result.three_share:.0f} %" in scene.says


def test_a_gear_with_one_advance_says_that_its_eccentrics_err_alike() -> None:
    assert "erring alike" in ranking(worked()).says
    assert "erring alike" not in ranking(worked("Walschaerts, outside")).says


def test_the_steps_of_the_histogram_hold_every_engine() -> None:
    result = worked()
    chart = beat_chart(Tolerances(), result)
    assert chart.curves[0].y[1:-1:2].sum() == pytest.approx(100.0)
    bell = chart.curves[1]
    width = np.diff(chart.curves[0].x[::2])[0]
    assert np.trapezoid(bell.y, bell.x) == pytest.approx(100.0 * width, rel=0.01)
    assert f"{len(result.trials.percent)} engines" in chart.says


def test_the_bands_are_those_of_the_scatter() -> None:
    result = worked()
    chart = cutoff_chart(result)
    row = result.sensitivities.notches.index(0.55)
    named = {one.label: one for one in chart.curves if one.label}
    linear = {one.end: one.linear for one in result.scatter
              if (one.notch, one.event) == (0.55, "cutoff")}  # fmt: skip
    for end in ("front", "back"):
        assert named[end].y[row] == pytest.approx(1.645 * linear[end])
    assert named["difference"].y[row] == pytest.approx(1.645 * (result.linear_running or 0.0))


def test_the_table_gives_a_tenth_of_a_millimetre_and_a_degree() -> None:
    result = worked()
    table = sensitivity_table(result)
    assert len(table.rows) == len(result.dimensions)
    row = result.sensitivities.notches.index(0.55)
    told = {str(line[0]): line for line in table.rows}
    for label, field, step in (
        ("Steam lap, by 0.1 mm", "steam_lap", 0.1), ("Angle of advance, by 1°", "advance", 1.0),
    ):  # fmt: skip
        i = [one.field for one in result.dimensions].index(field)
        by = step * result.sensitivities.by_percent[i, row]
        assert told[label][2] == f"{by[0, 1]:+.2f}"
        assert told[label][3] == f"{by[1, 1]:+.2f}"


def test_the_scatter_of_both_ends_is_told_in_both_notches() -> None:
    table = scatter_table(worked())
    assert len(table.rows) == 2 * 5 * 2
    assert len(scatter_table(worked("slip eccentric, outside")).rows) == 5 * 2
