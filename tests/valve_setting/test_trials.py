"""Five hundred engines with hidden faults and noisy readings: is what is stated true?

The readings come from the search for events on the whole linkage, not from the model of
openings that the fit uses; the faults are evenly spread over all that the workshop may be
out by, the noise evenly over what each reading is said to be good to.
"""

from __future__ import annotations

import numpy as np
import pytest

from tests.valve_setting.engines import (
    ENGINES,
    INSTRUMENTS,
    air_test,
    bench_of,
    drawn,
    given_of,
    measured,
    plan_of,
    values_of,
)
from weighshaft.motion.many_events import many_events
from weighshaft.valve_setting import Mends, work
from weighshaft.valve_setting.decisions import EVENTS, FORWARD, LEAD
from weighshaft.valve_setting.fit import fit
from weighshaft.valve_setting.mend import least_move

TRIALS = 500
STATED = 0.95
ENOUGH = 50  # determined in fewer trials than this, a share of them says little
ALWAYS = {
    "Stephenson, direct": ("forward eccentric's angle", "backward eccentric's angle", "steam lap"),
    "Stephenson, rocker": ("forward eccentric's angle", "backward eccentric's angle", "steam lap"),
    "Walschaerts, outside": ("valve on its spindle", "return crank's angle", "eccentric rod"),
    "Walschaerts, inside": ("valve on its spindle", "return crank's angle", "eccentric rod"),
    "slip eccentric": ("valve on its spindle", "forward stop", "backward stop"),
}
EACH = pytest.mark.parametrize("name", ENGINES)


@EACH
def test_what_is_determined_lies_within_what_is_stated(name: str) -> None:
    bench, rng = bench_of(name), np.random.default_rng(1875)
    hidden = drawn(name, TRIALS, rng)
    found = measured(name, plan_of(name), hidden, rng)
    fitted = fit(bench, found.points, found.theta, found.target)
    determined = fitted.within <= bench.possible / 2
    inside = np.abs(fitted.faults - hidden) <= fitted.within
    for i, fault in enumerate(bench.faults):
        known = determined[:, i]
        if fault.name in ALWAYS[name]:
            assert known.mean() > 0.99, fault.name
        if fault.sort != "disc" and known.sum() >= ENOUGH:
            assert inside[known, i].mean() >= STATED, fault.name
        # what is not determined is stated as loosely as it is known
        assert inside[:, i].mean() >= STATED, fault.name
    # a stated doubt that is far too large would also pass: it may be up to thrice the true one
    away = np.abs(fitted.faults - hidden)
    assert (np.quantile(away, 0.95, axis=0) > fitted.within.mean(axis=0) / 3).all()
    if name.startswith("Stephenson"):
        assert not determined[:, 0].any()  # valve and rods move the valve alike


@EACH
def test_two_leads_alone_determine_nothing_of_eccentrics_and_laps(name: str) -> None:
    bench, rng = bench_of(name), np.random.default_rng(2)
    plan = [one for one in plan_of(name) if one.gear == FORWARD and one.what == LEAD]
    found = measured(name, plan, drawn(name, TRIALS, rng), rng)
    fitted = fit(bench, found.points, found.theta, found.target)
    determined = fitted.within <= bench.possible / 2
    for i, fault in enumerate(bench.faults):
        if fault.sort in ("angle", "throw", "lap", "exhaust lap"):
            assert not determined[:, i].any(), fault.name


@EACH
def test_one_gross_reading_is_set_aside_and_the_rest_still_tells(name: str) -> None:
    bench, rng = bench_of(name), np.random.default_rng(3)
    plan = plan_of(name)
    hidden = drawn(name, TRIALS, rng)
    found = measured(name, plan, hidden, rng)
    events = [i for i, one in enumerate(plan) if one.what in EVENTS[:2] and one.gear == FORWARD]
    wrong = rng.choice(events, TRIALS)
    theta = found.theta.copy()
    # far beyond the doubt, yet not so far that it could not be
    theta[np.arange(TRIALS), wrong] += rng.choice([-1, 1], TRIALS) * rng.uniform(8, 15, TRIALS)
    fitted = fit(bench, found.points, theta, found.target)
    caught = ~fitted.used[np.arange(TRIALS), wrong]
    assert caught.mean() > 0.97
    others = np.isfinite(found.theta) & ~fitted.used
    others[np.arange(TRIALS), wrong] = False
    assert others.sum(axis=1).mean() < 0.1
    inside = np.abs(fitted.faults - hidden) <= fitted.within
    determined = fitted.within <= bench.possible / 2
    for i, fault in enumerate(bench.faults):
        if determined[:, i].sum() >= ENOUGH:
            assert inside[determined[:, i], i].mean() >= STATED - 0.01, fault.name


@EACH
def test_mending_brings_the_true_engine_nearer_to_the_design(name: str) -> None:
    bench, rng, count = bench_of(name), np.random.default_rng(4), 12
    plan, given = plan_of(name), given_of(name)
    hidden = drawn(name, count, rng)
    # what nothing that can be moved would mend is left out here
    stays = [f.sort in ("throw", "lever", "lap", "exhaust lap") for f in bench.faults]
    hidden = np.where(stays, 0.0, hidden)
    found = measured(name, plan, hidden, rng)
    left = hidden.copy()
    for engine in range(count):
        result = work(air_test(plan, values_of(found, plan, engine)), **given)
        assert result.shown is not None
        for one in result.shown.mendings:
            left[engine, one.fault] += one.amount
    theta = np.linspace(0, 360, 24, endpoint=False)
    rows = [1.0, -1.0]

    def away(faults: np.ndarray) -> np.ndarray:
        gear, _ = bench.spread(faults)
        xi = gear.pose(bench.crank, theta[None], np.array(rows)[:, None]).valve
        right = bench.gear.pose(bench.crank, theta[None], np.array(rows)[:, None]).valve
        off = np.broadcast_to(xi, (len(faults), 2, 24)) - right + faults[:, :1, None]
        return np.sqrt(np.mean(off**2, axis=(1, 2)))

    # a valve nearer than what is worth a turn of the nut is left where it is
    least = least_move(Mends(), INSTRUMENTS)
    assert (away(left) < np.maximum(0.35 * away(hidden), least)).all()
    gear, valve = bench.spread(left)
    mended = many_events(
        bench.crank, valve, gear, rows, constant=np.full((count, 1), bench.setting)
    )
    design = many_events(bench.crank, bench.valve, bench.gear, rows)
    assert np.abs(mended.lead - design.lead).max() < 0.12
