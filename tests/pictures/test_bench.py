"""Pictures of measured runs: what they say, and that nothing is shown that is not known."""

from __future__ import annotations

import dataclasses

import numpy as np

from tests.bench.test_bench import worked
from weighshaft import bench
from weighshaft.bench.decisions import PULL, RAISED, WATER, Bench, Run
from weighshaft.bench.fitting import mark_of
from weighshaft.pictures.bench import pictures
from weighshaft.pictures.scene import Chart, Table

RUNS = (
    Run(what=WATER, water=50.0, minutes=5.0),
    Run(what=RAISED, minutes=6.0, pressure=1.0),
    Run(what=PULL),
)


def kept() -> tuple[Bench, bench.BenchResult]:
    _, _, stand = worked("wagtail")
    found = bench.Found(name="valve_gap", value=0.004, low=0.003, high=0.005, determined=True)
    reckoned = (
        bench.Predicted(measured=50.0, before=25.0, after=49.0, band=8.0),
        bench.Predicted(measured=6.0, before=5.0, after=12.0, band=8.0, used="set aside"),
        bench.Predicted(used="could not"),
    )
    chapter = Bench(runs=RUNS)
    fitted = bench.Fitted(of=mark_of(chapter, stand), coefficients=(found,), runs=reckoned)
    chapter = dataclasses.replace(chapter, fitted=fitted)
    return chapter, bench.work(chapter, stand=stand)


def test_the_chart_says_how_far_out_the_runs_were_reckoned() -> None:
    off = next(one for one in pictures(*kept()) if isinstance(one, Chart))
    assert "worst run is reckoned 50 % out" in off.says
    assert "after it, 2 % of those used" in off.says
    marks = {one.label: one for one in off.curves if one.label}
    assert np.allclose(marks["before the fit"].y, -50)
    assert np.allclose(marks["after"].y, -2)


def test_the_tables_show_before_and_after_and_what_is_not_known() -> None:
    tables = {one.title: one for one in pictures(*kept()) if isinstance(one, Table)}
    first, second, third = tables["Measured, and reckoned before and after the fit"].rows
    assert first[2:] == ("50 ml", "5 %", "25", "49", "± 8 %", "yes")
    assert second[-1] == "set aside"
    assert third[2:] == ("–", "10 %", "–", "–", "–", "has no figure yet")
    gap = next(row for row in tables["Coefficients before and after"].rows if "gap" in str(row[0]))
    assert gap[2:] == ("1 µm to 25 µm", "4 µm", "3 µm to 5 µm", "yes")


def test_without_a_fit_nothing_is_shown_as_reckoned() -> None:
    _, _, stand = worked("wagtail")
    for chapter in (Bench(), Bench(runs=RUNS)):
        shown = pictures(chapter, bench.work(chapter, stand=stand))
        assert not [one for one in shown if one.title.startswith("Runs: how far")]
        (known,) = [one for one in shown if isinstance(one, Chart)]
        assert known.says.startswith("0 of 6")
