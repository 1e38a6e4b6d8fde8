"""Runs of a sample engine by the true cycle, refusals, findings and advice."""

from __future__ import annotations

import dataclasses
import functools
from typing import Any

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tests.designs import ROOT
from weighshaft import bench, job
from weighshaft.bench.coefficients import prior_of
from weighshaft.bench.decisions import (
    FUEL,
    FUEL_FULL,
    KEPT,
    KINDS,
    PULL,
    RAISED,
    STANDING,
    WATER,
    Bench,
    Run,
)
from weighshaft.bench.fit import fit
from weighshaft.bench.fitting import mark_of
from weighshaft.bench.judgement import kinds_for
from weighshaft.bench.model import Reckoner, as_read, deviation, measured, why_not
from weighshaft.bench.plan import advised
from weighshaft.design import Design, DesignRefused, read
from weighshaft.job.measured import bench_given
from weighshaft.job.steamed import engine_of
from weighshaft.measures import GRAVITY
from weighshaft.sizes import SizeError
from weighshaft.steam import SteamSide


@functools.cache
def worked(name: str) -> tuple[Design, job.Work, bench.Stand]:
    design = read(ROOT / "sample_designs" / f"{name}.loco.json")
    design = dataclasses.replace(design, bench=Bench(), steam=SteamSide())
    work = job.work(design)
    results = {one: getattr(work, one) for one in ("scale", "cylinders", "motion", "firing")}
    return design, work, bench_given(design, results, engine_of(design, results))


def of(name: str, *runs: Run, **fitted: Any) -> Any:
    _, _, stand = worked(name)
    return bench.work(Bench(runs=runs, **fitted), stand=stand)


def logs_now(stand: bench.Stand) -> Any:
    return np.log([one.now for one in stand.coefficients])


def test_what_is_reckoned_is_what_the_other_chapters_say() -> None:
    """With the design's own coefficients, steam and fire must say the same of one running."""
    design, work, stand = worked("wagtail")
    speed, notch = work.steam.speed, work.steam.notch
    runs = (
        Run(what=WATER, water=1.0, minutes=60.0, speed=speed, notch=notch),
        Run(what=WATER, water=1.0, turns=1000.0, speed=speed, notch=notch),
        Run(what=PULL, pull=1.0, speed=speed, notch=notch),
        Run(what=RAISED, minutes=9.0, pressure=design.cylinders.pressure),
        Run(what=FUEL_FULL, fuel=1.0, minutes=10.0),
    )
    shown = np.exp(
        Reckoner(runs, stand.steam, stand.engine, stand.line, stand.fire)(logs_now(stand))
    )
    # the chapter on steam may cut its turn more finely
    assert shown[0] == pytest.approx(1000 * work.steam.water_an_hour, rel=0.03)
    assert shown[1] == pytest.approx(1000 * work.steam.steam_per_turn, rel=0.03)
    drag = design.cylinders.haulage.rolling_resistance / 100 * design.cylinders.engine_weight
    assert shown[2] == pytest.approx(work.steam.pull - drag * GRAVITY, rel=0.03)
    assert shown[3] == pytest.approx(work.firing.raise_time, rel=0.02)
    assert shown[4] == pytest.approx(10 * work.firing.burnt, rel=0.01)


def test_a_fire_that_just_keeps_the_pressure_burns_its_full_fuel() -> None:
    """Both ways of looking at one balance of heat must agree."""
    _, _, stand = worked("wagtail")
    assert stand.fire is not None
    kept = Run(what=KEPT, pressure=1.0)
    reckoner = Reckoner((kept,), stand.steam, stand.engine, stand.line, stand.fire)
    logs = logs_now(stand)
    # the rate of fuel at which the gauge would stand still at that pressure
    for _ in range(80):
        off = reckoner(logs)[0] - np.log(measured(kept))
        logs[5] -= off
        if abs(off) < 1e-9:
            break
    weighed = (
        Run(what=FUEL, fuel=1.0, minutes=10.0, pressure=1.0),
        Run(what=FUEL_FULL, fuel=1.0, minutes=10.0),
    )
    shown = Reckoner(weighed, stand.steam, stand.engine, stand.line, stand.fire)(logs)
    assert shown[0] == pytest.approx(shown[1], abs=0.01)


