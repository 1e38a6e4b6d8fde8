"""The pictures of axleboxes on springs show the events that were worked."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.gears_for_tests import ALL, CRANK, DIRECT
from weighshaft.motion import SlideValve, ValveSetting
from weighshaft.motion.axlebox import AxleboxEffect, axlebox_effect
from weighshaft.pictures.motion_axlebox import (
    changes_table,
    cutoff_over_rise,
    events_at_rises,
    pictures,
)
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Table

VALVE = SlideValve(2.2, 0.1, 3.0)


def effect_of(name: str, lap: float = 2.2) -> AxleboxEffect:
    gear = ALL[name]
    valve = replace(VALVE, admission=gear.admission, steam_lap=lap)
    return axlebox_effect(CRANK, gear, valve, ValveSetting(), rise=1.2, running_notch=0.5)


@pytest.mark.parametrize("name", ALL)
def test_cut_off_is_drawn_over_the_rise(name: str) -> None:
    effect = effect_of(name)
    chart = cutoff_over_rise(effect)
    front, back = chart.curves
    assert front.x == pytest.approx(effect.rises)
    assert front.y == pytest.approx([one.front.cutoff.percent for one in effect.running])  # type: ignore[union-attr]
    assert back.y == pytest.approx([one.back.cutoff.percent for one in effect.running])  # type: ignore[union-attr]
    assert f"{back.y[-1]:.1f} %" in chart.says


def test_ends_that_stay_shut_are_left_out() -> None:
    chart = cutoff_over_rise(effect_of("direct", lap=20.0))
    assert chart.curves == ()
    assert "neither" in chart.says


def test_every_rise_has_its_rows() -> None:
    effect = effect_of("outside")
    table = events_at_rises(effect)
    assert len(table.rows) == 10
    assert {len(row) for row in table.rows} == {len(table.columns)}
    assert [row[0] for row in table.rows[::2]] == pytest.approx(effect.rises)
    assert table.rows[5][6] == effect.running[2].back.lead


def test_changes_are_those_of_the_effect() -> None:
    effect = effect_of("slip")
    table = changes_table(effect)
    assert [row[:2] for row in table.rows] == [
        ("+1.00", "front"), ("+1.00", "back"), ("-1.00", "front"), ("-1.00", "back")
    ]  # fmt: skip
    (rate,) = [
        one.per_mm for one in effect.changes
        if (one.reverser, one.end, one.event) == (-1.0, "back", "release")
    ]  # fmt: skip
    assert table.rows[3][4] == f"{rate:.2f} %"


def test_all_can_be_put_on_paper() -> None:
    effect = axlebox_effect(CRANK, DIRECT, VALVE, ValveSetting(), rise=1.0, running_notch=0.5)
    for made in pictures(effect):
        assert isinstance(made, Chart | Table)
        if isinstance(made, Chart):
            assert all(np.isfinite(curve.y).all() for curve in made.curves)
            figure(made)
