"""The pictures of the air test: the readings lie on the curves, and nothing is hidden."""

from __future__ import annotations

import math
from dataclasses import replace

import numpy as np
import pytest

from tests.valve_setting.engines import (
    ENGINES,
    air_test,
    bench_of,
    given_of,
    measured,
    plan_of,
    values_of,
)
from weighshaft.pictures.paper import figure
from weighshaft.pictures.scene import Chart, Label, Path, Picture, Scene, Table
from weighshaft.pictures.valve_setting import disc, event_tables, path_chart, pictures
from weighshaft.valve_setting import AirTest, ValveSettingResult, work
from weighshaft.valve_setting.decisions import CUTOFF, EVENTS, FORWARD

EACH = pytest.mark.parametrize("name", ENGINES)


def an_engine(name: str, *, gross: bool = False) -> tuple[AirTest, ValveSettingResult]:
    bench, plan = bench_of(name), plan_of(name)
    hidden = np.zeros((1, len(bench.faults)))
    hidden[0, :2] = 0.25, -2.5
    values = values_of(measured(name, plan, hidden, None), plan)
    if gross:
        at = next(i for i, one in enumerate(plan) if (one.gear, one.what) == (FORWARD, CUTOFF))
        values[at] = (values[at] or 0.0) + 12.0
    test = air_test(plan, values)
    return test, work(test, **given_of(name))


def sound(picture: Picture) -> None:
    if isinstance(picture, Chart):
        assert len(picture.says) > 40
        assert all(np.isfinite(one.x).all() and np.isfinite(one.y).all() for one in picture.curves)
    elif isinstance(picture, Scene):
        assert len(picture.says) > 40
        assert all(np.isfinite(o.points).all() for o in picture.still if isinstance(o, Path))
    else:
        assert picture.rows
        assert all(len(row) == len(picture.columns) for row in picture.rows)
        said = " ".join(str(cell) for row in picture.rows for cell in row)
        assert "nan" not in said
    assert figure(picture) is not None


@EACH
def test_every_picture_is_finite_and_can_be_drawn(name: str) -> None:
    for made in (
        pictures(*an_engine(name)),
        pictures(AirTest(), work(AirTest(), **given_of(name))),
    ):
        assert isinstance(made[0], Chart)
        for picture in made:
            sound(picture)


@EACH
def test_readings_lie_on_the_curve_as_found_and_a_gross_one_is_red_and_off_it(name: str) -> None:
    _, result = an_engine(name, gross=True)
    assert result.shown is not None
    chart = path_chart(result, result.shown, 1.0)
    found = next(one for one in chart.curves if one.label == "as found")
    crosses = [one for one in chart.curves if one.label.isdigit()]
    assert len(crosses) == 12
    for cross in crosses:
        x, y = cross.x[2], cross.y[2]
        away = abs(float(np.interp(x, found.x, found.y)) - y)
        assert (away < 0.06) == (cross.pen == "trace"), cross.label
    assert [one.pen for one in crosses].count("stop") == 1


def test_the_disc_runs_clockwise_from_the_front_with_every_event_on_it() -> None:
    test, result = an_engine("Walschaerts, inside")
    assert result.shown is not None
    scene = disc(result, result.shown)
    for number, one in enumerate(test.readings, 1):
        marks = [o for o in scene.still if isinstance(o, Path) and o.part == f"reading {number}"]
        if one.what not in EVENTS or one.number is None:
            assert marks == []
            continue
        x, y = marks[0].points[1]
        assert math.degrees(math.atan2(-y, x)) % 360 == pytest.approx(one.number % 360)
    texts = [one.text for one in scene.still if isinstance(one, Label)]
    assert any(text.startswith("2: ") and "air stops, front, forward" in text for text in texts)


def test_the_tables_tell_the_events_and_what_is_out() -> None:
    test, result = an_engine("Stephenson, direct")
    assert result.shown is not None
    events = result.shown.events
    table, _ = event_tables(result.shown)
    assert len(table.columns) == 8
    row = table.rows[0]
    assert row[:2] == ("forward", "front")
    for which in range(3):
        assert row[2 + which] == f"{events.percent[which, 0, 0, 1]:.1f} %"
        assert row[5 + which] == events.lead[which, 0, 0]
    tables = {one.title: one for one in pictures(test, result) if isinstance(one, Table)}
    wrong = tables["What is out, right cylinder"]
    assert "determined when it is known" in wrong.note
    by_name = {row[0]: row for row in wrong.rows}
    assert by_name["forward eccentric's angle"][1] == "2.5° late"
    assert by_name["forward eccentric's angle"][4] == "yes"
    assert by_name["valve on its spindle"][1:3] == ("not determined", "–")
    assert "What to move, right cylinder" in tables


def test_an_engine_whose_valves_cannot_be_set_has_no_pictures() -> None:
    _, result = an_engine("slip eccentric")
    assert pictures(AirTest(), replace(result, shown=None)) == ()