def test_a_true_engine_is_found_again() -> None:
    _, _, stand = worked("wagtail")
    runs = (
        Run(what=WATER, water=1.0, minutes=5.0),
        Run(what=PULL, pull=1.0),
        Run(what=FUEL, fuel=1.0, minutes=5.0),
        Run(what=FUEL_FULL, fuel=1.0, minutes=5.0),
    )
    marches: list[int] = []
    reckoner = Reckoner(
        runs, stand.steam, stand.engine, stand.line, stand.fire, told=marches.append
    )
    centre, spread = prior_of(stand.coefficients)
    truth = centre + spread * np.array([0.0, 0.9, 0.0, -0.8, 0.6, 1.1])
    error = np.array([deviation(run, 0.05) for run in runs])
    found = fit(reckoner, reckoner(truth), 1e-2 * error, centre, spread)
    assert found.settled
    # film and ports can barely be told, and what they leave open goes into the others
    assert (np.abs(found.logs - truth) <= found.within + 0.01).all()
    assert found.logs[[1, 3, 4, 5]] == pytest.approx(truth[[1, 3, 4, 5]], abs=0.06)
    assert marches == list(range(1, len(marches) + 1))
    assert len(marches) < 20, "one running condition is marched once for each set of coefficients"


def test_a_fit_is_stopped_between_marches() -> None:
    _, _, stand = worked("wagtail")
    chapter = Bench(runs=(Run(what=WATER, water=50.0, minutes=5.0),))
    with pytest.raises(bench.Stopped):
        bench.fitted(chapter, stand, stop=lambda: True)
    with pytest.raises(SizeError, match="No run has been measured"):
        bench.fitted(Bench(runs=(Run(),)), stand)


def test_what_to_measure_goes_by_what_would_tell_most() -> None:
    """The advice by typical slopes begins as the advice by true marches of a small engine."""
    _, _, stand = worked("wagtail")
    kinds = kinds_for("gas")
    probes = tuple(
        Run(what=kind, minutes=9.0, pressure=stand.line.pressure if kind != KEPT else 1.0,
            water=1.0, pull=1.0, fuel=1.0)
        for kind in kinds
    )  # fmt: skip
    reckoner = Reckoner(probes, stand.steam, stand.engine, stand.line, stand.fire)
    centre, spread = prior_of(stand.coefficients)
    base = reckoner(centre)
    steps = np.diag(0.3 * spread)
    slopes = np.array([base - reckoner(centre - step) for step in steps]).T / (0.3 * spread)
    told = {
        kind: float(np.linalg.norm(slope * spread)) / deviation(run, 0.05)
        for kind, slope, run in zip(kinds, slopes, probes, strict=True)
    }
    best = sorted(told, key=lambda kind: -told[kind])[:3]
    (first, *_) = advised(stand.coefficients, (), 0.05, kinds)
    assert first.what in best
    assert first.then < first.now


def test_what_has_been_measured_is_not_asked_for_first_again() -> None:
    _, _, stand = worked("wagtail")
    kinds = kinds_for("gas")
    runs: list[Run] = []
    asked = []
    for _ in range(4):
        (first, *_) = advised(stand.coefficients, runs, 0.05, kinds)
        asked.append(first.what)
        runs.append(Run(what=first.what))
    assert len(set(asked)) == len(asked)
    assert set(kinds_for("coal")) == set(KINDS) - {FUEL_FULL, KEPT}
    assert set(kinds_for(None)) == {WATER, PULL, STANDING}


def test_nothing_measured_says_what_to_measure_and_how() -> None:
    result = of("wagtail")
    (finding,) = result.findings
    assert finding.level == "fine"
    assert "Nothing has been measured" in finding.says
    assert ":" in finding.mend
    assert result.measured == result.used == result.determined == 0
    assert result.takes == ()
    assert any("safety valve" in one for one in result.cautions)


