"""Pictures of the run: they say what they show, and can be drawn whatever the engine does."""

from __future__ import annotations

import math
from typing import Any

import numpy as np
import pytest

from tests.running_for_tests import ROLLING, raising, worked
from weighshaft.pictures.paper import figure
from weighshaft.pictures.running import (
    over_distance,
    over_time,
    pictures,
    plan,
    profile_chart,
    pull_chart,
)
from weighshaft.pictures.running_tables import table_of_run, table_of_trains
from weighshaft.pictures.scene import Chart, Path, Scene, Table
from weighshaft.running import Running, RunningResult
from weighshaft.running.decisions import GREASY, Driving, Line, Section, Train

STEEP = Line(sections=(Section(length=30_000), Section(length=90_000, grade=25)), closed=False)
WORKED: list[tuple[Running, dict[str, Any]]] = [
    (Running(), {}),
    (Running(train=Train(stock=0.0, passengers=0)), {}),
    (Running(train=Train(passengers=8), line=Line(rail=GREASY)), {}),
    (Running(line=STEEP), {}),
    (Running(line=Line(sections=(Section(),), closed=False)), {}),
    (Running(driving=Driving(pace=20.0)), {"raising": raising(heat_full=500.0)}),
    (Running(driving=Driving(minutes=0.5)), {"evenness": None, "speed": None}),
]


@pytest.mark.parametrize(("running", "changes"), WORKED)
def test_every_picture_says_something_and_can_be_drawn(
    running: Running, changes: dict[str, Any]
) -> None:
    made = pictures(running, worked(running, **changes))
    assert len({one.title for one in made}) == len(made)
    for picture in made:
        if isinstance(picture, Scene | Chart):
            assert len(picture.says) > 40
            assert "nan" not in picture.says
        if isinstance(picture, Chart):
            for curve in picture.curves:
                assert np.isfinite(curve.x).all()
                assert np.isfinite(curve.y).any()
        if isinstance(picture, Scene):
            for one in picture.still:
                if isinstance(one, Path):
                    assert np.isfinite(one.points).all()
        if isinstance(picture, Table):
            assert picture.rows
            assert all(len(row) == len(picture.columns) for row in picture.rows)
        assert figure(picture).get_axes() or isinstance(picture, Table)


def curve(chart: Chart, label: str) -> Any:
    return next(one for one in chart.curves if one.label.startswith(label))


def test_the_pull_chart_has_grip_trains_and_boiler() -> None:
    result = worked()
    chart = pull_chart(result)
    assert curve(chart, "rail holds").y == pytest.approx(result.grip)
    level = curve(chart, "87 kg, level")
    crossed = np.interp(result.balancing, level.x, level.y)
    boiler = curve(chart, "boiler")
    good = np.isfinite(boiler.y)
    assert np.interp(result.balancing, boiler.x[good], boiler.y[good]) == pytest.approx(
        crossed, rel=0.02
    )


def test_slips_and_stalls_are_marked_where_they_are() -> None:
    running = Running(line=STEEP, train=Train(passengers=6))
    result = worked(running)
    assert result.run.slips
    first = next(one.distance for one in result.run.moments if one.kind == "slip")
    for chart in (profile_chart(result), over_distance(result)):
        marks = [one for one in chart.curves if one.pen == "stop" and one.label == "slips"]
        assert marks[0].x[0] == pytest.approx(first)
    assert curve(profile_chart(result), "stalls").x[0] == pytest.approx(result.distance)
    assert "slips, stalls or stands" in profile_chart(result).says


def test_on_a_circuit_marks_stand_within_the_lap() -> None:
    line = Line(sections=(Section(length=20_000), Section(length=20_000, grade=20),
                          Section(length=20_000, grade=-20)))  # fmt: skip
    result = worked(Running(line=line, train=Train(passengers=2)))
    chart = profile_chart(result)
    assert all(one.x.max() <= 60 for one in chart.curves)


def test_the_profile_is_drawn_with_its_curves() -> None:
    result = worked()
    chart = profile_chart(result)
    rail = curve(chart, "rail")
    assert rail.y.max() == pytest.approx(1000 * (0.2 + 37.69911 / 200))
    assert [band.label for band in chart.bands] == ["R 12 m", "R 12 m"]
    assert chart.bands[0].high - chart.bands[0].low == pytest.approx(12 * math.pi, rel=1e-5)


def test_the_plan_is_to_scale_and_closes() -> None:
    scene = plan(worked())
    parts = [one.points for one in scene.still if isinstance(one, Path)]
    assert scene.to_scale
    assert len(parts) == 6
    for before, after in zip(parts, [*parts[1:], parts[0]], strict=True):
        assert before[-1] == pytest.approx(after[0], abs=1.0)


def test_the_run_is_drawn_in_parts_of_what_it_began_with() -> None:
    result: RunningResult = worked(rolling=ROLLING)
    time = over_time(result)
    assert curve(time, "pressure").y[0] == pytest.approx(100)
    assert curve(time, "fuel").y[-1] == pytest.approx(100 * result.fuel_left / 700)
    assert curve(time, "speed").y.max() < 110
    way = over_distance(result)
    assert curve(way, "speed").x.max() <= 2 * result.profile.length


def test_tables_say_what_holds_the_train_and_how_the_run_went() -> None:
    result = worked()
    trains = table_of_trains(result)
    assert len(trains.rows) == 6
    assert [row for row in trains.rows if str(row[0]).startswith("▸ 87.0")]
    run = table_of_run(result)
    assert run.rows[0][0] == "0.0"
    assert run.rows[-1][0] == "30.0"
