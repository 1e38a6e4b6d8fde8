"""A fit beside the page: begun, stopped, kept with the design and taken over."""

from __future__ import annotations

import dataclasses
from pathlib import Path

import pytest

from tests.designs import ROOT
from weighshaft.bench import Bench, Run
from weighshaft.bench.decisions import RAISED, WATER
from weighshaft.dashboard import measuring
from weighshaft.dashboard.asked import answer
from weighshaft.dashboard.desk import Desk
from weighshaft.dashboard.shelf import Shelf
from weighshaft.dashboard.view import view
from weighshaft.design import DesignRefused, from_document, read, to_document

LONG = 120  # seconds that nothing here needs; a fit that hangs is a failure
WAGTAIL = ROOT / "sample_designs" / "wagtail.loco.json"
RUNS = (Run(what=WATER, water=90.0, minutes=5.0), Run(what=RAISED, minutes=4.5, pressure=1.5))


@pytest.fixture
def desk(tmp_path: Path) -> Desk:
    design = dataclasses.replace(read(WAGTAIL), bench=Bench())
    desk = Desk(design, Shelf(tmp_path, WAGTAIL.parent))
    desk.go("bench")
    return desk


def test_nothing_can_be_fitted_before_something_is_measured(desk: Desk) -> None:
    with pytest.raises(DesignRefused, match="add a run first"):
        measuring.begin(desk)
    assert view(desk)[0]["search"]["may"] is False
    with pytest.raises(DesignRefused, match="No fit stands"):
        measuring.take(desk)


def test_a_fit_is_kept_taken_over_and_undone(desk: Desk) -> None:
    desk.take(dataclasses.replace(desk.design, bench=Bench(runs=RUNS)))
    assert view(desk)[0]["search"]["words"]["begin"][1] == "fit_runs"
    measuring.begin(desk)
    with pytest.raises(DesignRefused, match="under way"):
        measuring.begin(desk)
    assert desk.fitting.wait(LONG)
    shown = answer(desk, {"do": "fitting"}).content["search"]
    assert not shown["running"]
    assert shown["takes"]
    assert desk.work.bench.stands
    assert [one.used for one in desk.design.bench.fitted.runs] == ["yes", "yes"]
    assert from_document(to_document(desk.design)) == desk.design
    before = desk.design
    measuring.take(desk)
    (gap,) = [one for one in before.bench.fitted.coefficients if one.name == "valve_gap"]
    assert desk.design.steam.assumed.valve_gap == pytest.approx(gap.value, rel=1e-3)
    assert desk.work.bench.stands, "taking over does not put the fit out of date"
    assert view(desk)[0]["search"]["takes"] is False
    desk.undo()
    assert desk.design == before
    # another bore is another engine
    desk.edit("cylinders.bore", "11.2")
    assert not desk.work.bench.stands
    assert desk.work.bench.takes == ()


def test_a_fit_can_be_stopped(desk: Desk) -> None:
    desk.take(dataclasses.replace(desk.design, bench=Bench(runs=RUNS)))
    measuring.begin(desk)
    measuring.stop(desk)
    assert desk.fitting.wait(LONG)
    assert "Stopped" in measuring.fit_payload(desk)["says"]
    assert desk.design.bench.fitted.coefficients == ()


def test_runs_changed_meanwhile_are_not_overwritten(desk: Desk) -> None:
    desk.take(dataclasses.replace(desk.design, bench=Bench(runs=RUNS)))
    measuring.begin(desk)
    assert desk.edit("bench.runs.0.water", "95")
    assert desk.fitting.wait(LONG)
    assert "changed meanwhile" in measuring.fit_payload(desk)["says"]
    assert desk.design.bench.fitted.coefficients == ()
