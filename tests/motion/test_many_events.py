"""Events of many gears at once agree with those of one gear on the linkage itself."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from tests.motion.test_many import ALL, CRANK, lengths
from weighshaft.motion import SlideValve, Stephenson, ValveSetting, events_over
from weighshaft.motion.many import spread
from weighshaft.motion.many_events import EVENTS, many_events

NOTCHES = np.array([1.0, 0.6, -0.5, -1.0])
VALVE = SlideValve(steam_lap=2.5, exhaust_lap=0.1, port_width=3.0)


@pytest.mark.parametrize("rule", ["equal leads", "equal cut-offs"])
@pytest.mark.parametrize("name", ALL)
def test_events_are_those_of_each_gear(name: str, rule: str) -> None:
    gear, rng = ALL[name], np.random.default_rng(3)
    valve, setting = (
        replace(VALVE, admission=getattr(gear, "admission", "outside")),
        ValveSetting(rule=rule),
    )
    notches = NOTCHES if gear.notched else np.array([1.0, -1.0])
    rows = {
        field: getattr(gear, field) * (1 + 0.003 * rng.uniform(-1, 1, 3))
        for field in lengths(gear)
        if abs(getattr(gear, field)) > 1
    }
    many = spread(gear, rows)
    rough = many_events(CRANK, valve, many, notches, setting=setting)
    fine = many_events(CRANK, valve, many, notches, setting=setting, polished=True)
    assert rough.turns.all()
    tight = 1e-8 if rule == "equal leads" else 1e-3  # the setting is found between the angles
    for i in range(3):
        alone = replace(gear, **{field: float(values[i]) for field, values in rows.items()})
        for j, one in enumerate(events_over(CRANK, valve, alone, notches, setting=setting)):
            assert rough.travel[i, j] == pytest.approx(one.travel, abs=4e-3)
            for e, end in enumerate((one.front, one.back)):
                assert rough.lead[i, j, e] == pytest.approx(end.lead, abs=3e-5)
                assert rough.opening[i, j, e] == pytest.approx(end.port_opening, abs=2e-3)
                for n, event in enumerate(EVENTS):
                    found = getattr(end, event)
                    if found is None:
                        assert np.isnan(rough.percent[i, j, e, n])
                        continue
                    assert rough.percent[i, j, e, n] == pytest.approx(found.percent, abs=2e-3)
                    assert fine.percent[i, j, e, n] == pytest.approx(found.percent, abs=tight)
                    off = (fine.angle[i, j, e, n] - found.angle + 180) % 360 - 180
                    assert abs(off) < 10 * tight


def test_laps_and_cranks_stand_in_rows_too() -> None:
    gear, laps = ALL["Stephenson, outside"], np.array([2.0, 2.4, 2.8])
    rods = np.array([110.0, 120.0, 131.0])
    found = many_events(
        spread(CRANK, {"connecting_rod": rods}), spread(VALVE, {"steam_lap": laps}), gear, NOTCHES,
        polished=True,
    )  # fmt: skip
    for i in range(3):
        crank = replace(CRANK, connecting_rod=float(rods[i]))
        valve = replace(VALVE, steam_lap=float(laps[i]))
        for j, one in enumerate(events_over(crank, valve, gear, NOTCHES)):
            assert one.back.cutoff is not None
            assert found.percent[i, j, 1, 1] == pytest.approx(one.back.cutoff.percent, abs=1e-8)
            assert found.lead[i, j, 0] == pytest.approx(one.front.lead, abs=1e-12)


def test_a_port_that_stays_shut_has_no_events() -> None:
    gear = ALL["Stephenson, outside"]
    laps = spread(VALVE, {"steam_lap": np.array([2.5, 9.0])})
    found = many_events(CRANK, laps, gear, NOTCHES)
    assert np.isnan(found.percent[1, :, :, :2]).all()
    assert (found.openings[1, :, :, 0] == 0).all()
    assert np.isfinite(found.percent[0]).all()
    assert (found.openings[0] == 1).all()
    assert (found.opening[1] < 0).all()


def test_a_candidate_that_locks_is_told_from_its_neighbours() -> None:
    gear = ALL["Stephenson, outside"]
    assert isinstance(gear, Stephenson)
    links = np.array([gear.lifting_link, 0.2 * gear.lifting_link, gear.lifting_link])
    found = many_events(CRANK, VALVE, spread(gear, {"lifting_link": links}), NOTCHES)
    assert found.turns.tolist() == [True, False, True]
    assert np.array_equal(found.percent[0], found.percent[2])
