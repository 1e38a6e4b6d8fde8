"""The map of the true cycle: what it holds, how it is marched, and the run that goes by it."""

from __future__ import annotations

import dataclasses
from concurrent.futures import ThreadPoolExecutor
from functools import cache

import numpy as np
import pytest

from tests.designs import ROOT
from weighshaft import job, steam
from weighshaft.design import Design, read
from weighshaft.job.mapped import SOURCE, engine_map
from weighshaft.job.steamed import engine_of
from weighshaft.running.assumed import CYCLE
from weighshaft.sizes import SizeError
from weighshaft.steam.map import SHARES


@cache
def hartfell() -> tuple[Design, job.Work]:
    design = read(ROOT / "sample_designs" / "hartfell.loco.json")
    return design, job.work(design)


@cache
def engine() -> steam.Engine:
    design, work = hartfell()
    names = ("scale", "cylinders", "motion", "firing")
    return engine_of(design, {name: getattr(work, name) for name in names})


@cache
def mapped() -> steam.CycleMap:
    design, _ = hartfell()
    return steam.map_of(design.steam, engine(), notches=(1.0, 0.5, -1.0), pace=8.0)


def test_a_place_of_the_map_is_what_the_chapter_has_there() -> None:
    design, work = hartfell()
    made = mapped()
    assert made.notches.tolist() == [1.0, 0.5], "what drives backward is left out"
    there = (len(SHARES) - 1, 1, made.speeds.tolist().index(8.0))
    result = work.steam
    assert result.speed == pytest.approx(8.0)
    assert result.notch == 0.5
    efficiency = design.cylinders.haulage.efficiency / 100
    assert made.pull[there] * efficiency == pytest.approx(result.pull, rel=1e-9)
    assert 1000 * made.steam[there] == pytest.approx(result.steam_rate, rel=1e-9)


def test_the_map_falls_with_speed_and_rises_with_pressure() -> None:
    made = mapped()
    assert made.refused == 0
    assert np.all(np.diff(made.pull[-1, 0]) < 0)
    assert np.all(np.diff(made.pull[:, 0, :4], axis=0) > 0)
    assert np.all(np.diff(made.steam[-1], axis=1) > 0), "more steam a second, faster"
    assert np.all(made.steam[-1, 0] > made.steam[-1, 1]), "and in full gear"


def test_any_executor_marches_the_same() -> None:
    design, _ = hartfell()
    running = [steam.Running(speed=v, notch=0.5, regulator=1, pressure=4) for v in (6.0, 9.0, 12.0)]
    conditions = [
        steam.Condition(steam=design.steam, engine=engine(), running=one) for one in running
    ]
    told: list[tuple[int, int]] = []
    with ThreadPoolExecutor(2) as executor:
        beside = steam.Marching(executor, lambda done, of: told.append((done, of))).all(conditions)
    assert beside == steam.Marching().all(conditions)
    assert told[0] == (0, 3)
    assert told[-1] == (3, 3)


def test_stop_ends_it_between_two_conditions() -> None:
    design, _ = hartfell()
    done: list[int] = []
    marching = steam.Marching(None, lambda n, of: done.append(n), lambda: done[-1] >= 2)
    with pytest.raises(steam.Stopped):
        steam.map_of(design.steam, engine(), notches=(1.0,), pace=8.0, marching=marching)
    assert done[-1] == 2


def test_what_cannot_run_pulls_nothing_and_is_counted() -> None:
    design, _ = hartfell()
    weak = dataclasses.replace(engine(), pressure=100.0)  # beyond the steam table
    with pytest.raises(SizeError, match="outside the steam table"):
        steam.map_of(design.steam, weak, notches=(1.0,), pace=8.0)
    # at the table's end only the least of the three pressures can be had
    edge = dataclasses.replace(engine(), pressure=40.0)
    made = steam.map_of(design.steam, edge, notches=(1.0,), pace=30.0)
    assert 0 < made.refused < made.conditions
    assert not made.pull[-1].any()
    assert made.pull[0].all()
    assert "outside the steam table" in made.why
    assert "cannot run" in engine_map(made).source


def test_no_notch_ahead_is_refused_in_words() -> None:
    design, _ = hartfell()
    with pytest.raises(SizeError, match="drives the engine forward"):
        steam.map_of(design.steam, engine(), notches=(-1.0, 0.0), pace=8.0)


def test_the_run_goes_by_the_map_as_long_as_it_is_this_engines() -> None:
    design, work = hartfell()
    assert work.running.source.startswith(CYCLE)
    by_map = job.work(design, shown="running", before=work, mapped=mapped())
    assert by_map.running.source == SOURCE
    # indicated pull less the friction of the motion, at a speed of the map
    pulling = by_map.running.notches[0]
    off = sum(one.force for one in by_map.running.shares if one.name == "Engine, its motion")
    at = float(np.interp(8.0, by_map.running.speeds, pulling.pull))
    full = float(mapped().pull[-1, 0, mapped().speeds.tolist().index(8.0)])
    assert at == pytest.approx(full - off, rel=0.01)
    other = design.changed({"nozzle.diameter": 3.5})
    there = job.work(other, shown="running", before=work, mapped=mapped())
    assert there.running.source.startswith(CYCLE)
    slower = design.changed({"steam.running.speed": 5.0})
    there = job.work(slower, shown="running", before=work, mapped=mapped())
    assert there.running.source == SOURCE, "the running looked at is not the engine"