@pytest.mark.parametrize(
    ("run", "words"),
    [
        (Run(), "no figure yet"),
        (Run(what=WATER, water=10.0), "neither minutes nor turns"),
        (Run(what=FUEL_FULL, fuel=10.0, turns=5.0), "wants its minutes"),
        (Run(what=RAISED, minutes=4.0), "which pressure was reached"),
        (Run(what=RAISED, minutes=0.2, pressure=1.0), "before the fire burns well"),
        (Run(what=PULL, pull=4000.0), "the rail holds"),
    ],
)
def test_a_run_that_tells_nothing_takes_no_part(run: Run, words: str) -> None:
    _, _, stand = worked("wagtail")
    assert words in why_not(run, stand.line, stand.fire)
    said = [one for one in of("wagtail", run).findings if words in one.says]
    assert [one.level for one in said] == ["check"]
    assert said[0].fields == ("bench.runs.0.what",)


def test_without_a_fire_and_with_coal_some_runs_cannot_be_used() -> None:
    _, _, stand = worked("wagtail")
    run = Run(what=KEPT, pressure=1.0)
    assert "cannot be worked" in why_not(run, stand.line, None)
    assert stand.fire is not None
    coal = dataclasses.replace(stand.fire, fuel="coal")
    assert "answers the blast" in why_not(run, stand.line, coal)


@given(
    what=st.sampled_from(KINDS),
    figure=st.one_of(st.none(), st.floats(allow_nan=True, allow_infinity=True)),
    minutes=st.one_of(st.none(), st.floats(-10, 2000)),
    speed=st.one_of(st.none(), st.floats(-10, 100)),
    within=st.one_of(st.none(), st.floats(-10, 200)),
    pressure=st.one_of(st.none(), st.floats(-1, 40)),
)
@settings(max_examples=80)
def test_what_cannot_be_used_is_refused_in_words(
    what: str, figure: float | None, minutes: float | None, speed: float | None,
    within: float | None, pressure: float | None,
) -> None:  # fmt: skip
    given: dict[str, Any] = {
        "water": figure, "pull": figure, "fuel": figure, "minutes": minutes, "speed": speed,
        "within": within, "pressure": pressure,
    }  # fmt: skip
    try:
        run, said = Run(what=what, **given), None
    except SizeError as refused:
        run, said = Run(), refused
    if said is not None:
        # names the size, and what would do
        assert said.field
        assert "would do" in str(said) or "finite" in str(said)
        return
    _, _, stand = worked("wagtail")
    why = why_not(run, stand.line, stand.fire)
    assert "\n" not in why
    if not why:
        assert np.isfinite(deviation(run, 0.05))
        assert as_read(run, measured(run)) == pytest.approx(run.figure)
    result = of("wagtail", run)
    assert all(np.isfinite(one.now) for one in result.advice)


def test_a_design_file_with_nonsense_is_refused(design: Design) -> None:
    for changes, words in (
        ({"bench.spread": 0.0}, "0.5 to 40"),
        ({"bench.taking.taken": "all of it"}, "is not one of"),
    ):
        with pytest.raises(DesignRefused, match=words):
            design.changed(changes)
    with pytest.raises(SizeError, match="300 would do"):
        Run(note="x" * 301)


def test_a_kept_fit_that_is_not_whole_is_not_believed() -> None:
    """A file may have been written by anybody: a fit with holes or twists is taken as none."""
    _, _, stand = worked("wagtail")
    run = Run(what=WATER, water=50.0, minutes=5.0)
    right = mark_of(Bench(runs=(run,)), stand)
    twisted = bench.Found(name="valve_gap", value=0.004, low=0.02, high=0.001, determined=True)
    for kept in (
        bench.Fitted(of=right, coefficients=(twisted,), runs=(bench.Predicted(),)),
        bench.Fitted(of=right, coefficients=(twisted,), runs=()),
        bench.Fitted(of="another", coefficients=(twisted,), runs=(bench.Predicted(),)),
    ):
        assert of("wagtail", run, fitted=kept).takes == ()
    good = dataclasses.replace(twisted, low=0.003, high=0.005)
    kept = bench.Fitted(of=right, coefficients=(good,), runs=(bench.Predicted(after=49.0),))
    result = of("wagtail", run, fitted=kept)
    assert result.takes == (("steam.assumed.valve_gap", 0.004),)
    assert any("4 µm, 3 µm to 5 µm" in one.says for one in result.findings)
